"""What the screens of steps and entries say, without a window."""

from datetime import datetime, timedelta

import pytest

from fieldapp.actions.entering import close_valve
from fieldapp.actions.rules import Act
from fieldapp.checklist.facts import VALVES
from fieldapp.job.events import Aside, Closed, Event, Settled, document_of
from fieldapp.judgement.evaluation import evaluate
from fieldapp.screens.diagram_state import diagram_of
from fieldapp.screens.draft import Draft
from fieldapp.screens.entry.entry_answers import parts_of
from fieldapp.screens.entry.entry_times import shown_time, written_time
from fieldapp.screens.entry.entry_view import body_of, earlier_attempts
from fieldapp.screens.frame_view import Desktop, frame_view
from fieldapp.screens.instruments_view import instrument_view
from fieldapp.screens.steps.step_view import step_view
from fieldapp.screens.steps.steps_view import steps_view, why_words
from tests.actions.hookup import ALARM, arrived, evacuated, held, proven
from tests.actions.play import LEAD, TECHNICIAN, Play

NOON = datetime.fromisoformat("2026-06-16T12:00+02:00")


def body(play, entry, part="", instrument="", **fields):
    found = play.job.checklist.entry(entry)
    draft = Draft(fields, instrument, TECHNICIAN, play.now)
    return body_of(play.job, evaluate(play.job, play.now), found, draft, part)


def frame(play, step=""):
    evaluation = evaluate(play.job, play.now)
    return frame_view(play.job, evaluation, play.now, Desktop(TECHNICIAN, step))


@pytest.mark.parametrize(
    ("digits", "days", "kept"),
    [
        ("1830", 0, "18:30"),
        ("1830", 1, "2026-06-17 18:30"),
        ("1830", -1, "2026-06-15 18:30"),
        ("20260528", 0, "2026-05-28"),
        ("18", 0, "18"),
        ("18.3", 0, "18.3"),
    ],
)
def test_digits_become_a_time(digits, days, kept):
    assert written_time(digits, days, NOON) == kept


@pytest.mark.parametrize(
    ("digits", "shown"),
    [("1", "1"), ("183", "18:3"), ("1830", "18:30"), ("202605", "2026-05"), ("", "")],
)
def test_digits_are_shown_as_a_time_while_typing(digits, shown):
    assert shown_time(digits) == shown


@pytest.mark.parametrize("typed", ["", "0.", "-", "5x"])
def test_what_is_no_number_yet_has_no_verdict_and_cannot_be_kept(typed):
    shown = body(arrived_at_gauge(), "reached", instrument="vacuum_gauge", value=typed)
    assert shown.verdict.sentence == ""
    assert shown.side[-1].kind == "waiting"


@pytest.mark.parametrize(
    ("typed", "mark", "blue"),
    [("50", "proven", "keep"), ("165", "near", "again"), ("170", "failed", "again")],
    ids=["inside", "too near", "outside"],
)
def test_blue_plate_is_the_safe_way(typed, mark, blue):
    shown = body(arrived_at_gauge(), "reached", instrument="vacuum_gauge", value=typed)
    assert shown.verdict.mark == mark
    assert [plate.name for plate in shown.side if plate.kind == "main"] == [blue]


def arrived_at_gauge():
    from fieldapp.actions.entering import enter

    play = arrived()
    play.do(enter, "station_p", {"value": "843.2"})
    return play


def test_ruler_stands_there_before_the_first_digit():
    shown = body(arrived_at_gauge(), "reached", instrument="vacuum_gauge")
    assert (shown.ruler.upper, shown.ruler.reading) == (166.65, None)
    assert shown.ruler.guard > 0
    assert shown.limit.startswith("At most 166.65\xa0hPa. With this instrument,")


def test_comma_is_a_decimal_mark():
    shown = body(arrived_at_gauge(), "reached", instrument="vacuum_gauge", value="50,5")
    assert shown.shown == "50,5"
    assert shown.ruler.reading == 50.5


def test_shutdown_that_does_not_trip_asks_for_no_figures():
    entry = arrived().job.checklist.entry("a_flow")
    assert parts_of(entry, "yes") == ("tripped", "value", "closed_after", "seen")
    assert parts_of(entry, "no") == ("tripped", "seen")


def test_shutdown_is_judged_only_once_everything_was_said():
    play = held()
    whole = {**ALARM, "seen_1": ""}
    assert body(play, "a_flow", "seen", **whole).verdict.sentence == ""
    assert body(play, "a_flow", "seen", **ALARM).verdict.mark == "proven"


def test_earlier_attempts_stay_readable_in_order():
    from fieldapp.actions.entering import enter

    play = held()
    play.do(enter, "a_flow", {**ALARM, "closed_after": "7.5"})
    play.do(enter, "a_flow", ALARM)
    found = earlier_attempts(
        play.job, evaluate(play.job, play.now), play.job.checklist.entry("a_flow")
    )
    assert [attempt.mark for attempt in found] == ["failed", "proven"]
    assert "Closed after 7.5 s" in found[0].line


def test_instrument_past_its_calibration_is_said():
    play = arrived()
    (found,) = (one for one in play.job.sheet.instruments if one.id == "vacuum_gauge")
    late = datetime.combine(found.due, datetime.min.time()) + timedelta(days=3)
    assert instrument_view(found, late).overdue
    assert "overdue by 3 days" in instrument_view(found, late).calibration
    assert instrument_view(found, late).accuracy == "± (2 % + 0.2\xa0hPa)"


def test_waiting_step_leads_to_what_it_waits_for():
    play = Play()
    evaluation = evaluate(play.job, play.now)
    step = play.job.checklist.step("station")
    shown = step_view(play.job, evaluation, step, 0, frame(play))
    assert (shown.rows[0].touch, shown.rows[0].details) == ("go", ("valve",))
    assert shown.asking.heading == "Waits for “Lock the valve; two people look”."


def test_steps_say_why_they_wait_and_when_they_were_done():
    play = arrived()
    evaluation = evaluate(play.job, play.now)
    rows = steps_view(play.job, evaluation, "permit", 0, frame(play)).rows
    assert [row.word for row in rows] == ["done", "done", "done", "not needed"]
    assert rows[0].second.endswith(f"{TECHNICIAN}.")
    assert why_words(evaluation.steps["hold"], play.job) == (
        "Waits for “Enter the pressure reached”."
    )


def test_route_fills_by_steps_and_marks_deviations():
    shown = frame(evacuated("170.0"))
    assert [(phase.name, phase.state) for phase in shown.phases][:2] == [
        ("Arrive", "done"),
        ("Evacuate", "now"),
    ]
    assert shown.phases[1].deviation
    assert shown.part == pytest.approx(1 / 3)


def test_every_frame_has_the_way_to_safety():
    names = [plate.name for plate in frame(Play()).plates]
    assert names[:4] == ["back", "safe", "report", "people"]


def test_valve_on_the_diagram_follows_the_last_that_happened():
    play = arrived()
    job = play.job
    assert diagram_of(job, evaluate(job, play.now)).state_of("suction_tank_valve") == "closed"
    assert diagram_of(job, evaluate(job, play.now)).tag_of("suction_tank_valve") == "V-12"
    play.do(close_valve, VALVES[1])
    assert isinstance(play.job.state.log[-1].what, Closed)
    found = diagram_of(play.job, evaluate(play.job, play.now), "vessel")
    assert found.state_of(VALVES[1]) == "closed"
    assert found.here == "vessel"


def test_diagram_does_not_know_how_a_valve_stands_that_another_tablet_moved():
    play = arrived()
    act = Act(TECHNICIAN, play.now)
    closed = close_valve(play.job, "suction_tank_valve", act)
    assert isinstance(closed, tuple)
    moved = tuple(Aside("two", n, document_of(event)) for n, event in enumerate(closed, 1))
    after = play.job.state.next_sequence
    settled = Event(after, play.now, LEAD, Settled(after - 1, "one", "one stood there", moved))
    job = play.job.with_events((settled,))
    assert diagram_of(job, evaluate(job, play.now)).state_of("suction_tank_valve") == "unknown"


def test_trips_on_the_diagram_are_unproven_until_proven():
    before, after = held(), proven()
    assert diagram_of(before.job, evaluate(before.job, before.now)).trip("low_flow") == "unproven"
    found = diagram_of(after.job, evaluate(after.job, after.now))
    assert (found.trip("low_flow"), found.trip("air")) == ("proven", "not fitted")
