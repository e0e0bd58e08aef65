"""A hold says which reading is due, judges the leak rate at once, and survives a restart."""

import pytest

from fieldapp.judgement.evaluation import evaluate
from fieldapp.screens.timed.hold_rise import leak_test_of, rises, shape_words
from fieldapp.screens.timed.hold_view import hold_view
from tests.screens.stages import desktop, job_at, moment
from tests.screens.test_trace_view import plain, plate


def viewed(text, now=None, entry="hold_readings", day=16, part="", typed=None):
    job, at = job_at(text, day), moment(now or text, day)
    step = job.checklist.step_of(entry)
    return hold_view(job, evaluate(job, at), job.checklist.entry(entry), at, desktop(step.id),
                     part=part, typed=typed)  # fmt: skip


def test_clock_and_due_reading_come_from_stored_times():
    view = viewed("13:05:00", "13:12:20")
    assert (view.clock, view.of) == ("27:20", "of 30:00")
    assert view.due == "Reading 4 of 4: due 13:15, in 2:40"
    assert [row.minute for row in view.rows if row.now] == ["30"]


def test_rise_is_corrected_for_temperature():
    job = job_at("13:15:00")
    entry = job.checklist.entry("hold_readings")
    test = leak_test_of(job, evaluate(job, moment("13:15:00")).values, entry)
    # 65.2 hPa at 23.0 degC is 64.87 at 21.5 (Gay-Lussac): 2.87 above 62.0.
    assert test is not None
    minutes, rise = rises(job.state.attempt(entry.id), test)[-1]
    assert minutes == 30
    assert rise == pytest.approx(2.87, abs=0.005)
    # 0.333 hPa L/s for 30 min into 120.1 L is 4.99 hPa.
    assert test.allowed_rise == pytest.approx(499, abs=1)


def test_leak_rate_is_judged_as_soon_as_it_can_be():
    assert viewed("12:55:00").verdict.second == "The leak rate can be told after 20 min."
    view = viewed("13:15:00")
    assert view.verdict.mark == "proven"
    assert plain(view.verdict.sentence).startswith("Leak rate 0.192 hPa·L/s. Inside by 0.1")


@pytest.mark.parametrize(
    ("points", "words"),
    [
        (((0, 0), (10, 10), (20, 20), (30, 30)), "straight: that is a leak"),
        (((0, 0), (10, 14), (20, 20), (30, 23)), "flattens: that is outgassing"),
        (((0, 0), (10, 1.0), (20, 1.9), (30, 2.9)), "too small to tell"),
        (((0, 0), (10, 10), (20, 20)), ""),
    ],
)
def test_shape_of_the_rise_is_told_from_four_readings_on(points, words):
    assert words in shape_words(points, 0.3)


def test_reading_is_kept_once_all_columns_are_typed():
    typed = {"hold_pressure": "65.2", "hold_wall": "23.0"}
    assert plate(viewed("13:05:00", typed=typed), "keep row").second == "type 1 first"
    view = viewed("13:05:00", typed={**typed, "hold_station": "843.1"})
    assert plate(view, "keep row").kind == "main"
    assert dict(view.row)["hold_station"] == "843.1"


def test_wait_without_columns_ends_when_the_time_is_over():
    early = viewed("10:08:30", "11:20:00", "attended_wait", 17)
    assert plate(early, "ask end").first == "End early"
    assert early.due == "Look again at 11:38, in 18:30"
    over = viewed("10:08:30", "12:09:00", "attended_wait", 17)
    assert plate(over, "ask end").kind == "main"
    assert over.verdict.sentence == "Waited long enough."
