"""What touches mean on the list of jobs, at a new job, on the list of people, and on the card."""

from collections.abc import Callable, Mapping

from fieldapp.actions.entering import make_safe as record_safe
from fieldapp.errors import FieldAppError, said_at_tablet
from fieldapp.job.job import Job
from fieldapp.job.sheet import JobSheet
from fieldapp.job.sheet_reader import read_sheet
from fieldapp.journal.jobs import KeptJob
from fieldapp.journal.tablets.union import ParallelStoriesError
from fieldapp.screens.copies.hurt_view import APART
from fieldapp.screens.desk.desk_lists import asked_of_owner
from fieldapp.screens.desk.state.desk_state import JOBS, DeskState
from fieldapp.screens.jobs_view import NotOpen
from fieldapp.screens.place import Place
from fieldapp.screens.reason_view import NOTE
from fieldapp.screens.safe_view import words_of_row
from fieldapp.screens.steps.steps_view import first_shown

BEGIN, AT_TABLET = "begin", ""


def to_jobs(state: DeskState) -> None:
    """Go to the list of jobs; journals that could not be opened are tried again."""
    state.not_open.clear()
    state.way.clear()
    state.place = JOBS


def all_jobs(state: DeskState) -> tuple[Job | NotOpen, ...]:
    """Return every job on this tablet, or why it cannot be opened."""
    found: list[Job | NotOpen] = []
    try:
        numbers = state.jobs.numbers()
    except FieldAppError as failure:
        return (NotOpen("All jobs", said_at_tablet(failure)),)
    for number in numbers:
        if number not in state.not_open:
            try:
                found.append(state.jobs.open(number).job)
                continue
            except FieldAppError as failure:
                state.not_open[number] = _why(failure)
        found.append(NotOpen(number, state.not_open[number]))
    return tuple(found)


def _why(failure: FieldAppError) -> str:
    apart = isinstance(failure, ParallelStoriesError)
    return APART if apart else said_at_tablet(failure)


def open_job(state: DeskState, number: str) -> None:
    """Take a job in hand; who is at the tablet must be of its crew."""
    try:
        kept = state.jobs.open(number)
    except FieldAppError as failure:
        state.not_open[number] = state.refused = _why(failure)
        return
    _take(state, kept)


def new(state: DeskState) -> None:
    """Go to the job sheets that lie on this tablet."""
    state.problems = ()
    state.list_id = state.follows = ""
    state.go(Place("newjob"))


def sheet(state: DeskState, name: str) -> None:
    """Take a job sheet: name the person, or show what is wrong with it."""
    try:
        text = (state.sheets / name).read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError):
        state.problems = (f"{name}: cannot be read: copy it to the tablet again, as UTF-8 text",)
        state.go(Place("newjob", purpose=name))
        return
    begin_with(state, text, name)


def begin_with(state: DeskState, text: str, name: str) -> None:
    """Go on with the text of a job sheet if it is sound."""
    found = read_sheet(text, state.now.date())
    if isinstance(found, JobSheet):
        state.sheet_text, state.sheet_crew = text, found.crew
        state.go(Place("people", purpose=BEGIN))
        return
    state.problems = tuple(map(str, found))
    state.go(Place("newjob", purpose=name))


def person(state: DeskState, name: str) -> None:
    """Say who is at the tablet; at a new job, begin it in that name."""
    state.who = name
    if state.place.purpose != BEGIN:
        state.back()
        return
    try:
        found = state.jobs.begin(
            state.checklist, state.sheet_text, name, state.follows, asked_of_owner(state)
        )
    except FieldAppError as failure:
        state.not_saved = said_at_tablet(failure)
        return
    if isinstance(found, KeptJob):
        _take(state, found)
        return
    state.problems = tuple(map(str, found))
    state.turn(Place("newjob", purpose="the job sheet"))


def make_safe(state: DeskState) -> None:
    """Go to the emergency card; from the list of jobs, for the job that was in hand last."""
    if state.kept is None:
        jobs = [job for job in all_jobs(state) if isinstance(job, Job)]
        if jobs:
            last = max(jobs, key=lambda job: job.state.log[-1].at)
            state.kept = state.jobs.open(last.number)
    state.go(Place("safe", state.place.step))


def done(state: DeskState, row: str) -> None:
    """Stamp an act of the card; never refused."""
    if state.kept is None:
        state.refused = "No job is open, so nothing can be stamped. Act now, write it down later."
        return
    state.keep(lambda job: record_safe(job, words_of_row(row), state.act))


def add_note(state: DeskState, row: str) -> None:
    """Ask for what belongs to an act: who answered, what was left open."""
    if state.kept is not None:
        state.go(Place("reason", state.place.step, row, purpose=NOTE))


def keep_note(state: DeskState, row: str, text: str) -> None:
    """Keep a note to an act of the card."""
    words = words_of_row(row)
    if state.keep(lambda job: record_safe(job, words, state.act, note=text)):
        state.forget(row)
        state.back()


def _take(state: DeskState, kept: KeptJob) -> None:
    state.kept = kept
    state.typed.clear()
    state.instruments.clear()
    state.units.clear()
    state.not_saved = ""
    state.way = [JOBS]
    evaluation = state.evaluation()
    step = evaluation.next_step.step.id if evaluation.next_step else ""
    state.place = Place("steps", step, start=first_shown(kept.job, evaluation, step))
    if kept.job.sheet.person(state.who) is None:
        state.who = ""
        state.go(Place("people", purpose=AT_TABLET))


DEEDS: Mapping[tuple[str, str], Callable[..., None]] = {
    ("jobs", "open job"): open_job,
    ("jobs", "new"): new,
    ("newjob", "sheet"): sheet,
    ("people", "person"): person,
    ("safe", "done"): done,
    ("safe", "note"): add_note,
}
