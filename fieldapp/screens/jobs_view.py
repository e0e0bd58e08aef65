"""What the list of jobs shows: each hookup with what follows it, and journals that are hurt."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from fieldapp.job.job import Job
from fieldapp.logbook.course import courses_of
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.row_view import ListView, RowView
from fieldapp.screens.weeks.course_row import row_of_course

_ORDER = ("due now", "stopped", "to judge", "late", "at work", "waiting", "done", "not open")


@dataclass(frozen=True, slots=True)
class NotOpen:
    """A job whose journal cannot be opened, and the sentence that says why and what to do."""

    number: str
    sentence: str


def jobs_view(
    jobs: Sequence[Job | NotOpen], now: datetime, start: int, look: str, told: tuple[str, bool]
) -> ListView:
    """Return the list of jobs, the most urgent first."""
    courses = courses_of(job for job in jobs if isinstance(job, Job))
    rows = sorted(
        (
            *(row_of_course(course, now) for course in courses),
            *(_not_open(job) for job in jobs if isinstance(job, NotOpen)),
        ),
        key=lambda row: _ORDER.index(row.word),
    )
    other = "Night look" if look == "sun" else "Sun look"
    return ListView(
        title="Jobs",
        under=(f"{now.day} {now:%b}, {now:%H:%M}",),
        rail=(
            PlateView("new", "New job", "from a sheet"),
            PlateView("safe", "Stop and make safe", kind="warning"),
            PlateView("look", other),
            PlateView("crew", "People and keys"),
            PlateView("copies", "Copies", "hand over"),
        ),
        rows=tuple(rows),
        start=start,
        empty="No job is on this tablet yet. Touch “New job”.",
        told=told,
    )


def _not_open(job: NotOpen) -> RowView:
    return RowView("hurt", (job.number,), job.number, job.sentence, "failed", "not open")
