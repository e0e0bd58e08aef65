"""Who may do what, and what an action gives: events, or why not."""

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from datetime import datetime
from typing import Any
from unicodedata import normalize

from fieldapp.checklist.model import Waive
from fieldapp.job.events import Event, What
from fieldapp.job.job import Job

LEAD, TECHNICIAN, OWNER = "crew lead", "technician", "owner's engineer"


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why an action is not possible now: each reason says what to do."""

    reasons: tuple[str, ...]

    def __str__(self) -> str:
        """Return the reasons on one line."""
        return " ".join(self.reasons)


Outcome = tuple[Event, ...] | Refusal


@dataclass(frozen=True, slots=True)
class Act:
    """Who acts, and when by the tablet's clock."""

    who: str
    at: datetime


def outcome(job: Job, act: Act, reasons: tuple[str, ...], what: What) -> Outcome:
    """Return the event, or the refusal when there are reasons against it."""
    if reasons:
        return Refusal(reasons)
    return (Event(job.state.next_sequence, act.at, act.who, composed(what)),)


def composed(what: What) -> What:
    """Return what happened with its texts in Unicode form NFC, the one form that is kept.

    Some keyboards and files write “é” as “e” and an accent: the same to read, other bytes.
    """
    changed: dict[str, Any] = {
        each.name: text
        for each in fields(what)
        if (text := _composed(was := getattr(what, each.name))) != was
    }
    return replace(what, **changed)


def _composed(value: object) -> object:
    if isinstance(value, str):
        return normalize("NFC", value)
    if isinstance(value, Mapping):
        return {name: _composed(part) for name, part in value.items()}
    return value


def unknown_person(job: Job, act: Act) -> tuple[str, ...]:
    """Return a reason if the one who acts is not in the crew."""
    if job.sheet.person(act.who) is None:
        return (f"{act.who or 'Nobody'} is not in the crew of this job sheet.",)
    return ()


def signed_already(job: Job) -> tuple[str, ...]:
    """Return a reason if a signature holds the job as it is."""
    if job.state.signature(LEAD):
        return ("This job is signed off and locked: what follows is a record of its own.",)
    if job.state.signature(TECHNICIAN):
        return ("The technician has signed: the crew lead must send it back first.",)
    return ()


def no_reason(reason: str) -> tuple[str, ...]:
    """Return a reason if no reason was given."""
    return () if reason.strip() else ("Say why.",)


def not_lead(job: Job, name: str) -> tuple[str, ...]:
    """Return a reason if somebody is not the crew lead."""
    person = job.sheet.person(name)
    if person is None or person.role != LEAD:
        return (f"Only the crew lead does this; {name} is {person.role if person else 'unknown'}.",)
    return ()


def may_not_accept(job: Job, waive: Waive, name: str, document: str) -> tuple[str, ...]:
    """Return why somebody may not accept a deviation of a class."""
    if waive is Waive.NEVER:
        return ("Nobody may accept this: put it right and do it again.",)
    if waive is Waive.OWNER:
        person = job.sheet.person(name)
        if person is None or person.role != OWNER:
            return (f"Only the owner's engineer may accept this; {name} is not.",)
        return () if document.strip() else ("Give the number of the owner's document.",)
    return not_lead(job, name)
