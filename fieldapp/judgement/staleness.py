"""When a step was done, and what has made it stale since."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from fieldapp.checklist.model import Entry, Kind, Step
from fieldapp.job.events import Reported
from fieldapp.job.job import Job
from fieldapp.job.moments import moment_of
from fieldapp.job.state import JobState
from fieldapp.judgement.deviations import Deviation
from fieldapp.judgement.settlements import left_by_settlements
from fieldapp.judgement.verdict import Place, Verdict


@dataclass(frozen=True, slots=True)
class Done:
    """When a step was done: the oldest and the last of what stands there, and the last time."""

    first_sequence: int
    last_sequence: int
    at: datetime
    by: str


def done_of(
    step: Step, verdicts: Mapping[str, Verdict], deviations: Sequence[Deviation], job: Job
) -> Done | None:
    """Return when a step was done, or None while something of it is missing or open."""
    if any(verdict.place is Place.MISSING for verdict in verdicts.values()):
        return None
    if any(not deviation.settled for deviation in deviations):
        return None
    moments = [m for entry in step.entries if (m := _moment(entry, job.state)) is not None]
    if not moments:
        return None
    last = max(moments, key=lambda moment: moment.last_sequence)
    return Done(min(m.first_sequence for m in moments), last.last_sequence, last.at, last.by)


def _moment(entry: Entry, state: JobState) -> Done | None:
    if entry.kind is Kind.SIGN:
        signed = state.signature(entry.role)
        return Done(signed.sequence, signed.sequence, signed.at, signed.by) if signed else None
    if entry.kind in (Kind.TRACE, Kind.HOLD):
        attempt = state.attempt(entry.id)
        if attempt is None or attempt.ended is None:
            return None
        return Done(attempt.sequence, attempt.end_sequence, attempt.ended, attempt.by)
    given = state.latest(entry.id)
    return Done(given.since, given.since, given.done_at, given.by) if given else None


def why_stale(
    job: Job, done: Mapping[str, Done | None], skipped: Collection[str], now: datetime
) -> dict[str, str]:
    """Return the steps that must be done again, each with the reason in a sentence."""
    labels = {happening.id: happening.label for happening in job.checklist.happenings}
    happened = _happenings(job)
    lefts = left_by_settlements(job)
    stale: dict[str, str] = {}
    steps = job.checklist.steps()
    for step in reversed(steps):  # a passed time matters only while what needs the step is to come
        moment = done.get(step.id)
        if moment is None:
            continue
        undone = [
            (name, at) for name, sequence, at in happened
            if name in step.undone_by and sequence > moment.first_sequence
        ]  # fmt: skip
        if undone:
            name, at = undone[-1]
            stale[step.id] = f"{labels.get(name, name)}, {at:%H:%M}: do this again."
            continue
        apart = [
            left
            for left in lefts
            if step.id in left.steps and left.sequence > moment.first_sequence
        ]
        if apart:
            stale[step.id] = (
                f"Two tablets worked at this, settled {apart[-1].at:%H:%M}: do this again."
            )
            continue
        if step.id not in skipped and (asked := _asked_anew(step, moment, job)):
            stale[step.id] = asked
            continue
        end = _end(step, moment, job.state)
        if end is not None and now > end and not _spent(step, steps, done, skipped, stale):
            stale[step.id] = f"The time ran out at {end:%H:%M}: do this again."
    return stale


def _asked_anew(step: Step, moment: Done, job: Job) -> str:
    """Return why a step is done again that an answer given since has asked for; "" if none."""
    answer = step.when_answer
    given = job.state.latest(answer.entry) if answer else None
    if answer is None or given is None or given.since < moment.first_sequence:
        return ""
    label = job.checklist.entry(answer.entry).label
    return f"“{label}” was answered again, {given.done_at:%H:%M}: do this again."


def _happenings(job: Job) -> tuple[tuple[str, int, datetime], ...]:
    """Return (happening, sequence, when): what people reported, and what steps cause."""
    reported = [
        (event.what.happening, event.sequence, event.at)
        for event in job.state.of(Reported)
        if isinstance(event.what, Reported)
    ]
    caused = [
        (name, given.since, given.done_at)
        for step in job.checklist.steps()
        for name in step.causes
        for entry in step.entries
        for given in job.state.given.get(entry.id, ())
    ]
    elsewhere = [
        (name, left.sequence, left.at)
        for left in left_by_settlements(job)
        for name in sorted(left.happenings)
    ]
    return tuple(sorted((*reported, *caused, *elsewhere), key=lambda item: item[1]))


def _end(step: Step, moment: Done, state: JobState) -> datetime | None:
    ends = [moment.at + timedelta(seconds=step.lasts)] if step.lasts is not None else []
    for entry in step.entries:
        given = state.latest(entry.id)
        if entry.expires and given is not None:
            ends.append(moment_of(given.fields["value"], given.done_at))
    return min(ends, default=None)


def _spent(
    step: Step,
    steps: Sequence[Step],
    done: Mapping[str, Done | None],
    skipped: Collection[str],
    stale: Mapping[str, str],
) -> bool:
    """Say whether all that the step had to protect has been done."""
    protected = step.until or tuple(other.id for other in steps if step.id in other.needs)
    return all(
        other in skipped or (done.get(other) is not None and other not in stale)
        for other in protected
    )
