"""A hookup with what follows it as one row: the list at work, or when to come back."""

from dataclasses import replace
from datetime import datetime

from fieldapp.actions.rules import LEAD
from fieldapp.job.job import Job
from fieldapp.job.moments import span
from fieldapp.logbook.coming import due_of
from fieldapp.logbook.course import Course
from fieldapp.logbook.ledger import start_of
from fieldapp.screens.row_view import PipeView, RowView
from fieldapp.screens.weeks.job_row import row_of_job

_URGENT = ("due now", "stopped", "to judge", "at work")
DAY = 86_400.0


def row_of_course(course: Course, now: datetime) -> RowView:
    """Return the row: a touch opens the one job that there is, or shows all of the course."""
    at_work = [job for job in course.jobs if not signed(job)]
    if at_work:
        rows = [row_of_job(job, now) for job in reversed(at_work)]
        row = min(rows, key=lambda row: _URGENT.index(row.word))
        if len(course.jobs) == 1:
            return row
        job = next(job for job in at_work if job.number == row.below)
        words = f"{short_title(job)}: {row.under_pipe}"
        return replace(row, touch="course", details=(course.number,), under_pipe=words)
    return _waiting(course, now)


def signed(job: Job) -> bool:
    """Say whether a job is signed off and locked."""
    return job.state.signature(LEAD) is not None


def short_title(job: Job) -> str:
    """Return the title of a job's list in the words in which a crew says it."""
    return job.checklist.title.partition(" to ")[0]


def _waiting(course: Course, now: datetime) -> RowView:
    """Return the row of a course in which nothing is at work."""
    due, last = due_of(course), course.jobs[-1]
    runs = bool(due.what)
    word, mark = ("done", "done") if not runs else ("waiting", "todo")
    if due.late(now):
        word, mark = "late", "notyet"
    by = f"by {due.latest:%d %b %H:%M}" if due.latest else course.number
    age = span((now - course.latest).total_seconds())
    return RowView(
        touch="course",
        details=(course.number,),
        first=last.sheet.text_of("unit") or course.number,
        second=last.sheet.text_of("site_name") or "",
        mark=mark,
        word=word,
        right=due.what if runs else "Make the record",
        below=by if runs else course.number,
        pipe=PipeView(1, 1, 0.0),
        under_pipe=_days(course, now) if runs else "signed, closed",
        age=age,
    )


def _days(course: Course, now: datetime) -> str:
    start = start_of(course)
    if start is None:
        return "signed"
    return f"drying, day {int((now - start).total_seconds() / DAY)}"
