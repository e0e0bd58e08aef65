"""A deviation that stays open has a person and a day."""

from datetime import date

import pytest

from fieldapp.actions.entering import correct, enter
from fieldapp.actions.rules import Refusal
from fieldapp.actions.sign_off import accept, explain, promise, sign
from fieldapp.judgement.evaluation import StepState, evaluate
from tests.actions.hookup import ALARM, evacuated, hold
from tests.actions.play import LEAD, Play


def deviation(play):
    return evaluate(play.job, play.now).steps["target"].deviations[0]


@pytest.fixture
def accepted():
    play = evacuated("165.0")
    play.do(explain, "reached", "measured twice")
    play.do(accept, "reached", "measured again before start", who=LEAD)
    return play


def test_person_and_day_stand_beside_the_acceptance(accepted):
    accepted.do(promise, "reached", "Ben Thorne", "2031-05-20")
    found = deviation(accepted).promise
    assert (found.person, found.due) == ("Ben Thorne", date(2031, 5, 20))
    assert evaluate(accepted.job, accepted.now).steps["target"].state is StepState.DONE


def test_a_later_promise_stands_in_place_of_the_earlier_one(accepted):
    accepted.do(promise, "reached", "Ben Thorne", "2031-05-20")
    accepted.do(promise, "reached", "Ada Quill", "2031-06-01")
    assert deviation(accepted).promise.person == "Ada Quill"
    assert len(accepted.job.state.promises["reached"]) == 2


def test_promise_belongs_to_what_was_entered_and_not_to_what_comes_after(accepted):
    accepted.do(promise, "reached", "Ben Thorne", "2031-05-20")
    accepted.do(correct, "reached", {"value": "165.1"}, "digits turned round")
    assert deviation(accepted).promise is None


@pytest.mark.parametrize(
    ("subject", "person", "due", "words"),
    [
        ("reached", "", "2031-05-20", "Say who puts it right."),
        ("reached", "Ben Thorne", "soon", "“soon” is no day: write it like 2026-06-30."),
        ("reached", "Ben Thorne", "2031-05-03", "2031-05-03 is past: name a day to come."),
        ("locked", "Ben Thorne", "2031-05-20", "Nothing is outside its limits there."),
    ],
    ids=["nobody", "no day", "past", "no deviation"],
)
def test_what_is_no_promise_is_refused(accepted, subject, person, due, words):
    refused = accepted.try_(promise, subject, person, due)
    assert isinstance(refused, Refusal)
    assert str(refused) == words


def test_what_nobody_may_accept_cannot_be_left_open():
    play = Play()
    play.do(enter, "permit_ends", {"value": "08:30"})
    refused = play.try_(promise, "permit_ends", "Ben Thorne", "2031-05-20")
    assert str(refused) == "Nobody may leave this open: put it right and do it again."


def test_nobody_signs_while_a_condition_has_no_name_and_no_day(accepted):
    hold(accepted)
    accepted.do(enter, "a_flow", ALARM)
    accepted.do(enter, "bubble_free", {"value": "none"})
    accepted.do(enter, "handed", {"value": "yes"})
    words = "accepted on a condition. Say who sees to it, by which day."
    (refused,) = accepted.try_(sign, "technician", "ab").reasons
    assert refused.endswith(words)
    accepted.do(promise, "reached", "Ben Thorne", "2031-05-20")
    accepted.do(sign, "technician", "ab")


def test_condition_of_a_value_entered_anew_needs_its_name_and_day_again(accepted):
    accepted.do(promise, "reached", "Ben Thorne", "2031-05-20")
    accepted.do(enter, "reached", {"value": "166.0"}, instrument="vacuum_gauge")
    accepted.do(accept, "reached", "measured again before start", who=LEAD)
    assert deviation(accepted).unowned
