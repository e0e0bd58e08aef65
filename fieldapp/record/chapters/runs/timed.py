"""Traces and holds: one row for each attempt, with all its readings."""

from datetime import datetime
from itertools import pairwise

from fieldapp.checklist.model import Entry, Kind
from fieldapp.job import events
from fieldapp.job.job import Job
from fieldapp.job.state import Attempt, Reading
from fieldapp.judgement.deviations import Deviation as Deviating
from fieldapp.judgement.proofs import timed_verdict
from fieldapp.judgement.values import Values
from fieldapp.judgement.verdict import Verdict
from fieldapp.record.chapters.deviations import deviation, how_settled
from fieldapp.record.chapters.places import evacuation_entries
from fieldapp.record.chapters.shapes.shapes import Correction, Row, Table
from fieldapp.record.chapters.shapes.shapes import Reading as Line
from fieldapp.record.chapters.words import judgement, stamp, typed, unit_sign


def timed_rows(
    entry: Entry, verdict: Verdict, found: Deviating | None, job: Job, values: Values
) -> tuple[Row, ...]:
    """Return a row for each attempt; only the last one stands."""
    attempts = job.state.attempts[entry.id]
    rows = []
    for number, attempt in enumerate(attempts, start=1):
        last = attempt is attempts[-1]
        shown = verdict if last else timed_verdict(entry, attempt, job, values)
        rows.append(_row(entry, attempt, number, shown, found if last else None, job))
    return tuple(rows)


def _row(
    entry: Entry,
    attempt: Attempt,
    number: int,
    verdict: Verdict,
    found: Deviating | None,
    job: Job,
) -> Row:
    attempts = job.state.attempts[entry.id]
    label = entry.label if len(attempts) == 1 else f"{entry.label}, attempt {number}"
    elsewhere = entry.id in evacuation_entries(job.checklist)
    value, unit = _length(entry, attempt)
    return Row(
        entry=entry.id,
        kind=str(entry.kind),
        label=label,
        at=stamp(attempt.ended or attempt.started),
        value=value,
        unit=unit,
        by=attempt.by,
        instrument="",
        judgement=judgement(verdict, settled=how_settled(found) if found else ""),
        standing=attempt is attempts[-1],
        note=attempt.note,
        chapter="evacuation" if elsewhere else "",
        corrections=tuple(
            correction for reading in attempt.readings
            for correction in reading_corrections(entry, reading, job)
        ),
        deviation=deviation(found, job) if found else None,
        table=table_of(entry, attempt) if entry.columns else None,
    )  # fmt: skip


def _length(entry: Entry, attempt: Attempt) -> tuple[str, str]:
    if entry.kind is Kind.TRACE or entry.columns:
        return str(len(attempt.readings)), "readings"
    if attempt.ended is None:
        return "", "min"
    return str(int((attempt.ended - attempt.started).total_seconds() // 60)), "min"


def table_of(entry: Entry, attempt: Attempt) -> Table:
    """Return the readings of an attempt."""
    return Table(
        heads=tuple(column.label for column in entry.columns),
        units=tuple(unit_sign(column.measure.unit) for column in entry.columns),
        readings=tuple(
            Line(
                seconds_since(attempt, reading.taken),
                stamp(reading.taken),
                tuple(typed(reading.fields, column.id) for column in entry.columns),
            )
            for reading in attempt.readings
        ),
    )


def seconds_since(attempt: Attempt, moment: datetime) -> int:
    """Return how many seconds after the first reading a moment lies."""
    first = attempt.readings[0].taken if attempt.readings else attempt.started
    return round((moment - first).total_seconds())


def reported_between(entry: Entry, attempt: Attempt, job: Job) -> tuple[str, ...]:
    """Return what was reported after an attempt and before the next one."""
    later = [a.sequence for a in job.state.attempts[entry.id] if a.sequence > attempt.sequence]
    if not later:
        return ()
    undone_by = job.checklist.step_of(entry.id).undone_by
    labels = {happening.id: happening.label for happening in job.checklist.happenings}
    return tuple(
        f"{labels.get(event.what.happening, event.what.happening)}: {event.what.note} "
        f"({event.by}, {event.at:%H:%M})"
        for event in job.state.log[attempt.sequence : later[0]]
        if isinstance(event.what, events.Reported) and event.what.happening in undone_by
    )


def reading_corrections(entry: Entry, reading: Reading, job: Job) -> tuple[Correction, ...]:
    """Return the corrections of one reading, the oldest first."""
    versions = (*reading.replaced, reading)
    seen = {
        event.what.sequence: event
        for event in job.state.of(events.Seen)
        if isinstance(event.what, events.Seen)
    }
    made = {event.sequence: event.at for event in job.state.of(events.Read)}
    found = []
    for old, new in pairwise(versions):
        looked = seen.get(new.sequence)
        found.append(Correction(
            label=f"{entry.label}, reading of {reading.taken:%H:%M:%S}",
            old=_values(entry, old),
            new=_values(entry, new),
            unit="",
            made_at=stamp(made[old.sequence]),
            at=stamp(made[new.sequence]),
            by=new.by,
            reason=new.reason,
            seen_by=looked.by if looked else "",
            seen_at=stamp(looked.at) if looked else "",
        ))  # fmt: skip
    return tuple(found)


def _values(entry: Entry, reading: Reading) -> str:
    return ", ".join(
        f"{column.label} {typed(reading.fields, column.id)}"
        for column in entry.columns
        if column.id in reading.fields
    )
