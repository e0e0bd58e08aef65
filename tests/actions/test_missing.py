"""What cannot be taken: said with a reason, never counted as done where nobody may accept it."""

import pytest

from fieldapp.actions.entering import cannot_measure, correct, enter
from fieldapp.actions.rules import Refusal
from fieldapp.actions.sign_off import accept, explain, to_see
from fieldapp.job.events import Explained
from fieldapp.judgement.evaluation import StepState, evaluate
from fieldapp.judgement.verdict import Place
from tests.actions.hookup import arrived, evacuated
from tests.actions.play import CHECKLIST, LEAD, Play

BROKEN = "the instrument is broken"


def standing(play, step):
    return evaluate(play.job, play.now).steps[step]


def test_number_that_cannot_be_taken_waits_for_the_crew_lead():
    play = evacuated()
    play.do(cannot_measure, "reached", BROKEN)
    target = standing(play, "target")
    assert target.state is StepState.DEVIATION
    assert target.verdicts["reached"].place is Place.OUTSIDE
    assert target.verdicts["reached"].sentence == "Not taken: the instrument is broken."
    assert target.deviations[0].explanation.reason == BROKEN
    assert target.deviations[0].to_do == "The crew lead decides."
    play.do(accept, "reached", "another gauge tomorrow", who=LEAD)
    assert standing(play, "target").state is StepState.DONE


def test_where_nobody_may_accept_it_the_step_never_counts_as_done():
    play = Play()
    play.do(enter, "permit_ends", {"value": "18:00"})
    play.do(cannot_measure, "plate_serial", "the plate is painted over")
    assert standing(play, "plate").state is StepState.DEVIATION
    assert standing(play, "plate").deviations[0].explanation is None
    assert isinstance(play.try_(accept, "plate_serial", "anyway", who=LEAD), Refusal)
    play.do(explain, "plate_serial", "painted over")
    assert standing(play, "plate").state is StepState.DEVIATION
    assert standing(play, "valve").gate == ("plate",)


def test_technician_s_reason_is_enough_where_it_may_be_and_the_lead_has_to_see_it():
    play = arrived()
    play.do(cannot_measure, "station_p", BROKEN)
    assert standing(play, "station").state is StepState.DONE
    assert [event.what for event in to_see(play.job)] == [Explained("station_p", BROKEN)]


def test_what_is_worked_out_from_it_says_what_it_lacks():
    play = arrived()
    play.do(cannot_measure, "station_p", BROKEN)
    working = evaluate(play.job, play.now).values.workings["gauge_target"]
    assert working.value is None
    assert working.refusal == "Station pressure was not taken"


def test_limit_that_waits_for_it_cannot_be_judged():
    text = CHECKLIST.replace(
        'max = "residual_limit", rule = "guarded"', 'max = "station_p", rule = "guarded"'
    )
    assert text != CHECKLIST
    play = arrived(text)
    play.do(cannot_measure, "station_p", BROKEN)
    play.do(enter, "reached", {"value": "50"})
    assert standing(play, "target").verdicts["reached"].place is Place.OUTSIDE


def test_it_can_be_taken_after_all_and_both_stay_readable():
    play = evacuated()
    play.do(cannot_measure, "reached", BROKEN)
    play.do(enter, "reached", {"value": "50.0"})
    assert standing(play, "target").state is StepState.DONE
    assert [given.fields.get("missing", "") for given in play.job.state.given["reached"]] == [
        "", BROKEN, "",
    ]  # fmt: skip


def test_slip_can_be_corrected_to_what_was_not_taken():
    play = evacuated()
    play.do(correct, "reached", {"missing": BROKEN}, "that was another gauge")
    assert standing(play, "target").state is StepState.DEVIATION


@pytest.mark.parametrize(
    ("entry", "reason", "words"),
    [
        ("locked", BROKEN, "a confirm is given, or left to do"),
        ("permit_ends", BROKEN, "a time is given, or left to do"),
        ("station_p", "  ", "say why it cannot be taken"),
        ("station_p", "x" * 2001, "longer than 2000 characters"),
        ("reached", BROKEN, "First “Read the barometer”"),
    ],
    ids=["confirm", "time", "no reason", "too long", "gate"],
)
def test_what_is_not_said_so_is_refused(entry, reason, words):
    play = arrived()
    refused = play.try_(cannot_measure, entry, reason)
    assert isinstance(refused, Refusal)
    assert words in str(refused)


def test_number_and_the_word_that_there_is_none_do_not_go_together():
    play = arrived()
    refused = play.try_(enter, "station_p", {"missing": BROKEN, "value": "843.2"})
    assert "not both" in str(refused)
