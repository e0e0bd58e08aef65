"""Explaining, accepting, seeing, signing, sending back: who may do what."""

import pytest

from fieldapp.actions.entering import correct, enter
from fieldapp.actions.sign_off import accept, explain, see, send_back, sign, still_open, to_see
from fieldapp.judgement.evaluation import StepState, evaluate
from tests.actions.hookup import evacuated, handed_back, hold, proven, signed
from tests.actions.play import LEAD, TECHNICIAN, Play

SLOW = (("62.0", "21.5"), ("72.0", "21.5"), ("82.0", "21.5"), ("92.0", "21.5"))


def standing(play, step):
    return evaluate(play.job, play.now).steps[step]


def test_lead_accepts_with_a_condition_and_the_gate_opens():
    play = evacuated(reached="165.0")
    play.do(explain, "reached", "gauge is coarse")
    assert standing(play, "target").state is StepState.DEVIATION
    refusal = play.try_(accept, "reached", "measure again tomorrow")
    assert str(refusal) == "Only the crew lead does this; Ada Quill is technician."
    assert "on what condition" in str(play.try_(accept, "reached", " ", who=LEAD))
    play.do(accept, "reached", "measure again tomorrow", who=LEAD)
    assert standing(play, "target").state is StepState.DONE
    assert standing(play, "target").deviations[0].settled


def test_acceptance_does_not_outlive_the_value_it_was_given_for():
    play = evacuated(reached="165.0")
    play.do(accept, "reached", "once", who=LEAD)
    play.do(enter, "reached", {"value": "166.0"}, instrument="vacuum_gauge")
    assert standing(play, "target").state is StepState.DEVIATION


def test_owner_alone_accepts_a_leak_and_the_crew_lead_may_not():
    play = hold(evacuated(), SLOW)
    assert "Outside by" in standing(play, "hold").why
    refusal = play.try_(accept, "leak", "go on", who=LEAD)
    assert str(refusal) == "Only the owner's engineer may accept this; Ben Thorne is not."


def test_nobody_accepts_what_may_never_be_waived():
    play = Play()
    play.do(enter, "permit_ends", {"value": "09:00"})
    refusal = play.try_(accept, "permit_ends", "it will do", who=LEAD)
    assert str(refusal) == "Nobody may accept this: put it right and do it again."


def test_accepting_or_explaining_what_is_inside_is_refused():
    play = evacuated()
    assert str(play.try_(explain, "reached", "x")) == "Nothing is outside its limits there."
    assert "Nothing is outside" in str(play.try_(accept, "reached", "x", who=LEAD))


def test_reason_of_the_technician_settles_what_is_his_and_the_lead_must_see_it():
    play = proven()
    play.do(enter, "bubble_free", {"value": "few"})
    assert standing(play, "bubble").state is StepState.DEVIATION
    play.do(explain, "bubble_free", "one a minute")
    assert standing(play, "bubble").state is StepState.DONE
    play.do(enter, "handed", {"value": "yes"})
    play.do(sign, "technician", "ab")
    refusal = play.try_(sign, "crew lead", "ab", who=LEAD)
    assert "Not yet seen: Bubbles: “one a minute”, Ada Quill." in str(refusal)
    (unseen,) = to_see(play.job)
    assert "Only the crew lead" in str(play.try_(see, unseen.sequence))
    play.do(see, unseen.sequence, who=LEAD)
    play.do(sign, "crew lead", "ab", who=LEAD)


def test_lead_must_see_a_correction_before_signing():
    play = handed_back()
    play.do(correct, "station_p", {"value": "843.3"}, "misread")
    play.do(sign, "technician", "ab")
    assert "Station pressure corrected: “misread”" in str(
        play.try_(sign, "crew lead", "ab", who=LEAD)
    )


def test_two_different_people_sign_in_their_own_roles_and_in_order():
    play = handed_back()
    assert str(play.try_(sign, "crew lead", "ab", who=TECHNICIAN)).startswith(
        "Ada Quill is technician and cannot sign as crew lead."
    )
    assert "The technician signs first." in str(play.try_(sign, "crew lead", "ab", who=LEAD))
    assert "cannot sign as technician" in str(play.try_(sign, "technician", "ab", who=LEAD))
    play.do(sign, "technician", "ab")
    assert "has signed already" in str(play.try_(sign, "technician", "ab"))
    play.do(sign, "crew lead", "ab", who=LEAD)
    assert evaluate(play.job, play.now).open_steps == ()


def test_open_step_keeps_the_technician_from_signing():
    play = proven()
    refusal = play.try_(sign, "technician", "ab")
    assert str(refusal) == "“Hand the permit back”: To do."
    assert still_open(play.job, "technician", play.now) == refusal.reasons


def test_after_the_technician_signed_only_the_lead_can_reopen():
    play = handed_back()
    play.do(sign, "technician", "ab")
    assert "send it back first" in str(play.try_(enter, "handed", {"value": "yes"}))
    assert "Only the crew lead" in str(play.try_(send_back, "no"))
    assert "Say why." in str(play.try_(send_back, "", who=LEAD))
    play.do(send_back, "photo of the tag is missing", who=LEAD)
    assert standing(play, "sign_t").state is StepState.READY
    play.do(enter, "handed", {"value": "yes"})
    play.do(sign, "technician", "ab")
    play.do(sign, "crew lead", "ab", who=LEAD)


def test_hand_that_cannot_draw_types_the_printed_name_and_no_other():
    play = handed_back()
    for typed in ("Ada", "ada quill", LEAD, "x"):
        refusal = play.try_(sign, "technician", "ab", typed=typed)
        assert str(refusal) == f"Type the name as it is printed: {TECHNICIAN}."
    play.do(sign, "technician", "ab", typed=f" {TECHNICIAN} ")
    signed_event = play.job.state.signature("technician")
    assert (signed_event.what.typed, signed_event.what.strokes) == (f" {TECHNICIAN} ", ())


@pytest.mark.parametrize("role", ["owner's engineer", "", "admin"])
def test_unknown_role_signs_nothing(role):
    assert "signs nothing here" in str(handed_back().try_(sign, role, "ab"))


def test_signed_job_is_whole():
    play = signed()
    assert play.job.state.signature("technician").by == TECHNICIAN
    assert play.job.state.signature("crew lead").by == LEAD
