"""A list turns its pages wherever its rail leaves room, and every plate can be touched."""

import pytest

from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.row_view import ListView, PipeView, RowView
from tests.screens.findings import findings


@pytest.mark.parametrize("plates", [0, 2, 3, 4, 5])
@pytest.mark.parametrize("rows", [1, 30])
def test_rail_and_pages_never_lie_over_each_other(driver, plates, rows):
    from fieldapp.screens.listing import ListScreen

    screen = driver.show(ListScreen())
    screen.show(
        ListView(
            "Jobs", ("17 Jun, 13:30",),
            tuple(PlateView(f"plate {at}", f"Plate {at}") for at in range(plates)),
            tuple(RowView("row", (str(at),), f"Row {at}") for at in range(rows)),
        )
    )  # fmt: skip
    driver.frames(3)
    assert findings(screen) == []
    heard = []
    screen.bind(on_touched=lambda _, *what: heard.append(what))
    if rows > 1:
        driver.tap("down")
        assert heard[-1] == ("page", screen.ids.rows.start)
        assert screen.ids.rows.start > 0


@pytest.mark.parametrize("plates", [3, 5])
def test_what_was_not_possible_hides_no_row_and_no_plate(driver, plates):
    from fieldapp.screens.listing import ListScreen

    screen = driver.show(ListScreen())
    rail = tuple(PlateView(f"plate {at}", f"Plate {at}") for at in range(plates))
    rows = tuple(RowView("row", (str(at),), f"Row {at}") for at in range(30))
    words = "The sheet is not sound yet: put right what is marked, then touch it again."
    screen.show(ListView("Job", (), rail, rows, told=(words, False)))
    driver.frames(3)
    assert findings(screen) == []
    (told,) = (one for one in driver.all(kind="Told") if one.text)
    assert not any(told.collide_widget(row) for row in driver.all(kind="Row"))


@pytest.mark.parametrize("plates", [1, 3, 4, 5, 7])
def test_rail_takes_two_lines_upright_before_its_words_are_clipped(driver, plates):
    from kivy.core.window import Window

    from fieldapp.screens.listing import ListScreen

    screen = ListScreen()
    Window.add_widget(screen)
    screen.size_hint, screen.size, screen.pos = (None, None), (800, 1280), (0, 0)
    rail = tuple(PlateView(f"plate {at}", "New job", "from a sheet") for at in range(plates))
    screen.show(ListView("Jobs", ("17 Jun",), rail, (RowView("row", ("0",), "Row"),) * 30))
    driver.frames(3)
    assert [found for found in findings(screen) if "off the window" not in found] == []


LONG_ROW = RowView(
    "open job", ("0",), "Auto-transformer 3 North", "Upper Valley on the Hill Substation",
    "now", "at work", right="Enter the permit and when it ends", age="3 min",
    below="KM-2031.04-A-VERY-LONG-NUMBER-OF-A-JOB", pipe=PipeView(12, 0, 0.5),
    under_pipe="Arrive, 0 of 12",
)  # fmt: skip


@pytest.mark.parametrize("wide", [1280, 800])
def test_long_names_of_a_job_stay_inside_their_row(driver, wide):
    from kivy.core.window import Window

    from fieldapp.screens.listing import ListScreen

    screen = ListScreen()
    Window.add_widget(screen)
    screen.size_hint, screen.size, screen.pos = (None, None), (wide, 800), (0, 0)
    screen.show(ListView("KM-2031.04-A-VERY-LONG-NUMBER", (), (), (LONG_ROW,)))
    driver.frames(3)
    assert findings(screen) == []
    assert len(driver.all(kind="JobPipe")) == (wide == 1280)
    written = " ".join(driver.texts())
    assert "KM-2031.04-" in written
    assert "A-JOB" in written
