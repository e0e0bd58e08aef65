"""The trace's screen takes a reading in two touches, and every part of it can be touched."""

from datetime import datetime

import pytest

from fieldapp.screens import theme
from tests.screens.findings import false_grounds, findings
from tests.screens.test_trace_view import viewed

SHOWN = {
    "before": ("11:24", None, "pull_down", 16, "", None),
    "stalls": ("11:38:00", "11:38:10", "pull_down", 16, "", None),
    "ended": ("11:40", None, "pull_down", 16, "", None),
    "second": ("12:36:30", "12:36:41", "pull_down", 16, "", None),
    "keypad": ("12:36:30", None, "pull_down", 16, "pull_pressure", {"pull_pressure": "296"}),
    "note": ("12:39:30", None, "pull_down", 16, "end", None),
    "table": ("09:51:00", None, "hour1_readings", 17, "", {"hour1_flow": "12.1"}),
}


@pytest.fixture
def screen(driver):
    from fieldapp.screens.timed.trace import TraceScreen

    made = driver.show(TraceScreen())
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


def test_two_touches_keep_a_reading(driver, screen):
    screen.show(viewed("12:36:30", "12:36:41"))
    driver.frames(3)
    driver.tap("about 1")
    screen.show(viewed("12:36:30", "12:36:42"))
    driver.frames(2)
    driver.tap("exactly 4")
    assert screen.heard == [("reading", {"pull_pressure": "190"})]


def test_stop_and_make_safe_is_one_touch_away(driver, screen):
    for stage in SHOWN.values():
        screen.show(viewed(*stage))
        driver.frames(3)
        driver.tap("safe")
    assert screen.heard == [("safe",)] * len(SHOWN)


def test_other_value_is_typed_and_kept_with_its_time(driver, screen):
    screen.show(viewed("12:36:30", "12:36:41"))
    driver.frames(3)
    driver.tap("ask other")
    (asked,) = screen.heard
    assert asked == ("ask", "pull_pressure 2026-06-16T12:36:41+02:00")
    screen.show(viewed("12:36:30", "12:36:50", part=asked[1], typed={"pull_pressure": "296"}))
    driver.frames(3)
    driver.tap("reading")
    when = datetime.fromisoformat("2026-06-16T12:36:41+02:00")
    assert screen.heard[-1] == ("reading", {"pull_pressure": "296"}, when)


def test_end_comes_with_a_note(driver, screen):
    screen.show(viewed("12:39:30", part="end"))
    driver.frames(3)
    driver.tap("reason 0")
    driver.tap("keep")
    assert screen.heard == [("end", "nothing unusual")]


def test_same_is_one_touch_for_a_column_and_one_for_the_row(driver, screen):
    screen.show(viewed("09:51:00", None, "hour1_readings", 17))
    driver.frames(3)
    driver.tap("hour1_level")
    driver.tap("column hour1_flow")
    driver.tap("keep row")
    assert screen.heard[:2] == [("typed", "60", "hour1_level"), ("ask", "hour1_flow")]
    what, row = screen.heard[2]
    assert (what, row["hour1_in"], len(row)) == ("reading", "19.5", 8)
