"""Steps that an answer asks for: they come, go and come back with it, and gates follow."""

import pytest

from fieldapp.actions.entering import correct, enter, report
from fieldapp.actions.rules import Refusal
from fieldapp.actions.sign_off import accept, sign
from fieldapp.judgement.evaluation import StepState, evaluate
from tests.actions.play import CHECKLIST, LEAD, Play

ASKS = """
[[phase.step]]
id = "look"
title = "Look at the joints"
undone_by = ["joint_touched"]

[[phase.step.entry]]
id = "joints"
kind = "choice"
label = "Joints"
options = [{ text = "dry" }, { text = "damp" }, { text = "dripping", waive = "lead" }]
waive = "lead"
basis = "common practice"

[[phase.step]]
id = "tighten"
title = "Tighten the joint"
when = { entry = "joints", is = ["damp", "dripping"] }
sets = { bypass_valve = "closed" }

[[phase.step.entry]]
id = "tightened"
kind = "confirm"
label = "Tightened"

[[phase.step.entry]]
id = "torque_seen"
kind = "confirm"
label = "Torque seen"

[[phase.step]]
id = "dry_seen"
title = "Have a second person see that all is dry"
unless = { entry = "joints", is = "dripping" }

[[phase.step.entry]]
id = "seen_dry"
kind = "confirm"
label = "Seen"

[[phase.step]]
id = "guard"
title = "Set the guard"
needs = ["tighten"]

[[phase.step.entry]]
id = "guarded"
kind = "confirm"
label = "Guard set"
"""
END = """
[[phase]]
id = "hand_over\""""
WITH_ANSWERS = CHECKLIST.replace(END, ASKS + END)
assert WITH_ANSWERS != CHECKLIST


def play(*given):
    play = Play(WITH_ANSWERS)
    for entry, value in given:
        play.do(enter, entry, {"value": value})
    return play


def standing(play, step):
    return evaluate(play.job, play.now).steps[step]


def state(play, step):
    return standing(play, step).state


def refused(play, entry):
    outcome = play.try_(enter, entry, {"value": "yes"})
    assert isinstance(outcome, Refusal)
    return str(outcome)


def test_a_step_waits_for_the_answer_that_decides_about_it():
    waiting = play()
    assert state(waiting, "tighten") is StepState.BLOCKED
    assert standing(waiting, "tighten").why == "Waits for “Look at the joints”."
    assert refused(waiting, "tightened") == "First “Look at the joints”: it is not in order."
    assert "Tighten the joint" in refused(waiting, "guarded")


def test_an_answer_that_does_not_ask_for_a_step_opens_the_gates_behind_it():
    dry = play(("joints", "dry"))
    assert state(dry, "tighten") is StepState.NOT_NEEDED
    assert standing(dry, "tighten").why == "Not needed: “Joints” is “dry”."
    assert refused(dry, "tightened") == "“Tighten the joint” is not needed on this job."
    dry.do(enter, "guarded", {"value": "yes"})
    assert state(dry, "guard") is StepState.DONE


@pytest.mark.parametrize("answer", ["damp", "dripping"])
def test_each_answer_named_asks_for_the_step(answer):
    wet = play(("joints", answer))
    assert state(wet, "tighten") is StepState.READY
    assert standing(wet, "tighten").why == f"To do: “Joints” is “{answer}”."
    assert "Tighten the joint" in refused(wet, "guarded")


def test_an_answer_still_to_be_accepted_asks_for_its_step_at_once():
    dripping = play(("joints", "dripping"))
    assert state(dripping, "look") is StepState.DEVIATION
    dripping.do(enter, "tightened", {"value": "yes"})
    dripping.do(enter, "torque_seen", {"value": "yes"})
    assert state(dripping, "tighten") is StepState.DONE


def test_an_answer_still_to_be_accepted_leaves_nothing_out():
    dripping = play(("joints", "dripping"))
    assert state(dripping, "dry_seen") is StepState.BLOCKED
    dripping.do(accept, "joints", "looked at each hour", who=LEAD)
    assert state(dripping, "dry_seen") is StepState.NOT_NEEDED


def test_a_corrected_answer_brings_the_step_back_and_reopens_the_gate_with_the_reason():
    dry = play(("joints", "dry"), ("guarded", "yes"))
    dry.do(correct, "joints", {"value": "damp"}, "looked again")
    at = dry.job.state.log[-1].at
    why = f"“Joints” is “damp”, corrected {at:%H:%M}"
    assert standing(dry, "tighten").why == f"To do: {why}."
    assert state(dry, "guard") is StepState.HELD
    assert standing(dry, "guard").why == f"Waits for “Tighten the joint”: {why}."
    assert isinstance(dry.try_(sign, "technician", "ab"), Refusal)


def test_a_corrected_answer_lets_the_step_go_and_what_it_did_stays_true():
    wet = play(("joints", "damp"), ("tightened", "yes"), ("torque_seen", "yes"))
    wet.do(correct, "joints", {"value": "dry"}, "oil from the rag")
    assert state(wet, "tighten") is StepState.NOT_NEEDED
    assert evaluate(wet.job, wet.now).plant["bypass_valve"] == "closed"
    assert wet.job.state.latest("tightened") is not None


def test_half_a_step_that_is_no_longer_asked_for_sets_nothing():
    wet = play(("joints", "damp"), ("tightened", "yes"))
    wet.do(correct, "joints", {"value": "dry"}, "oil from the rag")
    assert "bypass_valve" not in evaluate(wet.job, wet.now).plant


def test_the_same_answer_given_again_asks_for_the_step_again():
    wet = play(("joints", "damp"), ("tightened", "yes"), ("torque_seen", "yes"))
    wet.do(report, "joint_touched")
    assert state(wet, "tighten") is StepState.DONE
    wet.do(enter, "joints", {"value": "damp"})
    assert state(wet, "tighten") is StepState.STALE
    assert "“Joints” was answered again" in standing(wet, "tighten").why


def test_a_stale_answer_leaves_nothing_out_until_it_is_given_again():
    dry = play(("joints", "dry"), ("guarded", "yes"))
    dry.do(report, "joint_touched")
    assert state(dry, "tighten") is StepState.BLOCKED
    assert state(dry, "guard") is StepState.HELD
    dry.do(enter, "joints", {"value": "dry"})
    assert state(dry, "guard") is StepState.DONE


def test_an_answer_of_a_step_that_the_sheet_leaves_out_asks_for_nothing():
    text = WITH_ANSWERS.replace('id = "look"\n', 'id = "look"\nwhen = "second_cooler"\n')
    left_out = Play(text)
    assert state(left_out, "look") is StepState.NOT_NEEDED
    assert state(left_out, "tighten") is StepState.NOT_NEEDED
    assert state(left_out, "dry_seen") is StepState.READY


def test_answers_ask_in_a_chain_and_a_correction_at_its_head_goes_through_it():
    text = WITH_ANSWERS.replace(
        'id = "guarded"\nkind = "confirm"\nlabel = "Guard set"\n',
        'id = "guarded"\nkind = "choice"\nlabel = "Guard"\n'
        'options = [{ text = "new" }, { text = "old" }]\n',
    ).replace('needs = ["tighten"]\n', 'when = { entry = "joints", is = "damp" }\n')
    text = text.replace(END, """
[[phase.step]]
id = "tag"
title = "Tag the old guard"
when = { entry = "guarded", is = "old" }

[[phase.step.entry]]
id = "tagged"
kind = "confirm"
label = "Tagged"
""" + END)  # fmt: skip
    chain = Play(text)
    assert state(chain, "tag") is StepState.BLOCKED
    chain.do(enter, "joints", {"value": "damp"})
    chain.do(enter, "guarded", {"value": "old"})
    assert state(chain, "tag") is StepState.READY
    chain.do(correct, "joints", {"value": "dry"}, "oil from the rag")
    assert state(chain, "guard") is StepState.NOT_NEEDED
    assert state(chain, "tag") is StepState.NOT_NEEDED
    chain.do(correct, "joints", {"value": "damp"}, "no, damp")
    assert state(chain, "tag") is StepState.READY


def test_an_entry_that_may_be_left_out_asks_only_if_it_is_given():
    text = WITH_ANSWERS.replace(
        'label = "Torque seen"\n', 'label = "Torque seen"\noptional = true\n'
    ).replace('needs = ["tighten"]\n', 'when = { entry = "torque_seen", is = "yes" }\n')
    wet = Play(text)
    wet.do(enter, "joints", {"value": "damp"})
    assert state(wet, "guard") is StepState.BLOCKED
    wet.do(enter, "tightened", {"value": "yes"})
    assert state(wet, "guard") is StepState.NOT_NEEDED
    wet.do(enter, "torque_seen", {"value": "yes"})
    assert state(wet, "guard") is StepState.READY
