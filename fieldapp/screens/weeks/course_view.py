"""What a course shows: the hookup and all that followed it, newest first, each with its state."""

from datetime import datetime

from fieldapp.actions.rules import LEAD, TECHNICIAN
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import evaluate
from fieldapp.logbook.coming import due_of
from fieldapp.logbook.course import Course, began
from fieldapp.logbook.wording import due_words
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.row_view import ListView, RowView
from fieldapp.screens.weeks.job_row import row_of_job

BEGIN = PlateView("follow", "Begin", "a checklist", "main")
ALONE = PlateView("follow", "Begin", "no hookup here", "waiting")


def course_view(course: Course, now: datetime, start: int, told: tuple[str, bool]) -> ListView:
    """Return the lists of a course; the first row says when to come back."""
    sheet = course.jobs[0].sheet
    return ListView(
        title=sheet.text_of("unit") or course.number,
        under=(sheet.text_of("site_name") or "", f"{now:%d %b}, {now:%H:%M}"),
        rail=(
            BEGIN if course.hookup else ALONE,
            PlateView("safe", "Stop and make safe", kind="warning"),
            PlateView("jobs", "All jobs"),
        ),
        rows=(_logbook_row(course, now), *(_row(job, now) for job in reversed(course.jobs))),
        start=start,
        told=told,
    )


def _logbook_row(course: Course, now: datetime) -> RowView:
    due = due_of(course)
    late = due.late(now)
    mark = "notyet" if late else "todo" if due.what else "done"
    word = "late" if late else "due" if due.what else ""
    return RowView("logbook", (), "Logbook", due_words(due, now), mark, word, right="water, days")


def _row(job: Job, now: datetime) -> RowView:
    row = row_of_job(job, now)
    return RowView(
        "open job",
        (job.number,),
        job.checklist.title,
        f"{job.number}. {state_words(job, now)}",
        row.mark,
        row.word,
        right=f"{began(job):%d %b}",
        below=f"revision {job.checklist.revision}",
        here=row.here,
    )


def state_words(job: Job, now: datetime) -> str:
    """Return where a job stands in a sentence: signed off, or what is open."""
    lead = job.state.signature(LEAD)
    if lead is not None:
        return f"Signed off {lead.at:%d %b %H:%M} by {lead.by}."
    if job.state.signature(TECHNICIAN):
        return "Signed by the technician; the crew lead is to sign."
    evaluation = evaluate(job, now)
    open_steps, coming = evaluation.open_steps, evaluation.next_step
    count = f"{len(open_steps)} steps open" if len(open_steps) != 1 else "1 step open"
    return f"{count}, next: {coming.step.title}." if coming else f"{count}, all wait."
