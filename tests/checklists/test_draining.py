"""Draining: by gravity into a closed drum; back by pump only by the owner's written order."""

import pytest

from fieldapp.actions.beginning import read_both
from fieldapp.actions.entering import enter
from fieldapp.actions.rules import Refusal
from fieldapp.checklist.model import Waive
from fieldapp.judgement.evaluation import StepState, evaluate
from fieldapp.judgement.verdict import Place
from tests.checklists.playing import BEGIN, Playing, checklist_text, sheet

ORDERED = "drain_back = true"
BOTH = pytest.mark.parametrize(("name", "p"), [("cartridge_change", "c"), ("disconnection", "d")])


def steps_back(playing):
    return [step.id for step in playing.job.checklist.steps() if "_back_" in step.id]


@BOTH
def test_without_the_order_no_step_of_a_power_drain_is_there(name, p):
    playing = Playing(name)
    assert len(steps_back(playing)) == 6
    for step in steps_back(playing):
        assert playing.standing(step).state is StepState.NOT_NEEDED
    refusal = playing.try_(enter, f"{p}_back_flow", {"value": "4"})
    assert "not needed on this job" in str(refusal)


@BOTH
def test_draining_with_the_pump_is_outside_and_nobody_may_accept_it(name, p):
    playing = Playing(name).through(f"{p}_hoses_shut" if p == "c" else "d_loto")
    playing.do(enter, f"{p}_drain_way", {"value": "with the pump"})
    verdict = playing.verdict(f"{p}_drain", f"{p}_drain_way")
    assert (verdict.place, verdict.waive) == (Place.OUTSIDE, Waive.NEVER)


@BOTH
def test_draining_waits_for_locked_tank_valves_that_were_shown_to_hold(name, p):
    playing = Playing(name).through(f"{p}_shut")
    refusal = playing.try_(enter, f"{p}_drain_way", {"value": "with the pump"})
    assert isinstance(refusal, Refusal)
    playing.do(enter, f"{p}_zero_drops", {"value": "14"})
    verdict = playing.verdict(f"{p}_zero", f"{p}_zero_drops")
    assert (verdict.place, verdict.waive) == (Place.OUTSIDE, Waive.NEVER)


@BOTH
def test_an_order_without_its_document_on_the_job_sheet_stops(name, p):
    line = ('drain_back_document = "LG-0342"\n', "")
    playing = Playing(name, ORDERED, swapped=(line,)).through(f"{p}_shut")
    playing.do(enter, f"{p}_back_document", {"value": "LG-0342"})
    verdict = playing.verdict(f"{p}_back_order", f"{p}_back_document")
    assert (verdict.place, verdict.waive) == (Place.OUTSIDE, Waive.NEVER)


@BOTH
def test_the_air_shutdown_is_proved_just_before_with_both_tank_valves_shut(name, p):
    playing = Playing(name, ORDERED).through(f"{p}_back_bubble")
    assert playing.standing(f"{p}_back_air").in_order
    parts = evaluate(playing.job, playing.now).plant
    assert parts["return_tank_valve"] == parts["suction_tank_valve"] == "closed"
    playing.wait(3 * 60)
    assert playing.standing(f"{p}_back_air").state is StepState.STALE
    refusal = playing.try_(enter, f"{p}_back_watcher", {"value": "Emil Strand"})
    assert "bubble-free" in str(refusal)


@BOTH
def test_the_person_at_the_return_valve_is_another_person(name, p):
    playing = Playing(name, ORDERED).through(f"{p}_back_bubble")
    refusal = playing.try_(enter, f"{p}_back_watcher", {"value": "Maren Holtby"})
    assert "second person" in str(refusal)
    refusal = playing.try_(enter, f"{p}_back_flow", {"value": "4"})
    assert "return tank valve must be open" in str(refusal)


@BOTH
@pytest.mark.parametrize("stopped", ["below the mark", "the glass was empty"])
def test_pumping_below_the_mark_is_outside_and_nobody_may_accept_it(name, p, stopped):
    playing = Playing(name, ORDERED).through(f"{p}_back_open")
    playing.do(enter, f"{p}_back_stop", {"value": stopped})
    verdict = playing.verdict(f"{p}_back_run", f"{p}_back_stop")
    assert (verdict.place, verdict.waive) == (Place.OUTSIDE, Waive.NEVER)


@BOTH
def test_the_return_valve_is_locked_again_before_anything_is_opened(name, p):
    playing = Playing(name, ORDERED).through(f"{p}_back_run")
    assert evaluate(playing.job, playing.now).plant["return_tank_valve"] == "open"
    refusal = playing.try_(enter, f"{p}_zero_pressure", {"value": "0"})
    assert "Shut and lock the return tank valve" in str(refusal)
    assert "return tank valve must be closed" in str(refusal)


def test_a_figure_of_the_owner_for_another_checklist_is_refused():
    found = read_both(checklist_text("visit"), sheet(ORDERED), BEGIN.date())
    assert "drain_back is nothing that" in str(found[0])
