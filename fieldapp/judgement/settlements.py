"""What a settlement between two tablets leaves open: what the side set aside touched or moved.

Nobody can say in which order two tablets at work at once did things. So what the other side
worked at is to do again, what it reported has happened, and where it left a valve is not known.
"""

from dataclasses import dataclass
from datetime import datetime

from fieldapp.checklist.model import Step
from fieldapp.job.events import Closed, Ended, Entered, Event, Read, Reported, Settled, Started
from fieldapp.job.job import Job


@dataclass(frozen=True, slots=True)
class Left:
    """When something was settled, the steps worked at, what happened, and the parts moved."""

    sequence: int
    at: datetime
    steps: frozenset[str]
    happenings: frozenset[str]
    parts: frozenset[str]


def left_by_settlements(job: Job) -> tuple[Left, ...]:
    """Return what each settlement of a job leaves open, oldest first."""
    return tuple(
        _left(job, event, set_aside(event.what))
        for event in job.state.log
        if isinstance(event.what, Settled)
    )


def set_aside(what: Settled) -> tuple[Event, ...]:
    """Return all that was set aside, with what an earlier settlement in it set aside."""
    found: list[Event] = []
    for event in what.events():
        found.append(event)
        if isinstance(event.what, Settled):
            found.extend(set_aside(event.what))
    return tuple(found)


def _left(job: Job, settled: Event, aside: tuple[Event, ...]) -> Left:
    whats = [event.what for event in aside]
    entries = {what.entry for what in whats if isinstance(what, Entered | Started | Read | Ended)}
    steps = [s for s in job.checklist.steps() if any(entry.id in entries for entry in s.entries)]
    reported = {what.happening for what in whats if isinstance(what, Reported)}
    closed = {what.part for what in whats if isinstance(what, Closed)}
    return Left(
        settled.sequence,
        settled.at,
        steps=frozenset(step.id for step in steps),
        happenings=frozenset(reported.union(*(step.causes for step in steps))),
        parts=frozenset(closed.union(*map(_moved, steps))),
    )


def _moved(step: Step) -> set[str]:
    return {part for part, _ in step.sets}
