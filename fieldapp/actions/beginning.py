"""Beginning a job: a checklist and a job sheet that are sound, and fit each other."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from itertools import count
from typing import TypeGuard
from unicodedata import normalize

from fieldapp.actions.rules import Act
from fieldapp.checklist.model import Checklist
from fieldapp.checklist.problems import Problem
from fieldapp.checklist.reader import read_checklist
from fieldapp.engineering.catalogue import FORMULAS
from fieldapp.errors import FieldAppError
from fieldapp.job.events import Begun, Event
from fieldapp.job.job import Job
from fieldapp.job.sheet import JobSheet
from fieldapp.job.sheet_checks import check_instruments, check_owner
from fieldapp.job.sheet_reader import read_sheet
from fieldapp.job.state import replay


class UnreadableJobError(FieldAppError):
    """The journal's first entry holds a checklist or job sheet that cannot be read any more."""

    def __init__(self, number: str, problems: tuple[Problem, ...]) -> None:
        super().__init__(
            f"job {number}: its checklist or job sheet cannot be read by this version: "
            f"{problems[0]}. The journal is safe; open it with the version that wrote it"
        )
        self.number = number
        self.problems = problems


@dataclass(frozen=True, slots=True)
class Following:
    """What a job follows: the hookup's number and head, and the numbers that are taken."""

    follows: str
    head: str
    taken: Collection[str] = ()


def begin(
    checklist: str, sheet: str, act: Act, following: Following | None = None,
    others: Collection[str] = (),
) -> tuple[Event, ...] | tuple[Problem, ...]:  # fmt: skip
    """Return the first event of a job, or all that is wrong with the two texts.

    `others` is what the other lists ask the owner: one job sheet serves them all.
    """
    checklist, sheet = normalize("NFC", checklist), normalize("NFC", sheet)
    found = read_both(checklist, sheet, act.at.date(), others)
    if _are_problems(found):
        return found
    wired, read = found
    assert isinstance(wired, Checklist)  # noqa: S101 - no problems were found
    assert isinstance(read, JobSheet)  # noqa: S101 - no problems were found
    begun = Begun(read.number, checklist, sheet)
    if following:
        number = next_number(following.follows, wired.id, following.taken)
        begun = Begun(number, checklist, sheet, following.follows, following.head)
    return (Event(0, act.at, act.who, begun),)


def next_number(follows: str, checklist: str, taken: Collection[str]) -> str:
    """Return the number of the next job of a checklist after a hookup: `HK-0417.visit-2`."""
    numbers = (f"{follows}.{checklist.replace('_', '-')}-{each}" for each in count(1))
    return next(number for number in numbers if number not in taken)


def read_both(
    checklist: str, sheet: str, today: date, others: Collection[str] | None = ()
) -> tuple[Checklist, JobSheet] | tuple[Problem, ...]:
    """Return checklist and sheet read, or all that is wrong with them and between them.

    Without `others`, the owner's answers to other lists were looked at when the job began.
    """
    wired = read_checklist(checklist, FORMULAS)
    stated = read_sheet(sheet, today)
    problems = (
        *(wired if isinstance(wired, tuple) else ()),
        *(stated if isinstance(stated, tuple) else ()),
    )
    if isinstance(wired, tuple) or isinstance(stated, tuple):
        return problems
    known = stated.owner if others is None else others
    unfit = (*check_owner(stated, wired, known), *check_instruments(stated, wired))
    return unfit or (wired, stated)


def job_of(events: tuple[Event, ...]) -> Job:
    """Return the job that its events tell of, the first of which began it."""
    begun = events[0].what
    assert isinstance(begun, Begun)  # noqa: S101 - the journal begins with it
    found = read_both(begun.checklist, begun.sheet, events[0].at.date(), others=None)
    if _are_problems(found):
        raise UnreadableJobError(begun.number, found)
    checklist, sheet = found
    return Job(checklist, sheet, replay(events))  # type: ignore[arg-type]


def _are_problems(found: tuple[object, ...]) -> TypeGuard[tuple[Problem, ...]]:
    return bool(found) and isinstance(found[0], Problem)
