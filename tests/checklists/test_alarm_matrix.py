"""The alarm matrix of the hookup: each shutdown in each column, failed, put right, proved again."""

from datetime import datetime

import pytest

from fieldapp.actions.beginning import begin, job_of
from fieldapp.actions.entering import correct, enter, report
from fieldapp.actions.rules import Act
from fieldapp.actions.sign_off import still_open
from fieldapp.checklist.facts import REQUIRED_SHUTDOWNS
from fieldapp.checklist.model import Checklist, Kind, Waive
from fieldapp.checklist.reader import read_checklist
from fieldapp.demo.player import checklist_text, play, sheet_text
from fieldapp.job.events import Event
from fieldapp.job.sheet_reader import read_sheet
from fieldapp.judgement.evaluation import StepState, evaluate
from fieldapp.judgement.verdict import Place
from tests.checklists.test_hookup_stories import Hookup

HOOKUP = read_checklist(checklist_text())
assert isinstance(HOOKUP, Checklist)
ALARMS = {e.id: e for step in HOOKUP.steps() for e in step.entries if e.kind is Kind.ALARM}
FITTED = [name for name in ALARMS if name not in {"a_unit", "a_sleeve"}]
"""Those that the demo's skid has."""
SEEN = [(name, check) for name in FITTED for check in ALARMS[name].checks]
DRY = ["a_estop", "a_supply", "a_wire", "a_level", "a_tray"]
# what each trips at in the demo, and a figure that it must not trip at
VALUES = {
    "a_tray": ("14", "20"),
    "a_flow": ("3.8", "2.0"),
    "a_air": ("60", "500"),
    "a_high": ("347", "280"),
    "a_suct": ("4", "1"),
}


@pytest.fixture(scope="module")
def log(tmp_path_factory):
    jobs = play(tmp_path_factory.mktemp("demo"), lambda _: None)
    events = jobs.open(jobs.numbers()[0]).job.state.log
    jobs.close()
    return events


def proven(name, **changed):
    """Return a proof in which everything was as it must be, but what is changed."""
    seen = {f"seen_{place}": "yes" for place in range(len(ALARMS[name].checks))}
    value = {"value": VALUES[name][0]} if ALARMS[name].measure else {}
    return {"tripped": "yes", "closed_after": "3.2", **value, **seen, **changed}


def given(log, name, fields):
    hookup = Hookup(log, name)
    hookup.do(enter, name, fields)
    return hookup, hookup.verdict(name)


def blocks(hookup, name):
    """Say whether the step keeps the technician from signing."""
    title = hookup.job.checklist.step_of(name).title
    return any(title in reason for reason in still_open(hookup.job, "technician", hookup.now))


def test_every_skid_has_the_shutdowns_that_it_must_have():
    trips = {alarm.trip: alarm for alarm in ALARMS.values()}
    assert all(trips[name].required for name in REQUIRED_SHUTDOWNS)
    assert set(REQUIRED_SHUTDOWNS) | {"broken_wire", "air", "low_flow", "high_pressure",
                                      "low_suction", "sleeve"} <= set(trips)  # fmt: skip


@pytest.mark.parametrize("name", ALARMS)
def test_each_column_is_asked_of_every_shutdown(name):
    columns = {"pump stopped", "suction valve closed", "return valve closed", "control room told",
               "restored"}  # fmt: skip
    assert columns <= set(ALARMS[name].checks)
    assert ALARMS[name].closed_within is not None


@pytest.mark.parametrize("name", FITTED)
def test_proof_with_every_column_in_order_counts(log, name):
    _, verdict = given(log, name, proven(name))
    assert verdict.place is Place.INSIDE, verdict.sentence
    assert verdict.sentence.startswith("Proven.")


@pytest.mark.parametrize(("name", "check"), SEEN)
def test_column_that_was_not_seen_fails_the_proof_and_blocks_the_sign_off(log, name, check):
    unseen = {f"seen_{ALARMS[name].checks.index(check)}": "no"}
    hookup, verdict = given(log, name, proven(name, **unseen))
    assert (verdict.place, verdict.sentence) == (Place.OUTSIDE, f"Failed: not seen: {check}.")
    assert blocks(hookup, name)


@pytest.mark.parametrize("name", FITTED)
def test_no_trip_and_a_slow_one_fail(log, name):
    _, verdict = given(log, name, {"tripped": "no"})
    assert (verdict.place, verdict.sentence) == (Place.OUTSIDE, "Failed: no trip.")
    hookup, verdict = given(log, name, proven(name, closed_after="60"))
    assert verdict.place is Place.OUTSIDE
    assert verdict.sentence.startswith("Failed. Closed after 60 s: outside by ")
    assert blocks(hookup, name)


@pytest.mark.parametrize("name", VALUES)
def test_trip_at_a_wrong_value_fails(log, name):
    hookup, verdict = given(log, name, proven(name, value=VALUES[name][1]))
    assert verdict.place is Place.OUTSIDE
    assert verdict.sentence.startswith("Failed. Outside by ")
    assert blocks(hookup, name)


@pytest.mark.parametrize("name", DRY)
def test_failed_shutdown_is_put_right_and_proved_again_and_both_results_stay(log, name):
    hookup, _ = given(log, name, {"tripped": "no"})
    step = hookup.job.checklist.step_of(name)
    refused = hookup.try_(enter, name, proven(name))
    assert "Put it right and report that first" in str(refused)
    hookup.do(report, step.undone_by[0], note="loose wire tightened")
    for need in hookup.standing(step.id).gate:  # what was touched undoes these as well
        for entry in hookup.job.checklist.step(need).entries:
            hookup.do(enter, entry.id, hookup.job.state.latest(entry.id).fields)
    hookup.do(enter, name, proven(name))
    assert hookup.verdict(name).place is Place.INSIDE
    results = [one.fields["tripped"] for one in hookup.job.state.given[name][-2:]]
    assert results == ["no", "yes"]


@pytest.mark.parametrize("name", [name for name in FITTED if name not in DRY])
def test_failed_shutdown_of_the_wet_part_waits_for_the_bypass_run_once_it_is_put_right(log, name):
    hookup, _ = given(log, name, {"tripped": "no"})
    assert "report that first" in str(hookup.try_(enter, name, proven(name)))
    for happening in hookup.job.checklist.step_of(name).undone_by:
        hookup.do(report, happening, note="sensor cleaned")
    refused = str(hookup.try_(enter, name, proven(name)))
    assert "report that first" not in refused
    assert "it is not in order" in refused


def test_slip_in_a_failed_proof_is_corrected_without_a_repair(log):
    hookup, _ = given(log, "a_estop", {"tripped": "no"})
    hookup.do(correct, "a_estop", proven("a_estop"), "touched the wrong plate")
    assert hookup.verdict("a_estop").place is Place.INSIDE


@pytest.mark.parametrize(
    ("kind", "wire_trips", "waive"),
    [
        ("opens on low", "yes", None),
        ("closes on low, line supervised", "yes", None),
        ("closes on low", "no", Waive.OWNER),
    ],
)
def test_low_level_contact_of_each_kind(log, kind, wire_trips, waive):
    """A cut wire is seen by one that opens, and by line supervision; else the owner accepts."""
    hookup = Hookup(log, "level_contact_kind", 2)
    hookup.give("level_contact_kind", kind)
    verdict = hookup.verdict("level_contact_kind")
    assert (verdict.place is Place.OUTSIDE) == (waive is not None)
    if waive:
        assert verdict.waive is waive
        assert "low-level contact" in str(hookup.proof("a_wire"))
        return
    hookup.do(enter, "a_wire", proven("a_wire", tripped=wire_trips))
    assert hookup.verdict("a_wire").place is Place.INSIDE


@pytest.mark.parametrize("trip", REQUIRED_SHUTDOWNS)
def test_required_shutdown_that_is_not_fitted_stops_the_job(trip):
    begin_at = datetime.fromisoformat("2026-06-16T06:45+02:00")
    sheet = without(trip)
    assert not isinstance(read_sheet(sheet, begin_at.date()), tuple)
    begun = begin(checklist_text(), sheet, Act("Maren Holtby", begin_at))
    job = job_of(tuple(event for event in begun if isinstance(event, Event)))
    name = next(name for name, alarm in ALARMS.items() if alarm.trip == trip)
    standing = evaluate(job, begin_at).steps[job.checklist.step_of(name).id]
    assert standing.state is StepState.DEVIATION
    assert standing.verdicts[name].sentence == (
        "Not fitted, and required of every skid: the job stops here."
    )
    assert standing.verdicts[name].waive is Waive.NEVER


def test_shutdown_that_no_skid_needs_is_not_needed_where_it_is_not_fitted():
    assert "unit_trip" not in REQUIRED_SHUTDOWNS
    assert not ALARMS["a_unit"].required


def without(trip):
    head, table, rest = sheet_text().partition(f"[shutdown.{trip}]\n")
    assert table
    _, mark, after = rest.partition("\n[")
    return f"{head}{table}fitted = false\n{mark}{after}"


@pytest.mark.parametrize("name", [name for name in DRY if name != "a_supply"])
def test_repaired_valve_is_reported_as_what_it_is_and_reopens_the_proof(log, name):
    hookup, _ = given(log, name, {"tripped": "no"})
    hookup.do(report, "repaired", note="spindle of the suction closing valve freed")
    assert "report that first" not in str(hookup.try_(enter, name, proven(name)))
