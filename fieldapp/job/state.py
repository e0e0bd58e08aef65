"""What is known of a job: the replay of its events, never stored."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from functools import reduce
from types import MappingProxyType
from typing import TypeVar

from fieldapp.job import events
from fieldapp.job.events import Event, Fields

_T = TypeVar("_T")


@dataclass(frozen=True, slots=True)
class Given:
    """One thing given at an entry; a correction keeps the place (`since`) of what it corrects."""

    sequence: int
    since: int
    at: datetime
    done_at: datetime
    by: str
    fields: Fields
    instrument: str
    reason: str
    corrects: int


@dataclass(frozen=True, slots=True)
class Reading:
    """One timed reading; a correction replaces it and stays readable in the journal."""

    sequence: int
    taken: datetime
    by: str
    fields: Fields
    instrument: str
    replaced: tuple["Reading", ...] = ()
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Attempt:
    """One run of a trace or a hold, from its start to its end."""

    sequence: int
    started: datetime
    by: str
    readings: tuple[Reading, ...] = ()
    ended: datetime | None = None
    end_sequence: int = -1
    note: str = ""


@dataclass(frozen=True, slots=True)
class Explanation:
    """Why something outside its limits is kept."""

    sequence: int
    at: datetime
    by: str
    reason: str


@dataclass(frozen=True, slots=True)
class Acceptance:
    """A deviation accepted by somebody who may."""

    sequence: int
    at: datetime
    by: str
    what: events.Accepted


@dataclass(frozen=True, slots=True)
class Promise:
    """Who puts a deviation right that stays open, by which day, and who said so."""

    sequence: int
    at: datetime
    by: str
    person: str
    due: date


@dataclass(frozen=True, slots=True)
class JobState:
    """All that the events say, looked up by entry, subject or happening."""

    log: tuple[Event, ...] = ()
    given: Mapping[str, tuple[Given, ...]] = field(default_factory=lambda: MappingProxyType({}))
    attempts: Mapping[str, tuple[Attempt, ...]] = field(
        default_factory=lambda: MappingProxyType({})
    )
    explanations: Mapping[str, tuple[Explanation, ...]] = field(
        default_factory=lambda: MappingProxyType({})
    )
    acceptances: Mapping[str, tuple[Acceptance, ...]] = field(
        default_factory=lambda: MappingProxyType({})
    )
    promises: Mapping[str, tuple[Promise, ...]] = field(
        default_factory=lambda: MappingProxyType({})
    )
    seen: frozenset[int] = frozenset()

    @property
    def next_sequence(self) -> int:
        """Return the sequence number of the next event."""
        return len(self.log)

    def of(self, *kinds: type) -> tuple[Event, ...]:
        """Return the events of some kinds, in order."""
        return tuple(event for event in self.log if isinstance(event.what, kinds))

    def latest(self, entry: str) -> Given | None:
        """Return what was last given at an entry."""
        found = self.given.get(entry)
        return found[-1] if found else None

    def attempt(self, entry: str) -> Attempt | None:
        """Return the last attempt of a trace or a hold."""
        found = self.attempts.get(entry)
        return found[-1] if found else None

    def signature(self, role: str) -> Event | None:
        """Return the signing in a role that stands: the last one, unless sent back since.

        Nor does one stand from before two stories were settled: it was given without the other.
        """
        for event in reversed(self.log):
            if isinstance(event.what, events.SentBack | events.Settled):
                return None
            if isinstance(event.what, events.Signed) and event.what.role == role:
                return event
        return None


def replay(log: Iterable[Event]) -> JobState:
    """Return the state that the events lead to."""
    return reduce(after, log, JobState())


def after(state: JobState, event: Event) -> JobState:
    """Return the state once `event` has happened too."""
    logged = replace(state, log=(*state.log, event))
    match event.what:
        case events.Entered():
            return replace(logged, given=_entered(state, event, event.what))
        case events.Started() | events.Read() | events.Ended():
            return replace(logged, attempts=_timed(state, event))
        case events.Explained() | events.Accepted() | events.Promised():
            return _deviated(logged, event)
        case events.Seen(sequence):
            return replace(logged, seen=state.seen | {sequence})
    return logged


def _deviated(state: JobState, event: Event) -> JobState:
    """Return the state with what was said of a deviation."""
    match event.what:
        case events.Explained(subject, reason):
            explanation = Explanation(event.sequence, event.at, event.by, reason)
            return replace(state, explanations=_added(state.explanations, subject, explanation))
        case events.Accepted(subject):
            acceptance = Acceptance(event.sequence, event.at, event.by, event.what)
            return replace(state, acceptances=_added(state.acceptances, subject, acceptance))
        case events.Promised(subject, person, due):
            day = date.fromisoformat(due)
            promise = Promise(event.sequence, event.at, event.by, person, day)
            return replace(state, promises=_added(state.promises, subject, promise))
    return state


def _added(table: Mapping[str, tuple[_T, ...]], key: str, item: _T) -> Mapping[str, tuple[_T, ...]]:
    return MappingProxyType({**table, key: (*table.get(key, ()), item)})


def _entered(
    state: JobState, event: Event, what: events.Entered
) -> Mapping[str, tuple[Given, ...]]:
    earlier = state.given.get(what.entry, ())
    corrected = next((g for g in earlier if g.sequence == what.corrects), None)
    given = Given(
        sequence=event.sequence,
        since=corrected.since if corrected else event.sequence,
        at=event.at,
        done_at=corrected.done_at if corrected else event.at,
        by=event.by,
        fields=what.fields,
        instrument=what.instrument,
        reason=what.reason,
        corrects=what.corrects,
    )
    return _added(state.given, what.entry, given)


def _timed(state: JobState, event: Event) -> Mapping[str, tuple[Attempt, ...]]:
    match event.what:
        case events.Started(entry):
            return _added(state.attempts, entry, Attempt(event.sequence, event.at, event.by))
        case events.Read(entry) | events.Ended(entry):
            *earlier, last = state.attempts[entry]
            changed = (
                _with_reading(last, event)
                if isinstance(event.what, events.Read)
                else (
                    replace(last, ended=event.at, end_sequence=event.sequence, note=event.what.note)
                )
            )
            return MappingProxyType({**state.attempts, entry: (*earlier, changed)})
    return state.attempts


def _with_reading(attempt: Attempt, event: Event) -> Attempt:
    what = event.what
    assert isinstance(what, events.Read)  # noqa: S101 - narrowed by the caller
    reading = Reading(event.sequence, what.taken, event.by, what.fields, what.instrument,
                      reason=what.reason)  # fmt: skip
    if what.corrects < 0:
        return replace(attempt, readings=(*attempt.readings, reading))
    return replace(
        attempt,
        readings=tuple(
            replace(reading, replaced=(*old.replaced, old))
            if old.sequence == what.corrects
            else old
            for old in attempt.readings
        ),
    )
