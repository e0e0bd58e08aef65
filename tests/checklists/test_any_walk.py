"""Anything done in any order in each shipped list: no gate is got round, nothing is signed over."""

import random

import pytest

from fieldapp.actions.entering import close_valve, correct, enter, make_safe, report, start
from fieldapp.actions.rules import Refusal
from fieldapp.actions.sign_off import accept, explain, sign
from fieldapp.checklist.model import Kind
from fieldapp.job.events import Entered, Started, document_of, event_of
from fieldapp.job.state import replay
from fieldapp.judgement.evaluation import StepState, evaluate
from tests.checklists.playing import LEAD, VALUES, Playing

ACTS = 40
BAD = {Kind.NUMBER: "99999", Kind.TEXT: "another", Kind.SERIAL: "another"}


def given(playing, entry, chance):
    """Return what is given at an entry: now and then what nobody should accept."""
    if entry.kind is Kind.NUMBER and entry.id not in playing.values:
        return {"value": "1"}
    fields = playing.fields(entry)
    if entry.kind in BAD and chance.random() < 0.2:
        return {**fields, "value": BAD[entry.kind]}
    if entry.kind is Kind.CHOICE and not entry.equals:
        return {"value": chance.choice(entry.options).text}
    if entry.kind is Kind.ALARM and chance.random() < 0.3:
        return {"tripped": "no"}
    return fields


def somewhere(playing, chance):
    """Return an entry: most often one of the step that is next."""
    steps = playing.job.checklist.steps()
    following = evaluate(playing.job, playing.now).next_step
    step = following.step if following and chance.random() < 0.6 else chance.choice(steps)
    return chance.choice(step.entries)


def give(playing, chance):
    entry = somewhere(playing, chance)
    if entry.kind in (Kind.TRACE, Kind.HOLD):
        return playing.try_(start, entry.id)
    if entry.kind in (Kind.SIGN, Kind.PHOTO) or chance.random() < 0.1:
        return playing.try_(make_safe, "both tank valves shut")
    return playing.try_(enter, entry.id, given(playing, entry, chance))


def mend(playing, chance):
    entry = somewhere(playing, chance)
    if entry.kind in (Kind.TRACE, Kind.HOLD, Kind.SIGN, Kind.PHOTO):
        return None
    return playing.try_(correct, entry.id, given(playing, entry, chance), "misread")


def tell(playing, chance):
    return playing.try_(report, chance.choice(playing.job.checklist.happenings).id)


def settle(playing, chance):
    return playing.try_(chance.choice([accept, explain]), somewhere(playing, chance).id, "watched",
                        who=LEAD)  # fmt: skip


def shut(playing, _):
    return playing.try_(close_valve, "return_tank_valve")


def pause(playing, chance):
    return playing.wait(chance.choice([5, 45, 200]))


def signed(playing, _=None):
    """Try to sign; a signature that was taken stands on nothing open."""
    outcome = playing.try_(sign, "technician", "ab12")
    if not isinstance(outcome, Refusal):
        found = evaluate(playing.job, playing.job.state.log[-1].at)
        left = {s.step.id for s in found.open_steps}
        signing = {s.id for s in playing.job.checklist.steps() if any(e.role for e in s.entries)}
        assert left <= signing
    return outcome


def check_gate(before, now, events):
    """Hold what was just given against the gate as it stood before."""
    for event in events:
        what = event.what
        if isinstance(what, Entered | Started) and getattr(what, "corrects", -1) < 0:
            found = evaluate(before, now)
            step = before.checklist.step_of(what.entry)
            assert all(found.steps[need].in_order for need in step.needs), step.id
            assert all(found.plant.get(part) == state for part, state in step.requires), step.id
            standing = found.steps[step.id]
            assert standing.state is not StepState.NOT_NEEDED or any(
                entry.optional for entry in step.entries
            )


ACTIONS = (give, give, give, give, mend, tell, settle, shut, pause, signed)


@pytest.mark.parametrize("name", VALUES)
def test_no_walk_through_a_list_gets_round_a_gate(name):
    chance = random.Random(name)
    playing = Playing(name)
    playing.through(chance.choice(playing.job.checklist.steps()[1:-2]).id)
    for _ in range(ACTS):
        before, now = playing.job, playing.now
        outcome = chance.choice(ACTIONS)(playing, chance)
        if isinstance(outcome, tuple):
            check_gate(before, now, outcome)
    log = playing.job.state.log
    assert replay(event_of(document_of(event)) for event in log) == playing.job.state


@pytest.mark.parametrize("name", VALUES)
def test_whatever_was_reported_at_the_end_keeps_the_technician_from_signing(name):
    playing = Playing(name)
    last = playing.job.checklist.steps()[-3].id
    playing.through(last)
    before, now = playing.job, playing.now
    for happening in before.checklist.happenings:
        playing.job, playing.now = before, now
        playing.do(report, happening.id)
        undone = [s.id for s in before.checklist.steps() if happening.id in s.undone_by]
        done = [s for s in undone if evaluate(before, now).steps[s].state is StepState.DONE]
        assert isinstance(signed(playing), Refusal) is bool(done), happening.id
