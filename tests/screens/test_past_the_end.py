"""A list that became shorter while its last page was shown stops at the last page it has."""

import pytest

from fieldapp.demo.player import checklist_text, sheet_text
from tests.screens.sitting import Sitting


@pytest.fixture
def sitting(tmp_path):
    made = Sitting(tmp_path, {"kestrel.toml": sheet_text()}, checklist_text())
    yield made.begin("Maren Holtby")
    made.desk.close()


@pytest.mark.parametrize("screen", ["steps", "step", "open", "people"])
def test_start_past_the_end_is_taken_back(driver, sitting, screen):
    from fieldapp.screens.shell import Shell

    if screen == "step":
        sitting.touch("go", sitting.job.checklist.steps()[0].id)
    elif screen != "steps":
        sitting.touch(screen)
    assert sitting.place.screen == screen
    shell = driver.show(Shell(sitting.desk))
    sitting.touch("page", 400)
    shell.show()
    driver.frames(3)
    assert sitting.place.screen == screen
    assert sitting.place.start < 400


def test_every_screen_that_the_desk_can_show_has_its_widget(window):
    from importlib import import_module

    from fieldapp.screens.desk.desk_views import VIEWS
    from fieldapp.screens.shell import SCREENS

    assert set(VIEWS) == set(SCREENS)
    for module, kind in SCREENS.values():
        assert hasattr(import_module(f"fieldapp.screens.{module}"), kind)
