"""What people do at the steps of a job: each action gives the events it makes, or says why not.

Screens, command line and demo call these and nothing else. Gates hold back only what brings
oil, vacuum or pressure nearer; making safe, closing a valve and leaving are never refused.
"""

from datetime import datetime

from fieldapp.actions.fields import faults_of, reading_faults, with_units
from fieldapp.actions.rules import (
    Act,
    Outcome,
    Refusal,
    composed,
    no_reason,
    outcome,
    signed_already,
    unknown_person,
)
from fieldapp.checklist.facts import VALVES
from fieldapp.checklist.model import Entry, Kind, Measure, Waive
from fieldapp.job import events
from fieldapp.job.events import Event, Fields
from fieldapp.job.job import Job
from fieldapp.judgement.asking import asked_for
from fieldapp.judgement.evaluation import StepState, evaluate
from fieldapp.units import unit_named


def enter(job: Job, entry_id: str, fields: Fields, act: Act, *, instrument: str = "") -> Outcome:
    """Give something at an entry, for the first time or measured again.

    Without an `instrument` the one that the checklist names was used.
    """
    entry = job.checklist.entry(entry_id)
    given = with_units(entry, fields)
    used = instrument or (entry.measure.instrument if entry.measure else "")
    reasons = (
        *unknown_person(job, act),
        *_not_now(job, entry, act.at),
        *not_put_right(job, entry, act.at),
        *_instrument_faults(job, instrument, entry.measure),
        *_worded(entry, faults_of(entry, given, who=act.who, at=act.at)),
    )
    return outcome(job, act, reasons, events.Entered(entry_id, given, used))


def correct(
    job: Job, entry_id: str, fields: Fields, reason: str, act: Act, *, instrument: str = ""
) -> Outcome:
    """Correct what was typed wrong; the old value stays readable."""
    entry = job.checklist.entry(entry_id)
    latest = job.state.latest(entry_id)
    given = with_units(entry, fields)
    reasons = (
        *unknown_person(job, act),
        *signed_already(job),
        *(() if latest else (f"{entry.label}: nothing is there to correct yet.",)),
        *no_reason(reason),
        *_instrument_faults(job, instrument, entry.measure),
        *_worded(entry, faults_of(entry, given, who=act.who, at=act.at)),
    )
    return outcome(job, act, reasons, events.Entered(
        entry_id, given, instrument or (latest.instrument if latest else ""), reason.strip(),
        latest.sequence if latest else -1,
    ))  # fmt: skip


def cannot_measure(job: Job, entry_id: str, reason: str, act: Act) -> Outcome:
    """Say why something cannot be taken: a broken instrument, a place that cannot be reached.

    It never counts as done where nobody may accept it; else it is a deviation with its reason.
    """
    entry = job.checklist.entry(entry_id)
    given = {"missing": reason.strip()}
    reasons = (
        *unknown_person(job, act),
        *_not_now(job, entry, act.at),
        *_worded(entry, faults_of(entry, given, who=act.who, at=act.at)),
    )
    if reasons:
        return Refusal(reasons)
    sequence = job.state.next_sequence
    missing = Event(sequence, act.at, act.who, composed(events.Entered(entry_id, given)))
    why = composed(events.Explained(entry_id, reason.strip()))
    explained = Event(sequence + 1, act.at, act.who, why)
    return (missing,) if entry.waive is Waive.NEVER else (missing, explained)


def start(job: Job, entry_id: str, act: Act) -> Outcome:
    """Start a trace or a hold, or start it again after a failed attempt."""
    entry = job.checklist.entry(entry_id)
    reasons = (*unknown_person(job, act), *_not_now(job, entry, act.at), *_not_timed(entry))
    return outcome(job, act, reasons, events.Started(entry_id))


def read(
    job: Job,
    entry_id: str,
    fields: Fields,
    act: Act,
    *,
    taken: datetime | None = None,
    instrument: str = "",
) -> Outcome:
    """Keep one timed reading; `taken` is when the needle stood there (now, unless said)."""
    entry = job.checklist.entry(entry_id)
    given = with_units(entry, fields)
    reasons = (
        *unknown_person(job, act),
        *signed_already(job),
        *_not_timed(entry),
        *_not_running(job, entry),
        *_instruments_faults(job, entry, given, instrument),
        *_worded(entry, reading_faults(entry, given)),
    )  # fmt: skip
    return outcome(job, act, reasons, events.Read(entry_id, given, taken or act.at, instrument))


def correct_reading(
    job: Job, entry_id: str, sequence: int, fields: Fields, reason: str, act: Act
) -> Outcome:
    """Correct a timed reading that was typed wrong; the old one stays readable."""
    entry = job.checklist.entry(entry_id)
    attempt = job.state.attempt(entry_id)
    found = [r for r in (attempt.readings if attempt else ()) if r.sequence == sequence]
    kept = found[0].fields if found else {}
    used = {name: one for name, one in kept.items() if name.endswith("_instrument")}
    given = with_units(entry, {**used, **fields})
    reasons = (
        *unknown_person(job, act), *signed_already(job), *no_reason(reason),
        *(() if found else (f"{entry.label}: that reading is not there.",)),
        *_instruments_faults(job, entry, given),
        *_worded(entry, reading_faults(entry, given)),
    )  # fmt: skip
    if reasons:
        return Refusal(reasons)
    return outcome(job, act, (), events.Read(
        entry_id, given, found[0].taken, found[0].instrument, reason.strip(), sequence
    ))  # fmt: skip


def end(job: Job, entry_id: str, act: Act, *, note: str = "") -> Outcome:
    """End a trace or a hold, with what was found."""
    entry = job.checklist.entry(entry_id)
    reasons = (
        *unknown_person(job, act),
        *signed_already(job),
        *_not_timed(entry),
        *_not_running(job, entry),
    )  # fmt: skip
    return outcome(job, act, reasons, events.Ended(entry_id, note))


def report(job: Job, happening: str, act: Act, *, note: str = "") -> Outcome:
    """Report that something was touched or has changed; never gated."""
    known = {found.id for found in job.checklist.happenings}
    reasons = () if happening in known else (f"“{happening}” is not in this checklist.",)
    return outcome(job, act, reasons, events.Reported(happening, note))


def close_valve(job: Job, part: str, act: Act, *, note: str = "") -> Outcome:
    """Record that a valve was closed; never gated."""
    reasons = () if part in VALVES else (f"There is no valve “{part}” on the line diagram.",)
    return outcome(job, act, reasons, events.Closed(part, note))


def make_safe(job: Job, done: str, act: Act, *, note: str = "") -> Outcome:
    """Record what was done to make safe; never gated, never refused."""
    return outcome(job, act, (), events.MadeSafe(done, note))


def _not_now(job: Job, entry: Entry, at: datetime) -> tuple[str, ...]:
    """Return why the entry's step cannot be done now: its gate, or it is not needed here."""
    signed = signed_already(job)
    if signed:
        return signed
    evaluation = evaluate(job, at)
    standing = evaluation.steps[job.checklist.step_of(entry.id).id]
    left_out = standing.state is StepState.NOT_NEEDED and not entry.optional
    if left_out or not asked_for(standing.step, evaluation.values.replies):
        return (f"“{standing.step.title}” is not needed on this job.",)
    waits = tuple(
        f"First “{job.checklist.step(need).title}”: it is not in order." for need in standing.gate
    )
    return waits + standing.unfit


def not_put_right(job: Job, entry: Entry, at: datetime) -> tuple[str, ...]:
    """Return why a shutdown that failed is not proved again yet: nothing was put right since."""
    failed = job.state.latest(entry.id)
    step = job.checklist.step_of(entry.id)
    if entry.kind is not Kind.ALARM or failed is None or not step.undone_by:
        return ()
    if evaluate(job, at).steps[step.id].verdicts[entry.id].place.good:
        return ()
    reported = (e.what.happening for e in job.state.log[failed.sequence :]
                if isinstance(e.what, events.Reported))  # fmt: skip
    if any(happening in step.undone_by for happening in reported):
        return ()
    labels = {h.id: h.label for h in job.checklist.happenings}
    words = " or ".join(f"“{labels.get(name, name)}”" for name in step.undone_by)
    return (f"It failed at {failed.at:%H:%M}. Put it right and report that first: {words}.",)


def _instrument_faults(
    job: Job, instrument: str, measure: Measure | None = None
) -> tuple[str, ...]:  # fmt: skip
    found = job.sheet.instrument(instrument) if instrument else None
    if instrument and found is None:
        return (f"Instrument “{instrument}” is not on the job sheet.",)
    if found and measure and instrument != measure.instrument:
        own, asked = unit_named(found.unit).quantity, unit_named(measure.unit).quantity
        return () if own == asked else (f"{found.name} reads {own}, this asks for {asked}.",)
    return ()


def _instruments_faults(
    job: Job, entry: Entry, fields: Fields, instrument: str = ""
) -> tuple[str, ...]:  # fmt: skip
    """Return what is wrong with the instruments of a reading: of all of it, or of a column."""
    only = entry.columns[0].measure if len(entry.columns) == 1 else None
    own = [(fields.get(f"{c.id}_instrument", ""), c.measure) for c in entry.columns]
    pairs = [(instrument, only), *own]
    return tuple(fault for pair in pairs for fault in _instrument_faults(job, *pair))


def _worded(entry: Entry, faults: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(f"{entry.label}: {fault}." for fault in faults)


def _not_timed(entry: Entry) -> tuple[str, ...]:
    timed = entry.kind in (Kind.TRACE, Kind.HOLD)
    return () if timed else (f"{entry.label} is not a timed reading.",)


def _not_running(job: Job, entry: Entry) -> tuple[str, ...]:
    attempt = job.state.attempt(entry.id)
    running = attempt is not None and attempt.ended is None
    return () if running else (f"{entry.label}: start it first.",)
