"""The jobs on this tablet: a folder for each, begun, opened and added to."""

import uuid
from collections.abc import Callable, Collection
from datetime import datetime
from pathlib import Path

from fieldapp.actions.beginning import Following, begin, job_of
from fieldapp.actions.rules import LEAD, Act, Outcome, Refusal
from fieldapp.checklist.problems import Problem
from fieldapp.errors import FieldAppError
from fieldapp.job.events import Begun, Event, Signed, document_of, event_of
from fieldapp.job.job import Job
from fieldapp.journal.folders import is_name, job_folders, journals_in, may_hold_a_job
from fieldapp.journal.lines.chain import Head
from fieldapp.journal.lines.reading import Inspection, sound_inspection
from fieldapp.journal.store import JobDB
from fieldapp.journal.tablets.union import (
    HEADS,
    demand_remembered,
    heads_of,
    kept_by,
    one_story,
    other_journals,
)
from fieldapp.whole import make_folder, write_whole

Clock = Callable[[], datetime]


class NoSuchJobError(FieldAppError):
    """No job of that number is on this tablet."""

    def __init__(self, number: str, home: Path) -> None:
        super().__init__(
            f"job {number}: not found in {home}: see “fieldapp store list” for what is"
        )
        self.number = number

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return f"Job {self.number} is not on this tablet any more: the list of jobs shows what is"


class NotBegunError(FieldAppError):
    """The journal of a job is empty: the tablet was stopped while the job was being begun."""

    def __init__(self, number: str) -> None:
        super().__init__(
            f"job {number}: nothing was kept before the tablet stopped: begin it again"
        )
        self.number = number

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return "Nothing was kept before the tablet stopped: begin it again"


class DeviceUnnamedError(FieldAppError):
    """The file with the name of this tablet was emptied or changed."""

    def __init__(self, path: Path) -> None:
        super().__init__(
            f"{path}: does not hold the name of this tablet, such as tablet-1a2b3c4d. Write it "
            f"there again: the journals in the folders of its jobs are named after it"
        )
        self.path = path

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return "This tablet has lost its name. Nothing was changed: give it to the office"


class KeptJob:
    """One job with its journal. What is kept is on the disk before `job` shows it."""

    def __init__(self, database: JobDB, job: Job) -> None:
        self._database = database
        self.job = job

    @property
    def head(self) -> Head:
        """Return the number and the hash of the last entry kept."""
        return self._database.head

    @property
    def notices(self) -> tuple[str, ...]:
        """Return what was found while opening, and was no loss."""
        return self._database.notices

    def keep(self, outcome: Outcome) -> Refusal | None:
        """Keep the events of an action; return the refusal if there are none to keep."""
        if isinstance(outcome, Refusal):
            return outcome
        self._database.table("events").insert_multiple(document_of(event) for event in outcome)
        self.job = self.job.with_events(outcome)
        return None


class Jobs:
    """All jobs below a folder; each journal stays open, and locked, until `close`."""

    def __init__(self, home: Path, clock: Clock) -> None:
        self.home = home
        self._clock = clock
        self._open: dict[str, KeptJob] = {}
        self._databases: dict[str, JobDB] = {}

    @property
    def device(self) -> str:
        """Return the name of this tablet, made up once."""
        path = self.home / "device"
        if not path.exists():
            write_whole(path, f"tablet-{uuid.uuid4().hex[:8]}\n".encode())
        name = path.read_bytes().decode("ascii", "replace").strip()
        if not is_name(name):
            raise DeviceUnnamedError(path)
        return name

    def numbers(self) -> tuple[str, ...]:
        """Return the numbers of the jobs that are here."""
        return numbers_in(self.home)

    def begin(
        self, checklist: str, sheet: str, who: str, follows: str = "", others: Collection[str] = ()
    ) -> KeptJob | tuple[Problem, ...]:
        """Begin a job, or return all that is wrong with its checklist and job sheet.

        It follows the hookup of the number `follows`; `others` is what the other lists ask.
        """
        act = Act(who, self._clock())
        found = begin(checklist, sheet, act, self._following(follows), others)
        events = tuple(event for event in found if isinstance(event, Event))
        problems = tuple(problem for problem in found if isinstance(problem, Problem))
        if problems:
            return problems
        begun = events[0].what
        assert isinstance(begun, Begun)  # noqa: S101 - the first event begins the job
        if there := self._there_already(begun.number):
            return (Problem(1, "number", there),)
        database = self._database(begun.number)
        database.table("events").insert(document_of(events[0]))
        self._open[begun.number] = KeptJob(database, job_of(events))
        return self._open[begun.number]

    def open(self, number: str) -> KeptJob:
        """Return a job that is here, opening its journal if need be."""
        if number not in self._open:
            if not journals_of(self.home, number):
                raise NoSuchJobError(number, self.home)
            events = self._events(number)
            if not events:
                raise NotBegunError(number)
            self._open[number] = KeptJob(self._database(number), job_of(events))
        return self._open[number]

    def close(self) -> None:
        """Close every journal."""
        for database in self._databases.values():
            database.close()
        self._databases.clear()
        self._open.clear()

    def folder(self, number: str) -> Path:
        """Return the folder of a job: its journal, its pictures, its records."""
        return self.home / "jobs" / number

    def _there_already(self, number: str) -> str:
        """Say whether a number is taken; to a card or to Windows, capitals make no difference."""
        alike = [each for each in self.numbers() if each.casefold() == number.casefold()]
        if number in alike and not self._events(number):  # stopped before it was begun
            alike.remove(number)
        many = "job {} is on this tablet already: open it, or change the number"
        return many.format(alike[0]) if alike else ""

    def _following(self, follows: str) -> Following | None:
        if not follows:
            return None
        return Following(follows, _signed_or_last(self.open(follows)), self.numbers())

    def _events(self, number: str) -> tuple[Event, ...]:
        others = other_journals(self.folder(number), self.device)
        database = self._database(number)
        try:
            return self._told(number, database, others)
        except FieldAppError:  # let go, so that it can be settled or made whole meanwhile
            self._databases.pop(number).close()
            raise

    def _told(
        self, number: str, database: JobDB, others: tuple[Inspection, ...]
    ) -> tuple[Event, ...]:
        if not others and not database.table(HEADS).all():
            return tuple(map(event_of, database.table("events").all()))
        for noted in database.table(HEADS).all():
            demand_remembered(noted, others)
        own = sound_inspection(self._path(number))
        story = one_story(kept_by((own, *others)))
        note_heads(database, others)
        return tuple(map(event_of, story))

    def _path(self, number: str) -> Path:
        return self.folder(number) / f"{self.device}.journal"

    def _database(self, number: str) -> JobDB:
        if number not in self._databases:
            path = self._path(number)
            make_folder(path.parent)
            self._databases[number] = JobDB(str(path), device=self.device, clock=self._clock)
        return self._databases[number]


def _signed_or_last(kept: KeptJob) -> str:
    """Return the head that the crew lead signed, which no later stamp and no other tablet changes.

    Of a job that is not signed off it is the last one.
    """
    closing = kept.job.state.signature(LEAD)
    if closing is not None and isinstance(closing.what, Signed):
        return closing.what.head
    return kept.head.hash


def note_heads(database: JobDB, others: tuple[Inspection, ...]) -> None:
    """Keep the heads this tablet goes on from, so that its own head vouches for them too."""
    table = database.table(HEADS)
    noted = table.all()
    found = heads_of(others)
    if others and (not noted or noted[-1] != found):
        table.insert(found)


def numbers_in(home: Path) -> tuple[str, ...]:
    """Return the numbers of the jobs below a folder."""
    return tuple(folder.name for folder in job_folders(home) if may_hold_a_job(folder))


def journals_of(home: Path, number: str, *, needed: bool = False) -> tuple[Path, ...]:
    """Return the journals of a job, one a device; `needed` if there must be one."""
    found = journals_in(home / "jobs" / number) if is_name(number) else ()
    if needed and not found:
        raise NoSuchJobError(number, home)
    return found
