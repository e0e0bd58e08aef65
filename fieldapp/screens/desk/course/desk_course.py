"""What touches mean on a course: its lists, the next list to begin, and the logbook."""

from collections.abc import Callable, Mapping
from datetime import datetime

from fieldapp.actions.following import not_yet
from fieldapp.job.job import Job
from fieldapp.job.sheet import JobSheet
from fieldapp.job.sheet_reader import read_sheet
from fieldapp.logbook.book import logbook_of
from fieldapp.logbook.course import Course, courses_of
from fieldapp.logbook.shapes import Logbook
from fieldapp.screens.desk.desk_jobs import BEGIN, all_jobs, open_job
from fieldapp.screens.desk.desk_lists import checklist_of
from fieldapp.screens.desk.state.desk_state import JOBS, DeskState
from fieldapp.screens.place import Place
from fieldapp.screens.weeks.follow_view import Sheets

AS_BEGUN = "as the hookup"
HOOKUP_MISSING = "The hookup is not on this tablet: have it handed over first."


def course_here(state: DeskState) -> Course:
    """Return the course in hand."""
    jobs = [job for job in all_jobs(state) if isinstance(job, Job)]
    return next(c for c in courses_of(jobs) if c.number == state.place.step)


def to_course(state: DeskState, number: str) -> None:
    """Show the lists of a course; the job last worked on is the one that is made safe."""
    state.go(Place("course", number))
    state.kept = state.jobs.open(max(course_here(state).jobs, key=_last_at).number)


def to_course_of_job(state: DeskState) -> None:
    """Show the course of the job in hand."""
    number = state.job.follows or state.job.number
    state.way = [JOBS]
    state.place = Place("course", number)


def to_follow(state: DeskState) -> None:
    """Ask which list is to begin."""
    if course_here(state).hookup is None:
        state.refused = HOOKUP_MISSING
        return
    state.sheet_choice = 0
    state.go(Place("follow", state.place.step))


def logbook_here(state: DeskState, course: Course) -> Logbook:
    """Return the logbook of a course; it is worked out again only when something was entered."""
    entered = tuple((job.number, len(job.state.log)) for job in course.jobs)
    if state.book is None or state.book[0] != entered:
        state.book = (entered, logbook_of(course))
    return state.book[1]


def to_logbook(state: DeskState) -> None:
    """Show the logbook of the course in hand."""
    state.go(Place("logbook", state.place.step))


def back_to_course(state: DeskState) -> None:
    """Go from the logbook to the lists of its course."""
    state.turn(Place("course", state.place.step))


def sheets_here(state: DeskState) -> tuple[tuple[str, str], ...]:
    """Return the job sheets that a next list can begin with: the last list's, and newer files."""
    course = course_here(state)
    last = course.jobs[-1].sheet
    found = [(AS_BEGUN if last.text == course.jobs[0].sheet.text else "as the last one",
              last.text)]  # fmt: skip
    for path in sorted(state.sheets.glob("*.toml")) if state.sheets.is_dir() else []:
        text = path.read_bytes().decode("utf-8-sig", "replace")
        read = read_sheet(text, state.now.date())
        if isinstance(read, JobSheet) and read.number == last.number and text != last.text:
            found.append((path.name, text))
    return tuple(found)


def sheet_words(state: DeskState) -> Sheets:
    """Return which job sheet is chosen, and whether there is another."""
    found = sheets_here(state)
    return Sheets(found[state.sheet_choice % len(found)][0], len(found) > 1)


def another_sheet(state: DeskState) -> None:
    """Take the next of the job sheets."""
    state.sheet_choice += 1


def begin_list(state: DeskState, checklist: str) -> None:
    """Ask who begins the list; then it is begun on the hookup's job sheet."""
    course = course_here(state)
    wanted = checklist_of(state.checklists[checklist])
    reasons = not_yet(wanted, course.hookup, course.followers) if course.hookup else ()
    if reasons or course.hookup is None:
        state.refused = " ".join(reasons) or HOOKUP_MISSING
        return
    found = sheets_here(state)
    _, text = found[state.sheet_choice % len(found)]
    read = read_sheet(text, state.now.date())
    assert isinstance(read, JobSheet)  # noqa: S101 - only sound ones are offered
    state.list_id, state.follows = checklist, course.number
    state.sheet_text, state.sheet_crew = text, read.crew
    state.go(Place("people", purpose=BEGIN))


def to_lists(state: DeskState) -> None:
    """Ask which list a new job begins with."""
    state.go(Place("lists"))


def take_list(state: DeskState, name: str) -> None:
    """Begin the next new job with that list."""
    state.list_id = name
    state.back()


def _last_at(job: Job) -> datetime:
    return job.state.log[-1].at


DEEDS: Mapping[tuple[str, str], Callable[..., None]] = {
    ("jobs", "course"): to_course,
    ("people", "course here"): to_course_of_job,
    ("course", "open job"): open_job,
    ("course", "follow"): to_follow,
    ("course", "logbook"): to_logbook,
    ("logbook", "follow"): to_follow,
    ("logbook", "course here"): back_to_course,
    ("follow", "another sheet"): another_sheet,
    ("follow", "begin list"): begin_list,
    ("newjob", "lists"): to_lists,
    ("lists", "list"): take_list,
}
