"""A hold says which reading is due, judges the leak rate at once, and survives a restart."""

from dataclasses import replace

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
    ("pressures", "words"),
    [
        # the demo's gauge repeats to 0.3 hPa and its probe to 0.2 K; wall steady at 21.5 °C
        (("62.0", "72.0", "82.0", "92.0"), "straight: that is a leak"),
        (("62.0", "76.0", "82.0", "85.0"), "flattens: that is outgassing"),
        (("62.0", "63.0", "66.0", "72.0"), "steepens: something changed"),
        (("62.0", "63.0", "63.9", "64.9"), "too small to tell"),
        (("62.0", "62.1", "62.0", "62.1"), "No rise that this gauge can see"),
        (("62.0", "72.0", "82.0"), ""),
    ],
)
def test_shape_of_the_rise_is_told_from_four_readings_on(pressures, words):
    job = job_at("13:15:00")
    entry = job.checklist.entry("hold_readings")
    test = leak_test_of(job, evaluate(job, moment("13:15:00")).values, entry)
    attempt = job.state.attempt(entry.id)
    assert test is not None
    assert attempt is not None
    readings = tuple(
        replace(reading, fields={**reading.fields, "hold_pressure": pressure, "hold_wall": "21.5"})
        for reading, pressure in zip(attempt.readings, pressures, strict=False)
    )
    found = shape_words(replace(attempt, readings=readings), test, 0.12, job.sheet)
    assert words in found
    assert bool(found) == bool(words)


def test_hold_of_the_demo_is_too_small_to_tell_its_shape():
    assert viewed("13:15:00").verdict.second == "Straight or flattening: too small to tell."


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
