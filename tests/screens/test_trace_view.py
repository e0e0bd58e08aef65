"""A pull says where it stands, where it ends, and when the next reading is due."""

from dataclasses import replace

import pytest

from fieldapp.engineering.air.outlook import Blanked
from fieldapp.judgement.evaluation import evaluate
from fieldapp.screens.diagram_state import diagram_of
from fieldapp.screens.timed.trace_pull import aim_of, course_of
from fieldapp.screens.timed.trace_view import trace_view
from fieldapp.screens.timed.trace_words import pull_verdict
from tests.screens.stages import desktop, job_at, moment


def viewed(text, now=None, entry="pull_down", day=16, part="", typed=None):
    job, at = job_at(text, day), moment(now or text, day)
    evaluation = evaluate(job, at)
    step = job.checklist.step_of(entry)
    diagram = diagram_of(job, evaluation, step.part)
    return trace_view(job, evaluation, job.checklist.entry(entry), at, desktop(step.id),
                      part=part, typed=typed, diagram=diagram)  # fmt: skip


def plain(text):
    return text.replace("\xa0", " ")


def plate(view, name):
    return next(one for one in view.frame.plates if one.name == name)


def aim_at(text, taken):
    job = job_at(text)
    values = evaluate(job, moment(text)).values
    return aim_of(job, values, job.checklist.entry("pull_down"), taken)


def test_aim_is_the_limit_less_what_the_gauge_in_hand_may_be_off():
    coarse = aim_at("11:24", "barometer")
    assert coarse.limit == pytest.approx(16665)
    assert coarse.pressure != aim_at("11:24", "absolute_gauge").pressure


def test_aim_is_the_limit_less_what_the_gauge_may_be_off():
    aim = aim_at("11:24", "absolute_gauge")
    assert aim.limit == pytest.approx(16665)
    assert aim.pressure == pytest.approx(16465)
    assert aim.station == pytest.approx(84320)
    assert aim.blanked is not None
    assert aim.blanked.pressure == pytest.approx(800)


def test_target_is_rounded_up_on_a_dial_and_the_deepest_down():
    words = plain(viewed("11:24").pull.target)
    assert "Target 164 hPa, 20.1 inHg on a dial here." in words
    assert "25.0 inHg, right at sea level, cannot be reached here." in words
    assert words.endswith("The deepest a dial can go here is 24.8.")


def test_first_pull_stalls_and_the_pump_alone_says_leak():
    view = viewed("11:38:00", "11:38:10")
    assert view.verdict.mark == "failed"
    assert plain(view.verdict.sentence) == "Will not get there: it levels out at 231 hPa."
    assert view.verdict.second == "Pump alone 8: a leak, not the pump."
    assert plate(view, "ask end").kind == "main"


def test_without_the_pump_alone_nobody_says_leak():
    job, at = job_at("11:38:00"), moment("11:38:10")
    given = {name: kept for name, kept in job.state.given.items() if name != "pump_alone"}
    job = replace(job, state=replace(job.state, given=given))
    view = trace_view(job, evaluate(job, at), job.checklist.entry("pull_down"), at, desktop("pull"))
    assert view.verdict.sentence.startswith("Will not get there")
    assert view.verdict.second == "Read the pump alone: leak or pump?"


@pytest.mark.parametrize(
    ("alone", "words"),
    [(231, "it is the pump."), (180, "it is the pump, and air comes in too."), (8, "a leak, not")],
)
def test_pump_that_does_not_reach_the_target_alone_is_blamed_first(alone, words):
    job, now = job_at("11:38:00"), moment("11:38:10")
    entry = job.checklist.entry("pull_down")
    aim = aim_of(job, evaluate(job, now).values, entry, "absolute_gauge")
    aim = replace(aim, blanked=Blanked(alone * 100.0, 200.0))
    attempt, column = job.state.attempts["pull_down"][-1], entry.columns[0]
    verdict = pull_verdict(course_of(attempt, column, aim), attempt, column, aim, now)
    assert words in plain(verdict.second)


def test_second_pull_says_how_long_it_takes():
    view = viewed("12:36:30", "12:36:31")
    assert plain(view.verdict.sentence) == "Not yet: 84 hPa to go to 164."
    assert view.verdict.second == "Less than a minute to go."
    early, likely, late = view.pull.chart.expected
    assert early < likely < late
    assert len(view.pull.chart.history) == 1


def test_early_readings_tell_no_time():
    assert viewed("12:35:00").verdict.second == "Too early to say when."


def test_reached_ends_with_the_blue_plate():
    view = viewed("12:39:30")
    assert plain(view.verdict.sentence) == "Reached: 62, target 164 hPa."
    assert plate(view, "ask end").kind == "main"


@pytest.mark.parametrize(
    ("now", "words"),
    [("12:36:41", "due in 0:19"), ("12:37:05", "due now"), ("12:37:40", "late by 0:40")],
)
def test_next_reading_counts_from_the_one_that_is_kept(now, words):
    assert viewed("12:36:30", now).due == words


def test_keys_stand_around_what_the_needle_will_show():
    keys = viewed("12:36:30", "12:36:41").pull.keys
    assert keys.starts[1] <= 194 <= keys.starts[1] + keys.division * keys.per_group
    assert keys.division == 10
    slow = viewed("11:38:00", "11:38:10").pull.keys
    assert slow.division == 1


def test_value_stands_in_both_kinds_of_pressure():
    chart = viewed("11:38:00").pull.chart
    assert (chart.value_text, chart.unit, chart.value_beside) == ("242", "hPa", "= 17.8 inHg here")


def test_ended_try_is_told_and_can_be_started_again():
    view = viewed("11:40")
    assert view.pull.keys is None
    (told,) = view.pull.tries
    assert plain(told) == "Try 1, 11:30 to 11:38: 17 readings, down to 242 hPa. “stalls”"
    assert plate(view, "start").first == "Start again"


def test_while_it_runs_the_line_diagram_shows_vacuum():
    view = viewed("11:33:00")
    assert view.diagram.content_of("vessel") == "vacuum"
    assert view.diagram.state_of("vacuum_valve") == "open"


def test_keypad_keeps_the_time_at_which_the_gauge_was_read():
    part = "pull_pressure 2026-06-16T12:36:41+02:00"
    view = viewed("12:36:30", "12:36:50", part=part, typed={"pull_pressure": "296"})
    keep = view.pad.body.side[-1]
    assert (keep.kind, keep.details) == (
        "main", ("pull_pressure", "296", "2026-06-16T12:36:41+02:00")
    )  # fmt: skip
    assert view.pad.asking.text == "Read at 12:36:41; this time is kept with it."


def test_row_takes_what_is_unchanged_from_the_last_one():
    view = viewed("09:51:00", "10:05:30", "hour1_readings", 17, typed={"hour1_flow": "12.1"})
    row = dict(view.table.row)
    assert (row["hour1_flow"], row["hour1_oil"], len(row)) == ("12.1", "48.0", 8)
    assert (view.table.unchanged, view.table.missing) == (7, 0)
    assert plate(view, "keep row").second == "7 left unchanged"


def test_first_row_must_be_typed():
    view = viewed("09:06:00", "09:06:00", "hour1_readings", 17)
    job = job_at("09:06:00", 17)
    assert len(job.state.attempt("hour1_readings").readings) == 1
    assert view.table.times == ("09:06",)


def test_correction_shows_the_old_value_and_asks_why():
    last = job_at("12:36:30").state.attempt("pull_down").readings[-1].sequence
    part = f"why {last} pull_pressure"
    view = viewed("12:36:30", part=part, typed={"pull_pressure": "284"})
    assert view.note.title == "What was wrong? 248 becomes 284."
    assert view.note.details == (last, {"pull_pressure": "284"})
