"""A list turns its pages wherever its rail leaves room, and every plate can be touched."""

import pytest

from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.row_view import ListView, RowView
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
