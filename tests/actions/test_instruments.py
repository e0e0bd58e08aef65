"""The instrument that is used: its accuracy in the verdict, its calibration and its range."""

from decimal import Decimal

import pytest

from fieldapp.actions.beginning import begin
from fieldapp.actions.entering import correct_reading, end, enter, read, start
from fieldapp.actions.rules import Act, Refusal
from fieldapp.judgement.evaluation import StepState, evaluate
from fieldapp.judgement.verdict import Place
from tests.actions.hookup import arrived, evacuated
from tests.actions.play import BEGIN, CHECKLIST, SHEET, TECHNICIAN, Play

FINE, COARSE, LATE, NARROW = "fine_gauge", "dial_gauge", "late_gauge", "narrow_gauge"


def gauge(name, accuracy, *, due="2032-01-01", more=""):
    return f"""
[[instrument]]
id = "{name}"
name = "{name.replace("_", " ").capitalize()}"
serial = "S-1"
unit = "hPa"
{accuracy}
calibrated = 2030-01-01
due = {due}
{more}
"""


INSTRUMENTS = "".join([
    gauge(FINE, 'accuracy = "0.1 hPa"'),
    gauge(COARSE, 'accuracy_of_span = "1.6 %"\nspan = "1000 hPa"'),
    gauge(LATE, 'accuracy = "0.1 hPa"', due="2031-05-03"),
    gauge(NARROW, 'accuracy = "0.1 hPa"', more='lowest = "1 hPa"\nhighest = "100 hPa"'),
])  # fmt: skip
WITH = SHEET.replace("[[crew]]", f"{INSTRUMENTS}\n[[crew]]", 1)


@pytest.fixture
def play():
    made = Play(CHECKLIST, WITH)
    made.do(enter, "permit_ends", {"value": "18:00"})
    made.do(enter, "plate_serial", {"value": "MX-4471"})
    made.do(enter, "locked", {"value": "yes"})
    made.do(enter, "second_name", {"value": "Ben Thorne"})
    made.do(enter, "station_p", {"value": "843.2"})
    return made


def reached(play, value, instrument):
    play.do(enter, "reached", value, instrument=instrument)
    return evaluate(play.job, play.now).steps["target"].verdicts["reached"]


@pytest.mark.parametrize(
    ("instrument", "guard"),
    [
        ("vacuum_gauge", "3.4"),  # 0.2 hPa + 2 % of 160.0
        (FINE, "0.1"),  # absolute
        (COARSE, "16.0"),  # 1.6 % of 1000
    ],
    ids=["of reading", "absolute", "of span"],
)
def test_guard_is_that_of_the_instrument_that_was_used(play, instrument, guard):
    verdict = reached(play, {"value": "160.0"}, instrument)
    assert verdict.range.guard == Decimal(guard)
    # 166.65 less 160.0 is 6.65: inside unless the guard is more than that
    wanted = Place.INSIDE if Decimal(guard) <= Decimal("6.65") else Place.TOO_NEAR
    assert verdict.place is wanted


def test_overdue_instrument_is_a_deviation_by_itself(play):
    verdict = reached(play, {"value": "50.0"}, LATE)
    assert (verdict.place, verdict.sentence) == (
        Place.OUTSIDE, "Late gauge is 1 day past its calibration.",
    )  # fmt: skip
    assert evaluate(play.job, play.now).steps["target"].state is StepState.DEVIATION


@pytest.mark.parametrize(
    ("value", "place"),
    [
        ("0.9", Place.OUTSIDE),
        ("1", Place.INSIDE),
        ("100.0", Place.INSIDE),
        ("100.1", Place.OUTSIDE),
    ],
)
def test_reading_outside_the_instrument_s_range_is_a_deviation_by_itself(play, value, place):
    verdict = reached(play, {"value": value}, NARROW)
    assert verdict.place is place
    if place is Place.OUTSIDE:
        assert verdict.sentence == (
            "Narrow gauge: this lies outside its range, 1 to 100\u00a0hPa."
        )  # fmt: skip


def test_range_is_held_against_the_reading_in_its_own_unit(play):
    assert reached(play, {"value": "11", "value_unit": "kPa"}, NARROW).place is Place.OUTSIDE
    assert reached(play, {"value": "9", "value_unit": "kPa"}, NARROW).place is Place.INSIDE


def test_instrument_of_another_quantity_is_refused(play):
    refused = play.try_(enter, "reached", {"value": "50.0"}, instrument="thermometer")
    assert "Thermometer reads temperature, this asks for absolute pressure." in str(refused)


def test_instrument_that_the_job_sheet_lacks_is_refused(play):
    refused = play.try_(enter, "reached", {"value": "50.0"}, instrument="other")
    assert "Instrument “other” is not on the job sheet." in str(refused)


def holding(play):
    play.do(enter, "reached", {"value": "50.0"}, instrument=FINE)
    play.do(start, "hold_readings")
    begin_at = play.minute
    for place, pressure in enumerate(("62.0", "63.1", "64.1", "65.2")):
        play.minute = begin_at + 10 * place
        fields = {"hold_p": pressure, "hold_t": "21.5", "hold_p_instrument": FINE}
        play.do(read, "hold_readings", fields)
    play.do(end, "hold_readings")
    return play


def test_column_of_a_hold_can_be_read_with_another_instrument(play):
    holding(play)
    values = evaluate(play.job, play.now).values
    # of the fine gauge, 0.1 hPa; the repeatability of the usual one is 0.1 hPa as well
    assert values.numbers["hold_p_last"].uncertainty == pytest.approx(10.0)
    assert values.numbers["hold_t_last"].uncertainty == pytest.approx(0.5)


def test_correction_of_a_reading_keeps_the_instrument(play):
    holding(play)
    reading = play.job.state.attempt("hold_readings").readings[-1]
    given = {"hold_p": "65.3", "hold_t": "21.5"}
    play.do(correct_reading, "hold_readings", reading.sequence, given, "digits turned round")
    last = play.job.state.attempt("hold_readings").readings[-1]
    assert last.fields["hold_p_instrument"] == FINE


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"hold_p_instrument": "thermometer"}, "Thermometer reads temperature"),
        ({"hold_p_instrument": "other"}, "“other” is not on the job sheet"),
        ({"hold_x_instrument": FINE}, "there is no column"),
    ],
    ids=["other quantity", "not on the sheet", "no column"],
)
def test_column_refuses_what_cannot_read_it(play, fields, words):
    play.do(enter, "reached", {"value": "50.0"}, instrument=FINE)
    play.do(start, "hold_readings")
    refused = play.try_(read, "hold_readings", {"hold_p": "62.0", "hold_t": "21.5", **fields})
    assert isinstance(refused, Refusal)
    assert words in str(refused)


def test_without_another_one_the_checklist_s_own_was_used():
    play = evacuated()
    assert play.job.state.latest("reached").instrument == "vacuum_gauge"
    assert arrived().job.state.latest("locked").instrument == ""


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ('lowest = "5 hPa"\nhighest = "5 hPa"', "highest must lie above lowest"),
        ('lowest = "5 degC"', "lowest"),
    ],
)
def test_range_of_an_instrument_must_make_sense(more, words):
    sheet = SHEET.replace("[[crew]]", gauge("odd", 'accuracy = "1 hPa"', more=more) + "[[crew]]", 1)
    problems = begin(CHECKLIST, sheet, Act(TECHNICIAN, BEGIN))
    assert any(words in str(problem) for problem in problems)
