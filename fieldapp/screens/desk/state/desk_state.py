"""What the desk knows: the jobs, who is at the tablet, where they stand, what was typed."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import Any

from fieldapp.actions.rules import Act, Outcome
from fieldapp.errors import FieldAppError, said_at_tablet
from fieldapp.job.job import Job
from fieldapp.job.sheet import Person
from fieldapp.journal.jobs import Jobs, KeptJob
from fieldapp.judgement.evaluation import Evaluation, evaluate
from fieldapp.logbook.shapes import Logbook
from fieldapp.screens.desk.state.copies_in_hand import CopiesInHand
from fieldapp.screens.desk.state.keys_in_hand import KeysInHand
from fieldapp.screens.place import Place

JOBS = Place("jobs")
SUN, NIGHT = "sun", "night"

Clock = Callable[[], datetime]


@dataclass(slots=True)
class DeskState:
    """All that changes while the app runs; what a job holds is in its journal alone.

    `typed` is what was typed and not yet kept, by (entry or purpose, field). `refused` is why
    the last act was not possible, `not_saved` what kept an entry from the disk. `cameras` are
    the folders where the tablet's pictures lie, `cards` says what is plugged in. A job is begun
    with the checklist `list_id`, the job sheet `sheet_text` and `follows`, the hookup's number
    ("" for a job of its own).
    """

    jobs: Jobs
    clock: Clock
    checklists: Mapping[str, str]
    sheets: Path
    cameras: tuple[Path, ...] = ()
    cards: Callable[[], tuple[Path, ...]] = tuple
    who: str = ""
    kept: KeptJob | None = None
    place: Place = JOBS
    way: list[Place] = field(default_factory=list)
    typed: dict[tuple[str, str], str] = field(default_factory=dict)
    strokes: tuple[tuple[tuple[float, float], ...], ...] = ()
    look: str = SUN
    refused: str = ""
    not_saved: str = ""
    problems: tuple[str, ...] = ()
    instruments: dict[str, str] = field(default_factory=dict)
    units: dict[str, str] = field(default_factory=dict)
    not_open: dict[str, str] = field(default_factory=dict)
    sheet_text: str = ""
    sheet_crew: tuple[Person, ...] = ()
    keys: KeysInHand = field(default_factory=KeysInHand)
    copies: CopiesInHand = field(default_factory=CopiesInHand)
    list_id: str = ""
    follows: str = ""
    sheet_choice: int = 0
    book: tuple[object, Logbook] | None = None
    faulty_lists: Mapping[str, str] = field(default_factory=dict)

    @property
    def home(self) -> Path:
        """The folder where all of this tablet lies."""
        return self.jobs.home

    @property
    def now(self) -> datetime:
        """The time by the tablet's clock."""
        return self.clock()

    @property
    def checklist(self) -> str:
        """The text of the checklist that the next job begins with; the first if none is chosen."""
        return self.checklists.get(self.list_id) or next(iter(self.checklists.values()))

    @property
    def act(self) -> Act:
        """Whoever is at the tablet, acting now."""
        return Act(self.who, self.now)

    @property
    def job(self) -> Job:
        """The job in hand; only for screens that have one."""
        assert self.kept is not None  # noqa: S101 - these screens are reached through a job
        return self.kept.job

    def evaluation(self) -> Evaluation:
        """Where the job in hand stands now."""
        return evaluate(self.job, self.now)

    def go(self, place: Place) -> None:
        """Go to a place; Back leads here again."""
        if place != self.place:
            self.way.append(self.place)
            self.place = place

    def turn(self, place: Place) -> None:
        """Go to a place that takes the place of this one on the way back."""
        self.place = place

    def back(self) -> None:
        """Go back to where one came from."""
        self.place = self.way.pop() if self.way else JOBS

    def text(self, name: str, part: str = "value") -> str:
        """What was typed there and is not kept yet."""
        return self.typed.get((name, part), "")

    def type(self, name: str, text: str, part: str = "value") -> None:
        """Hold what was typed."""
        self.typed[name, part] = text

    def forget(self, name: str) -> None:
        """Let go of what was typed there: it is kept, or not wanted."""
        for key in [key for key in self.typed if key[0] == name]:
            del self.typed[key]

    def let_go_of_jobs(self) -> None:
        """Close every journal, so that what comes from elsewhere can be added to them."""
        self.kept = None
        self.jobs.close()

    def begin(self, words: str, do: Callable[[], Any], then: Callable[[Any], None]) -> None:
        """Begin work that takes longer than a touch may; one thing at a time."""
        if self.keys.bench.work is not None:
            self.refused = f"One moment: {self.keys.bench.words}"
            return
        self.keys.bench.begin(words, do, then)

    def keep(self, act: Callable[[Job], Outcome]) -> bool:
        """Do an act and keep it on the disk; say whether it is there."""
        try:
            self._open_again()
            assert self.kept is not None  # noqa: S101 - acts belong to a job
            refusal = self.kept.keep(act(self.kept.job))
        except FieldAppError as failure:
            self.not_saved = said_at_tablet(failure)
            return False
        self.not_saved = ""
        self.refused = str(refusal) if refusal else ""
        return refusal is None

    def running(self) -> bool:
        """Say whether a trace or a hold is running in the job in hand."""
        return self.kept is not None and bool(self.job.running())

    def _open_again(self) -> None:
        """Open the journal anew after it failed, so that it shows what is saved."""
        if self.not_saved and self.kept is not None:
            number = self.kept.job.number
            self.jobs.close()
            self.kept = self.jobs.open(number)
