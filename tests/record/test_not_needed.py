"""A step that an answer no longer asks for: the record says why, and keeps what was given."""

import io

import pypdf

from fieldapp.actions.entering import correct, enter
from fieldapp.judgement.evaluation import evaluate
from fieldapp.record.chapters.entries import phases_of
from fieldapp.record.rendering import record_of
from tests.actions.play import Play
from tests.actions.test_asked_for import WITH_ANSWERS


def wet_then_dry():
    play = Play(WITH_ANSWERS)
    play.do(enter, "joints", {"value": "damp"})
    play.do(enter, "tightened", {"value": "yes"})
    play.do(correct, "joints", {"value": "dry"}, "oil from the rag")
    return play


def rows_of(play):
    phases = phases_of(play.job, evaluate(play.job, play.now))
    return {step.step: step for phase in phases for step in phase.steps}


def test_says_by_which_answer_it_is_not_needed():
    play = Play(WITH_ANSWERS)
    play.do(enter, "joints", {"value": "dry"})
    step = rows_of(play)["tighten"]
    assert (step.state, step.why) == ("not needed", "Not needed: “Joints” is “dry”.")
    assert step.rows == ()


def test_keeps_what_was_given_while_it_was_asked_for():
    step = rows_of(wet_then_dry())["tighten"]
    assert step.state == "not needed"
    assert [(row.entry, row.standing) for row in step.rows] == [("tightened", False)]


def test_does_not_count_what_was_left_out_as_made_again():
    play = wet_then_dry()
    phases = phases_of(play.job, evaluate(play.job, play.now))
    assert not any("made again" in phase.status for phase in phases)


def test_prints_it():
    play = wet_then_dry()
    _, pdf = record_of(play.job, play.now, (len(play.job.state.log), "ab" * 32), "test")
    words = " ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf)).pages)
    shown = " ".join(words.split())
    assert "Tighten the joint: Not needed: “Joints” is “dry”" in shown
    assert "Tightened" in shown
