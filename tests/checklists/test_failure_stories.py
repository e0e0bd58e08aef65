"""Failure stories from practice, each played up to where the checklist catches it."""

import pytest

from fieldapp.actions.entering import close_valve, end, enter, make_safe, report, start
from fieldapp.actions.rules import Refusal
from fieldapp.actions.sign_off import accept
from fieldapp.checklist.model import Waive
from fieldapp.judgement.evaluation import StepState, evaluate
from fieldapp.judgement.verdict import Place
from tests.checklists.playing import LEAD, OWNER, Playing


def outside(playing, step, entry, given, waive):
    """Enter something that the checklist must not let pass; only `waive` may accept it."""
    playing.do(enter, entry, {"value": given})
    verdict = playing.verdict(step, entry)
    assert verdict.place is Place.OUTSIDE, verdict.sentence
    assert verdict.waive is waive
    assert not playing.standing(step).in_order


def waits(playing, entry, given="yes"):
    """Try to go on; return why that is refused."""
    refusal = playing.try_(enter, entry, {"value": given})
    assert isinstance(refusal, Refusal)
    return str(refusal)


def nobody_accepts(playing, subject):
    for who, document in ((LEAD, ""), (OWNER, "LG-0001")):
        options = {"accepter": who, "document": document}
        refused = playing.try_(accept, subject, "watched", who=LEAD, **options)
        assert isinstance(refused, Refusal)


def test_story_1_crew_on_another_unit():
    playing = Playing("cartridge_change").through("c_call")
    outside(playing, "c_unit", "c_unit_serial", "40-1984-2216", Waive.NEVER)
    nobody_accepts(playing, "c_unit_serial")
    playing.through("c_hoses_shut", after="c_unit")
    assert "right unit" in waits(playing, "c_drain_gas", "dry nitrogen")


def test_story_7_gasket_renewed_after_the_hold():
    playing = Playing("cartridge_change").through("c_gone")
    playing.do(report, "joint_touched", note="seal renewed")
    assert playing.standing("c_vac").state is StepState.STALE
    assert playing.standing("c_gone").state is StepState.HELD
    assert "not in order" in waits(playing, "c_fill_rate", "8.0")


def test_story_8_vacuum_pump_still_connected_when_the_drain_valve_would_open():
    playing = Playing("cartridge_change").through("c_vac")
    refusal = waits(playing, "c_fill_locked")
    assert "vacuum pump off" in refusal
    assert "vacuum pump must be gone" in refusal


def test_story_8_vacuum_pump_connected_again():
    playing = Playing("cartridge_change").through("c_gone")
    playing.do(report, "vacuum_connected")
    assert "vacuum pump off" in waits(playing, "c_fill_locked")


@pytest.mark.parametrize(("name", "before", "alarm"), [
    ("alarm_response", "r_gone", "r_air"), ("cartridge_change", "c_shut2", "c_air"),
])  # fmt: skip
def test_story_9_air_proved_without_a_look_at_the_locks(name, before, alarm):
    playing = Playing(name).through(before)
    assert evaluate(playing.job, playing.now).plant["return_tank_valve"] == "closed"
    entry = playing.job.checklist.entry(alarm)
    locks = entry.checks.index("both tank valves locked shut")
    playing.do(enter, alarm, playing.fields(entry) | {f"seen_{locks}": "no"})
    verdict = playing.verdict(playing.job.checklist.step_of(alarm).id, alarm)
    assert "both tank valves locked shut" in verdict.sentence
    assert verdict.waive is Waive.NEVER


@pytest.mark.parametrize(("name", "last", "alarm"), [
    ("alarm_response", "r_start", "r_air"), ("cartridge_change", "c_start", "c_air"),
])  # fmt: skip
def test_story_9_air_proved_with_the_return_valve_open(name, last, alarm):
    playing = Playing(name).through(last)
    refusal = playing.try_(enter, alarm, playing.fields(playing.job.checklist.entry(alarm)))
    assert "return tank valve must be closed; it is open" in str(refusal)


def test_story_9_air_test_at_a_visit_waits_for_both_locks():
    playing = Playing("visit", "air_turn = true").through("v_trip_stop")
    refusal = playing.try_(enter, "v_air", playing.fields(playing.job.checklist.entry("v_air")))
    assert "return tank valve must be closed; it is open" in str(refusal)


def test_story_11_level_wire_cut_and_hose_weeping_found_at_a_visit():
    playing = Playing("visit").through("v_level")
    outside(playing, "v_wire", "v_wire_state", "fault, or cut", Waive.NEVER)
    outside(playing, "v_drip", "v_joints", "damp", Waive.LEAD)


def test_story_11_a_cut_wire_does_not_stop_the_skid_when_it_is_proved():
    playing = Playing("visit", "level_turn = true").through("v_trip_stop")
    playing.do(enter, "v_broken_wire", {"tripped": "no"})
    assert playing.verdict("v_trip_level", "v_broken_wire").place is Place.OUTSIDE
    assert "level loop" in waits(playing, "v_trip_which", "the one whose turn it is, above")


def test_story_12_hose_pulled_off_is_shut_at_the_tank_not_at_the_skid():
    playing = Playing("alarm_response").through("r_photo")
    for part in ("suction_skid_valve", "return_skid_valve"):
        playing.do(close_valve, part)  # recorded at once, and of no use to the tank
    playing.through("r_fix", after="r_shut")
    playing.do(enter, "r_opened_is", {"value": "opened"})
    assert "both tank valves" in waits(playing, "r_again_is", "all of it")
    playing.do_step(playing.job.checklist.step("r_shut"))
    playing.do_step(playing.job.checklist.step("r_again"))
    assert playing.standing("r_again").in_order


def test_story_12_shutting_a_valve_and_making_safe_wait_for_nothing():
    playing = Playing("alarm_response")
    playing.do(close_valve, "suction_tank_valve", note="hose off")
    playing.do(make_safe, "both tank valves shut")
    assert evaluate(playing.job, playing.now).plant["suction_tank_valve"] == "closed"


def test_story_13_supply_came_back_and_the_pump_started_by_itself():
    playing = Playing("alarm_response").through("r_gone")
    entry = playing.job.checklist.entry("r_supply")
    fields = playing.fields(entry) | {f"seen_{entry.checks.index('no restart by itself')}": "no"}
    playing.do(enter, "r_supply", fields)
    verdict = playing.verdict("r_prove_supply", "r_supply")
    assert "not seen: no restart by itself" in verdict.sentence
    assert verdict.waive is Waive.NEVER
    assert "supply away" in waits(playing, "r_prove_done", "is proved above")


def test_story_13_started_from_afar_after_the_lock():
    playing = Playing("alarm_response").through("r_when")
    playing.do(report, "started_afar")
    assert playing.standing("r_lock").state is StepState.STALE
    assert playing.standing("r_when").state is StepState.HELD


def test_story_14_link_closed_on_a_latched_relay():
    playing = Playing("disconnection", "protection_blocked = true").through("d_alarm")
    outside(playing, "d_flags", "d_flags_are", "one latched", Waive.NEVER)
    assert "no relay is latched" in waits(playing, "d_prot_open", "none")


def test_story_14_voltage_across_the_open_link():
    playing = Playing("disconnection", "protection_blocked = true").through("d_flags")
    outside(playing, "d_volts", "d_link_voltage", "110", Waive.NEVER)
    assert "across each open link" in waits(playing, "d_prot_open", "none")


@pytest.mark.parametrize(("name", "before", "step", "entry", "answer"), [
    ("rest_test", "t_stop", "t_relief", "t_relief_way", "one is shut in without relief"),
    ("alarm_response", "r_photo", "r_shut", "r_shut_relief", "not free: bleed to the can now"),
])  # fmt: skip
def test_story_15_both_valves_shut_at_noon_and_the_hose_burst_at_two(
    name, before, step, entry, answer
):
    playing = Playing(name).through(before)
    outside(playing, step, entry, answer, Waive.NEVER)
    nobody_accepts(playing, entry)


def test_story_16_dry_in_november_wet_in_july():
    playing = Playing("rest_test").through("t_steady")
    outside(playing, "t_season", "t_season_oil", "28", Waive.LEAD)
    assert "load and oil temperature" in waits(playing, "t_draw1_since", "74")


def test_story_16_sample_of_cold_oil_gives_no_figure():
    playing = Playing("rest_test").through("t_steady")
    for entry, given in (("t_draw1_water", "4.0"), ("t_draw1_oil", "28")):
        playing.do(enter, entry, {"value": given})
    assert playing.verdict("t_draw1", "t_draw1_oil").place is Place.OUTSIDE
    working = evaluate(playing.job, playing.now).values.workings["at_72_paper"]
    assert working.value is None
    assert "28\u00a0°C lies outside 40 to 90\u00a0°C" in working.refusal


def test_story_16_oil_of_the_idle_skid_is_no_sample():
    playing = Playing("rest_test").through("t_steady")
    outside(playing, "t_draw1", "t_draw1_point", "the skid", Waive.NEVER)


def test_story_17_cartridges_that_took_eleven_kilograms_of_water():
    playing = Playing("cartridge_change").through("c_out")
    values = evaluate(playing.job, playing.now).values
    gain_over_dry_mass = 90.1 - 68.4  # what a crew would have called water
    assert values.numbers["c_water"].si == pytest.approx(90.1 - 84.6)
    assert values.numbers["c_water"].si < gain_over_dry_mass / 3


@pytest.mark.parametrize(("minutes", "subject"), [(20, "c_drip_rack"), (90, "c_drip_over")])
def test_story_17_dripping_shorter_or_longer_than_the_blank(minutes, subject):
    playing = Playing("cartridge_change").through("c_open")
    playing.do(start, "c_drip_rack")
    playing.wait(minutes)
    playing.do(end, "c_drip_rack")
    playing.do(enter, "c_drip_warm", {"value": "as warm as for the blank"})
    verdict = playing.verdict("c_drip", subject)
    assert verdict.place is Place.OUTSIDE, verdict.sentence
    assert "Let the cartridges drip" in waits(playing, "c_drained", "90.1")


def test_story_18_conservator_valve_stayed_shut():
    playing = Playing("vacuum_treatment").through("h_break")
    outside(playing, "h_valves", "h_valves_conservator", "shut", Waive.NEVER)
    outside(playing, "h_valves", "h_valves_count", "22", Waive.NEVER)
    nobody_accepts(playing, "h_valves_conservator")
    playing.through("h_lab", after="h_break").do(enter, "h_valves_conservator", {"value": "shut"})
    assert "every valve" in waits(playing, "h_el_report", "R-1")
