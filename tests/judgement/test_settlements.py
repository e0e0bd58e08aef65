"""After two tablets worked at once nothing counts as safe that only one of them knew of."""

from datetime import timedelta

import pytest

from fieldapp.actions.entering import close_valve, enter, report
from fieldapp.actions.rules import Act
from fieldapp.job.events import Aside, Event, Settled, document_of
from fieldapp.judgement.evaluation import StepState, evaluate
from fieldapp.judgement.settlements import left_by_settlements
from tests.actions.hookup import arrived
from tests.actions.play import BEGIN, LEAD, TECHNICIAN

AT = BEGIN + timedelta(hours=1)


@pytest.fixture
def play():
    """A job with its permit entered, its nameplate read and the valve locked."""
    return arrived()


def other_side(play, *outcomes):
    """Settle it so that these outcomes of another tablet are set aside."""
    events = [event for outcome in outcomes for event in outcome]
    aside = tuple(Aside("two", place, document_of(event)) for place, event in enumerate(events, 1))
    what = Settled(play.job.state.next_sequence - 1, "one", "one stood at the unit", aside)
    play.job = play.job.with_events((Event(play.job.state.next_sequence, AT, LEAD, what),))
    return evaluate(play.job, AT)


def act():
    return Act(TECHNICIAN, AT)


def test_nothing_set_aside_leaves_all_as_it_was(play):
    before = evaluate(play.job, AT)
    after = other_side(play)
    assert {n: s.state for n, s in after.steps.items()} == {
        n: s.state for n, s in before.steps.items()
    }
    assert after.plant == before.plant == {"suction_tank_valve": "closed"}


def test_step_that_the_other_side_worked_at_is_to_do_again_with_the_reason(play):
    found = other_side(play, enter(play.job, "permit_ends", {"value": "19:00"}, act()))
    permit = found.steps["permit"]
    assert (permit.state, permit.why) == (
        StepState.STALE, "Two tablets worked at this, settled 09:00: do this again.",
    )  # fmt: skip
    assert found.steps["plate"].state is StepState.HELD
    play.do(enter, "permit_ends", {"value": "18:00"})
    assert evaluate(play.job, AT).steps["permit"].state is StepState.DONE


def test_valve_that_the_other_side_moved_stands_nobody_knows_how(play):
    found = other_side(play, close_valve(play.job, "suction_tank_valve", act()))
    assert found.plant == {}
    play.do(close_valve, "suction_tank_valve")
    assert evaluate(play.job, AT).plant == {"suction_tank_valve": "closed"}


def test_what_the_other_side_reported_has_happened(play):
    other_side(play, report(play.job, "joint_touched", act()))
    (left,) = left_by_settlements(play.job)
    assert left.happenings == {"joint_touched"}
    assert left.steps == left.parts == frozenset()


def test_what_an_earlier_settlement_set_aside_is_not_forgotten(play):
    reported = report(play.job, "joint_touched", act())
    assert isinstance(reported, tuple)
    (event,) = reported
    inner = document_of(event)
    settled = Settled(0, "two", "two was nearer", (Aside("three", 1, inner),))
    other_side(play, (Event(9, AT, LEAD, settled),))
    (left,) = left_by_settlements(play.job)
    assert left.happenings == {"joint_touched"}
