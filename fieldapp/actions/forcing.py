"""Blocking, restoring and leaving: recorded at any time, by name; never gated, never refused."""

from fieldapp.actions.rules import Act, Outcome, outcome
from fieldapp.job import events
from fieldapp.job.job import Job
from fieldapp.job.moments import NotATimeError, moment_of


def block(job: Job, what: str, person: str, role: str, act: Act, *, until: str = "") -> Outcome:
    """Record that something was blocked, opened or isolated; the person needs no login."""
    reasons = (
        *(() if what.strip() else ("Say what is blocked.",)),
        *(() if person.strip() else ("Name the person who blocked it.",)),
        *_not_a_time(until, act),
    )
    found = events.Blocked(what.strip(), person.strip(), role.strip(), until.strip())
    return outcome(job, act, reasons, found)


def restore(
    job: Job, sequence: int, person: str, role: str, act: Act, *, proved: str = ""
) -> Outcome:
    """Record that what was blocked is back, restored and proved by whom."""
    reasons = (
        *_not_blocked(job, sequence),
        *(() if person.strip() else ("Name the person who restored it.",)),
    )
    found = events.Restored(sequence, person.strip(), role.strip(), proved.strip())
    return outcome(job, act, reasons, found)


def leave(
    job: Job, in_force: tuple[str, ...], act: Act, person: str = "", role: str = ""
) -> Outcome:
    """Record that somebody left with things in force, and who took over; never refused."""
    return outcome(job, act, (), events.HandedOver(in_force, person.strip(), role.strip()))


def _not_a_time(until: str, act: Act) -> tuple[str, ...]:
    if not until.strip():
        return ()
    try:
        moment_of(until, act.at)
    except NotATimeError as why:
        return (f"{why}.",)
    return ()


def _not_blocked(job: Job, sequence: int) -> tuple[str, ...]:
    """Return why there is nothing to restore there."""
    blocked = {event.sequence for event in job.state.of(events.Blocked)}
    if sequence not in blocked:
        return ("Nothing was blocked there.",)
    restored = (event.what for event in job.state.of(events.Restored))
    if any(isinstance(w, events.Restored) and w.sequence == sequence for w in restored):
        return ("That is restored already.",)
    return ()
