"""What a record says, held against the job and against figures worked out elsewhere."""

import hashlib
import json

import numpy as np
import pytest
import rfc8785
from scipy.optimize import curve_fit

from fieldapp.actions.entering import enter, report
from fieldapp.job.events import Event, Settled
from fieldapp.record.chapters.front.outcome import state_of
from fieldapp.record.content import content_of, fingerprint_of, json_of
from tests.record import small_job

INCH_OF_MERCURY = 33.86389  # hPa, conventional; NIST SP 811 (2008), appendix B.8


def rows_of(content):
    return [row for phase in content.phases for step in phase.steps for row in step.rows]


def row(content, entry, place=-1):
    return [found for found in rows_of(content) if found.entry == entry][place]


def leaves(part):
    if isinstance(part, dict):
        for inner in part.values():
            yield from leaves(inner)
    elif isinstance(part, list):
        for inner in part:
            yield from leaves(inner)
    else:
        yield part


def test_json_is_canonical_and_holds_texts_whole_numbers_and_truths_only(hookup):
    found = json.loads(hookup.json)
    assert rfc8785.dumps(found) == hookup.json
    assert {type(leaf) for leaf in leaves(found)} <= {str, int, bool, type(None)}


def test_fingerprint_is_the_hash_of_the_json(hookup):
    assert fingerprint_of(hookup.json) == hashlib.sha256(hookup.json).hexdigest()


def test_same_job_gives_the_same_json(small):
    again = content_of(small.job, small.at, head=small.head, version="0.0.0")
    assert json_of(again) == small.json


def test_every_entry_that_was_given_stands_in_the_record(hookup):
    told = {found.entry for found in rows_of(hookup.content)}
    assert set(hookup.job.state.given) | set(hookup.job.state.attempts) <= told


def test_every_thing_typed_stands_in_the_record_as_it_was_typed(hookup):
    for name, given in hookup.job.state.given.items():
        texts = [found.value for found in rows_of(hookup.content) if found.entry == name]
        olds = [c.old for f in rows_of(hookup.content) if f.entry == name for c in f.corrections]
        for one in given:
            value = " ".join(one.fields.get("value", "").split())
            kind = hookup.job.checklist.entry(name).kind
            assert kind == "confirm" or not value or value in texts + olds, name


def test_outcome_counts_trips_deviations_repeats_and_corrections(small):
    outcome = small.content.outcome
    assert outcome.sentence == "Proven and left stopped. No deviation is open."
    assert outcome.counts == (
        "Both shutdowns proven by a real stimulus. 1 deviation accepted. "
        "2 tests failed first and were repeated. 1 entry corrected."
    )


def test_counts_are_told_when_they_are_zero(record_of_crew):
    counts = record_of_crew(small_job.begun()).content.outcome.counts
    assert "0 deviations accepted." in counts
    assert "0 tests failed first and were repeated." in counts
    assert "0 entries corrected." in counts


@pytest.mark.parametrize(
    ("stage", "begins", "signatures", "revision"),
    [
        (small_job.begun, "Not proven: 8 steps open, nobody has signed.", 0, 1),
        (small_job.evacuated, "Not proven: 2 steps open, nobody has signed.", 0, 1),
        (small_job.signed_by_technician, "Proven, the crew lead has not signed yet.", 1, 1),
        (small_job.sent_back, "Sent back. 2 steps open.", 0, 2),
        (small_job.signed_off, "Proven and left stopped.", 2, 1),
    ],
    ids=["begun", "evacuated", "technician", "sent back", "signed off"],
)
def test_outcome_says_how_the_job_stands(record_of_crew, stage, begins, signatures, revision):
    content = record_of_crew(stage()).content
    assert content.outcome.sentence.startswith(begins)
    assert len(content.signatures) == signatures
    assert content.heading.revision == revision


def test_failed_shutdown_is_named_with_the_tank_valves(record_of_crew):
    crew = small_job.proven()
    crew.does(report, "wiring_touched", note="again")
    crew.does(enter, "a_wire", {"tripped": "no"})
    outcome = record_of_crew(crew).content.outcome
    assert outcome.sentence == "Not proven: shutdown 1 failed. Tank valves are closed."


def test_shutdown_undone_since_does_not_count_as_proven(record_of_crew):
    crew = small_job.proven()
    assert record_of_crew(crew).content.shutdowns[0].proven
    crew.does(report, "wiring_touched", note="touched once more")
    wire = record_of_crew(crew).content.shutdowns[0]
    assert not wire.proven
    assert wire.lapsed.startswith("Wiring was touched")
    assert not wire.trials[-1].standing


def test_failed_test_stays_beside_the_good_one(small):
    first, second = small.content.shutdowns[0].trials
    assert (first.judgement.words, first.standing) == ("failed: no trip", False)
    assert (second.judgement.words, second.standing) == ("proven", True)
    assert "moved to the pair that opens" in first.notes[0]


def test_correction_keeps_old_value_reason_and_who_saw_it(small):
    bond = row(small.content, "bond")
    (correction,) = bond.corrections
    assert (bond.value, correction.old, correction.new) == ("0.012", "0.120", "0.012")
    assert correction.reason == "digits swapped"
    assert correction.seen_by == small_job.LEAD


def test_deviation_keeps_reason_condition_and_who_accepted_it(small):
    wind = row(small.content, "wind")
    assert wind.judgement.words == "outside by 1.5, accepted"
    assert wind.deviation.reason == "gusts, nothing is lifted"
    assert (wind.deviation.accepted_by, wind.deviation.condition) == (
        small_job.LEAD,
        "nobody on the ladder",
    )


def test_what_was_done_again_after_a_report_is_told(small):
    wiring = small.content.happenings[0]
    assert wiring.kind == "reported"
    assert wiring.again == ("Open one wire: 08:22",)


def test_target_on_the_gauge_is_air_pressure_less_residual_rounded_up(hookup):
    evacuation = hookup.content.evacuation
    inches = (float(evacuation.station) - float(evacuation.residual)) / INCH_OF_MERCURY
    assert 0 <= float(evacuation.gauge_target) - inches < 0.1
    assert evacuation.gauge_target == "20.0"
    assert float(evacuation.deepest) <= float(evacuation.station) / INCH_OF_MERCURY


def test_fit_of_each_pump_down_is_what_scipy_fits(hookup):
    """Least squares of the evacuation equation, by scipy.optimize.curve_fit."""
    for attempt in hookup.content.evacuation.attempts:
        seconds = np.array([r.seconds for r in attempt.readings], dtype=float)
        pressures = np.array([float(r.pressure) for r in attempt.readings])

        def curve(time, start, ultimate, constant):
            return ultimate + (start - ultimate) * np.exp(-time / constant)

        fitted, _ = curve_fit(curve, seconds, pressures, p0=(843, 50, 100))
        assert float(attempt.fit.ultimate) == pytest.approx(fitted[1], abs=0.1)
        assert float(attempt.fit.time_constant) == pytest.approx(fitted[2], rel=1e-3)
        assert float(attempt.fit.speed) == pytest.approx(120.1 / fitted[2] * 60, abs=0.1)


def test_failed_attempt_is_judged_by_the_target_and_keeps_what_was_found(small):
    first, second = small.content.evacuation.attempts
    assert first.judgement.words == "outside by 94.4"
    assert first.note == "levels out, hissing at a coupling"
    assert "new gasket at the return coupling" in first.notes[0]
    assert second.judgement.place == "inside"
    assert [r.inside for r in second.readings] == [False] * 4 + [True] * 3


def test_hold_is_corrected_by_the_law_of_gay_lussac(hookup):
    """P2 at the first temperature = P2 T1 / T2, e.g. Atkins, Physical Chemistry, 1A."""
    (hold,) = hookup.content.evacuation.holds
    first, last = hold.readings[0], hold.readings[-1]
    kelvin = float(first.temperature) + 273.15, float(last.temperature) + 273.15
    corrected = float(last.pressure) * kelvin[0] / kelvin[1]
    assert float(last.corrected) == pytest.approx(corrected, abs=0.005)
    assert float(hold.rise) == pytest.approx(corrected - float(first.pressure), abs=0.01)
    rate = 120.1 * (corrected - float(first.pressure)) / 1800
    assert float(hold.leak) == pytest.approx(rate, abs=0.001)
    assert hold.leak == next(c.value for c in hookup.content.computations if c.id == "leak")


def test_limit_of_the_rise_is_the_limit_of_the_leak_rate(hookup):
    (hold,) = hookup.content.evacuation.holds
    assert float(hold.rise_limit) == pytest.approx(0.333 * 1800 / 120.1, abs=0.02)


def test_diagram_shows_the_last_state_of_each_part(hookup):
    parts = dict(hookup.content.diagram.parts)
    assert parts["oil_pump"] == "runs"
    assert parts["suction_tank_valve"] == parts["return_tank_valve"] == "open"
    assert parts["vacuum_pump"] == "gone"


def test_instruments_are_those_used_with_the_days_they_still_count(hookup):
    probe = next(i for i in hookup.content.instruments if i.id == "moisture_inlet")
    assert probe.days_left == -10
    assert probe.used_up_percent == 100
    assert "Inlet probe" in probe.used_for


def test_journal_head_stands_in_the_record(small):
    assert (small.content.journal.sequence, small.content.journal.hash) == small_job.HEAD
    assert small.content.journal.events == len(small.job.state.log)


def test_signature_that_a_settlement_took_back_was_not_sent_back():
    job = small_job.signed_by_technician().job
    assert state_of(job) == "awaits the crew lead"
    after = job.state.next_sequence
    what = Settled(after - 1, "tablet-1", "The later work is here.", ())
    settled = Event(after, job.state.log[-1].at, "Ruth Calderon", what)
    assert state_of(job.with_events((settled,))) == "not proven"
    assert state_of(small_job.sent_back().job) == "sent back"
