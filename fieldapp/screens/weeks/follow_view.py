"""What can be begun on a hookup: every list that follows, and what it waits for."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from fieldapp.actions.following import not_yet
from fieldapp.actions.rules import LEAD
from fieldapp.checklist.model import Checklist
from fieldapp.logbook.coming import due_of
from fieldapp.logbook.course import Course
from fieldapp.screens.crew.told import said_rows
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.row_view import ListView, RowView

_BACK = (PlateView("back", "Back"), PlateView("safe", "Stop and make safe", kind="warning"))


@dataclass(frozen=True, slots=True)
class Sheets:
    """Which job sheet the next list begins with: its name, and whether there is another."""

    name: str
    another: bool


def follow_view(
    course: Course, checklists: Sequence[Checklist], sheets: Sheets, now: datetime, start: int,
    told: tuple[str, bool],
) -> ListView:  # fmt: skip
    """Return the lists that may follow; one that may not says why."""
    due = due_of(course)
    rows = tuple(
        _row(course, found, due_now=found.title.startswith(due.what) and due.late(now))
        for found in checklists
    )
    other = (PlateView("another sheet", "Other sheet"),) if sheets.another else ()
    return ListView(
        title="Begin a checklist",
        under=("Job sheet:", sheets.name),
        rail=(*_BACK, *other),
        rows=rows,
        start=start,
        told=told,
    )


def standalone_view(
    checklists: Sequence[tuple[str, Checklist]], chosen: str, faulty: Mapping[str, str], start: int
) -> ListView:  # fmt: skip
    """Return the lists that begin a job of their own, and the owner's that are not sound."""
    rows = tuple(
        RowView("list", (name,), found.title, f"revision {found.revision}",
                "done" if found.id == chosen else "todo", "chosen" if found.id == chosen else "")
        for name, found in checklists
    )  # fmt: skip
    hurt = (row for name, words in faulty.items() for row in _faulty_rows(name, words))
    return ListView(title="Which checklist?", under=("Each begins", "a new job."), rail=_BACK,
                    rows=(*rows, *hurt), start=start)  # fmt: skip


def _faulty_rows(name: str, words: str) -> tuple[RowView, ...]:
    sentence = f"{words}. Nothing of it is used: the engineer checks it with “fieldapp check”."
    return said_rows("failed", "not sound", f"checklists/{name}", sentence)


def _row(course: Course, found: Checklist, *, due_now: bool) -> RowView:
    reasons = not_yet(found, course.hookup, course.followers) if course.hookup else ("",)
    if reasons:
        return RowView("", (), found.title, " ".join(reasons), "notyet", "not yet")
    return RowView("begin list", (found.id,), found.title, _history(course, found), "todo", "begin",
                   here=due_now)  # fmt: skip


def _history(course: Course, found: Checklist) -> str:
    """Return how often the list was done here, and whether its author has changed it since."""
    earlier = course.of(found.id)
    open_ones = [job for job in earlier if job.state.signature(LEAD) is None]
    done = len(earlier) - len(open_ones)
    words = [f"done {done} times" if done > 1 else "done once"] if done else []
    words += [f"{open_ones[-1].number} is open: go on with it first"] if open_ones else []
    if earlier and earlier[-1].checklist.revision != found.revision:
        before = earlier[-1].checklist.revision
        words.append(f"revision {found.revision} now; the last one was revision {before}")
    if not words:
        words = [f"revision {found.revision}, not done yet"]
    sentence = "; ".join(words)
    return f"{sentence[:1].upper()}{sentence[1:]}."
