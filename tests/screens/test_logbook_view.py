"""The logbook's chart holds whatever was typed, and at most five marks on each side."""

from datetime import datetime, timedelta

import pytest

from fieldapp.logbook.course import Course
from fieldapp.logbook.shapes import Amount, Dryness, Due, Enough, Line, Logbook
from fieldapp.screens.weeks.logbook_view import logbook_view

START = datetime.fromisoformat("2026-06-17T08:00+02:00")


def book(days, water):
    total = Amount(water, 0.1 * water)
    lines = (
        Line("SP-1", "Hookup, start", START, 0.0, signed=True),
        Line("SP-1.visit-1", "Visit", START + timedelta(days=days), days, True, total=total),
    )
    return Logbook("SP-1", "T2", "Sorrel Point", lines, total, False, Enough(17.0), (), "",
                   Due("", None, ""), Dryness("not known", ""))  # fmt: skip


@pytest.mark.parametrize(
    ("days", "water"), [(7.0, 1.6), (30.0, 9.0), (4000.0, 3000.0), (9.0, 3.1e6)]
)
def test_chart_has_a_scale_for_any_weeks(days, water):
    view = logbook_view(book(days, water), Course("SP-1", None), START, 0, ("", False))
    assert view.chart is not None
    assert 2 <= len(view.chart.value_ticks) <= 6
    assert 2 <= len(view.chart.time_ticks) <= 6
