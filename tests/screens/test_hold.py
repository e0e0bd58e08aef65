"""The hold's screen takes a reading column by column."""

import pytest

from fieldapp.screens import theme
from tests.screens.findings import false_grounds, findings
from tests.screens.test_hold_view import viewed

TYPED = {"hold_pressure": "65.2", "hold_wall": "23.0", "hold_station": "843.1"}
SHOWN = {
    "before": ("12:41",),
    "running": ("13:05:00", "13:12:20"),
    "keypad": ("13:05:00", None, "hold_readings", 16, "hold_wall", TYPED),
    "ended": ("13:15:40",),
    "bypass": ("14:44:00", "14:53:00", "bypass_run"),
    "wait": ("10:08:30", "11:20:00", "attended_wait", 17),
}


@pytest.fixture
def screen(driver):
    from fieldapp.screens.timed.hold import HoldScreen

    made = driver.show(HoldScreen())
    made.heard = []
    made.bind(on_touched=lambda _, *what: made.heard.append(what))
    return made


@pytest.mark.parametrize("look", theme.LOOKS, ids=lambda look: look.name)
@pytest.mark.parametrize("name", SHOWN)
def test_all_can_be_read_and_touched(driver, screen, name, look):
    theme.switch_look(look)
    screen.show(viewed(*SHOWN[name]))
    driver.frames(3)
    assert findings(screen) == []
    assert list(false_grounds(screen, driver.picture())) == []
    driver.tap("safe")
    assert screen.heard == [("safe",)]


def test_reading_is_typed_and_kept(driver, screen):
    screen.show(viewed("13:05:00", "13:15:02"))
    driver.frames(3)
    driver.tap("hold_pressure")
    screen.show(viewed("13:05:00", "13:15:05", part="hold_pressure"))
    driver.frames(3)
    driver.tap("key 6")
    screen.show(viewed("13:05:00", "13:15:20", typed=TYPED))
    driver.frames(3)
    driver.tap("keep row")
    assert screen.heard == [
        ("ask", "hold_pressure"), ("typed", "6", "hold_pressure"), ("reading", TYPED),
    ]  # fmt: skip
