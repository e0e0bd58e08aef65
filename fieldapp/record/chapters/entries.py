"""Every entry of a job by phase and step: what stands, what stood before, and why."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from fieldapp.checklist.model import Checklist, Computed, Entry, Kind, Phase, Step
from fieldapp.job import events
from fieldapp.job.job import Job
from fieldapp.job.state import Given
from fieldapp.judgement.deviations import Deviation as Deviating
from fieldapp.judgement.evaluation import Evaluation, StepStanding, StepState
from fieldapp.judgement.subjects import verdict_if
from fieldapp.judgement.verdict import MISSING, NOT_NEEDED, Place, Verdict
from fieldapp.record.chapters.deviations import deviation, how_settled
from fieldapp.record.chapters.runs.timed import timed_rows
from fieldapp.record.chapters.shapes.shapes import Correction, Judgement, PhaseRows, Row, StepRows
from fieldapp.record.chapters.shutdowns import proof_judgement
from fieldapp.record.chapters.words import (
    entry_limits,
    in_unit_text,
    judgement,
    stamp,
    typed,
    unit_sign,
    value_of,
)


def phases_of(job: Job, evaluation: Evaluation) -> tuple[PhaseRows, ...]:
    """Return every phase with its steps and their rows."""
    return tuple(_phase(phase, job, evaluation) for phase in job.checklist.phases)


def _phase(phase: Phase, job: Job, evaluation: Evaluation) -> PhaseRows:
    steps = tuple(_step(evaluation.steps[step.id], job, evaluation) for step in phase.steps)
    standings = [evaluation.steps[step.id] for step in phase.steps]
    return PhaseRows(phase.id, phase.title, _status(standings, steps), steps)


def _status(standings: Sequence[StepStanding], steps: Sequence[StepRows]) -> str:
    needed = [s for s in standings if s.state is not StepState.NOT_NEEDED]
    done = sum(s.in_order for s in needed)
    words = [f"all {done} steps done" if done == len(needed) else f"{done} of {len(needed)} done"]
    settled = sum(d.settled for s in needed for d in s.deviations)
    if settled:
        words.append(f"{settled} deviation{'s' if settled > 1 else ''} accepted")
    corrected = sum(len(row.corrections) for step in steps for row in step.rows)
    if corrected:
        words.append(f"{corrected} corrected")
    left_out = str(StepState.NOT_NEEDED)
    again = sum(not r.standing for step in steps if step.state != left_out for r in step.rows)
    if again:
        words.append(f"{again} made again")
    return ", ".join(words)


def _step(standing: StepStanding, job: Job, evaluation: Evaluation) -> StepRows:
    step = standing.step
    if standing.state is StepState.NOT_NEEDED:
        given = _given_before(step, job, evaluation)
        return StepRows(step.id, step.title, str(standing.state), standing.why, given)
    rows = [row for entry in step.entries for row in _rows(entry, standing, job, evaluation)]
    rows += [
        _computed_row(computed, standing, job, evaluation)
        for computed in job.checklist.computed
        if computed.step == step.id
    ]
    return StepRows(step.id, step.title, str(standing.state), standing.why, tuple(rows))


def _given_before(step: Step, job: Job, evaluation: Evaluation) -> tuple[Row, ...]:
    """Return what was given at a step while it was asked for; a later answer left it out."""
    rows: list[Row] = []
    for entry in step.entries:
        if job.state.attempts.get(entry.id):
            rows += timed_rows(entry, NOT_NEEDED, None, job, evaluation.values)
        for chain in _chains(job.state.given.get(entry.id, ())):
            verdict = verdict_if(entry, chain[-1], job, evaluation.values)
            rows.append(_given_row(entry, chain, verdict, job, evaluation))
    return tuple(replace(row, standing=False) for row in rows)


def _rows(
    entry: Entry, standing: StepStanding, job: Job, evaluation: Evaluation
) -> tuple[Row, ...]:
    verdict = standing.verdicts.get(entry.id, MISSING)
    found = next((d for d in standing.deviations if d.subject == entry.id), None)
    if entry.kind in (Kind.TRACE, Kind.HOLD) and job.state.attempts.get(entry.id):
        return timed_rows(entry, verdict, found, job, evaluation.values)
    if entry.kind is Kind.SIGN:
        return (_signed_row(entry, verdict, job),)
    chains = _chains(job.state.given.get(entry.id, ()))
    if not chains:
        unwanted = entry.optional and verdict.place is Place.NOT_NEEDED
        return () if unwanted else (_empty_row(entry, verdict, evaluation),)
    rows = []
    for chain in chains:
        last = chain is chains[-1]
        shown = verdict if last else verdict_if(entry, chain[-1], job, evaluation.values)
        row = _given_row(entry, chain, shown, job, evaluation)
        rows.append(
            _settled(entry, row, found, job, evaluation) if last else replace(row, standing=False)
        )
    return tuple(rows)


def _chains(given: Sequence[Given]) -> list[list[Given]]:
    """Return what was given, each with the corrections of it."""
    chains: dict[int, list[Given]] = {}
    for one in given:
        chains.setdefault(one.since, []).append(one)
    return list(chains.values())


def _given_row(
    entry: Entry, chain: Sequence[Given], verdict: Verdict, job: Job, evaluation: Evaluation
) -> Row:
    last = chain[-1]
    value, unit = value_of(entry, last.fields)
    return Row(
        entry=entry.id,
        kind=str(entry.kind),
        label=entry.label,
        at=stamp(last.done_at),
        value=value,
        unit=unit,
        by=last.by,
        instrument=last.instrument,
        judgement=_judged(entry, verdict, evaluation),
        chapter="shutdowns" if entry.kind is Kind.ALARM else "",
        corrections=corrections_of(entry, chain, job),
    )


def corrections_of(entry: Entry, chain: Sequence[Given], job: Job) -> tuple[Correction, ...]:
    """Return each correction in a chain: the old value, the new one, when, by whom and why."""
    return tuple(
        Correction(
            label=entry.label,
            old=_all_typed(entry, old),
            new=_all_typed(entry, new),
            unit=value_of(entry, new.fields)[1],
            made_at=stamp(old.at),
            at=stamp(new.at),
            by=new.by,
            reason=new.reason,
            **_seen(job, new.sequence),
        )
        for old, new in pairwise(chain)
    )


def _all_typed(entry: Entry, given: Given) -> str:
    if entry.kind is not Kind.ALARM:
        return typed(given.fields) or "done"
    seen = sum(given.fields.get(f"seen_{place}") == "yes" for place in range(len(entry.checks)))
    return f"trip {given.fields.get('tripped', 'no')}, {seen} of {len(entry.checks)} seen"


def _seen(job: Job, sequence: int) -> dict[str, str]:
    """Return who has seen an event, and when, as the parts of a correction."""
    for event in job.state.of(events.Seen):
        if isinstance(event.what, events.Seen) and event.what.sequence == sequence:
            return {"seen_by": event.by, "seen_at": stamp(event.at)}
    return {}


def _judged(entry: Entry, verdict: Verdict, evaluation: Evaluation, settled: str = "") -> Judgement:
    if entry.kind is Kind.ALARM:
        return proof_judgement(entry, verdict, evaluation, settled)
    unit = entry.measure.unit if entry.measure else ""
    limits = entry_limits(entry, evaluation.values)
    return judgement(verdict, unit, limits=limits, settled=settled)


def _settled(
    entry: Entry, row: Row, found: Deviating | None, job: Job, evaluation: Evaluation
) -> Row:
    if found is None:
        return row
    shown = _judged(entry, found.verdict, evaluation, how_settled(found))
    return replace(row, judgement=shown, deviation=deviation(found, job))


def entry_unit(checklist: Checklist, subject: str) -> str:
    """Return the unit of an entry or a computed value; nothing where it has none."""
    for computed in checklist.computed:
        if computed.id == subject:
            return computed.unit
    measure = checklist.entry(subject).measure
    return measure.unit if measure else ""


def _signed_row(entry: Entry, verdict: Verdict, job: Job) -> Row:
    signed = job.state.signature(entry.role)
    at, by = (stamp(signed.at), signed.by) if signed else ("", "")
    shown = judgement(verdict)
    return Row(entry.id, str(entry.kind), entry.label, at, by, "", by, "", shown)


def _empty_row(entry: Entry, verdict: Verdict, evaluation: Evaluation) -> Row:
    unit = unit_sign(entry.measure.unit) if entry.measure else ""
    shown = _judged(entry, verdict, evaluation)
    return Row(entry.id, str(entry.kind), entry.label, "", "", unit, "", "", shown)


def _computed_row(
    computed: Computed, standing: StepStanding, job: Job, evaluation: Evaluation
) -> Row:
    found = next((d for d in standing.deviations if d.subject == computed.id), None)
    verdict = standing.verdicts.get(computed.id, MISSING)
    working = evaluation.values.workings.get(computed.id)
    value = ""
    if working is not None and working.value is not None:
        value = in_unit_text(working.value, computed.unit, computed.decimals, computed.rounding)
        if verdict.place is Place.MISSING:
            verdict = Verdict(Place.NOTED, "Worked out; nothing is judged by it here.")
    settled = how_settled(found) if found else ""
    at = stamp(standing.done.at) if standing.done else ""
    return Row(
        entry=computed.id,
        kind="computed",
        label=computed.label,
        at=at,
        value=value,
        unit=unit_sign(computed.unit),
        by="",
        instrument="",
        judgement=judgement(verdict, computed.unit, settled=settled),
        chapter="computations",
        deviation=deviation(found, job) if found else None,
    )
