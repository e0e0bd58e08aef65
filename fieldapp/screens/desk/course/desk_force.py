"""What touches mean on what is in force: blocking, restoring, and leaving the site with it."""

from collections.abc import Callable, Mapping

from fieldapp.actions.forcing import block, leave, restore
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import evaluate
from fieldapp.judgement.in_force import InForce, facts_of, in_force
from fieldapp.logbook.course import courses_of
from fieldapp.screens.desk import desk_jobs
from fieldapp.screens.desk.state.desk_state import JOBS, DeskState
from fieldapp.screens.place import Place
from fieldapp.screens.weeks.course_row import signed
from fieldapp.screens.weeks.force_asked import (
    NO_TIME,
    PERSON,
    PROVED,
    RESTORER,
    TAKER,
    UNTIL,
    WHAT,
    name_and_role,
)
from fieldapp.screens.weeks.in_force_view import words_of

FORCE = "in force"
INSIDE = ("steps", "in force")


def forced_here(state: DeskState) -> tuple[InForce, ...]:
    """Return what is in force in the job in hand, the most urgent first."""
    return in_force(state.job, state.evaluation(), state.now)


def ended_here(state: DeskState) -> tuple[InForce, ...]:
    """Return what was in force in the job in hand and was brought to an end."""
    return tuple(f for f in facts_of(state.job, state.evaluation()) if f.ended is not None)


def left_behind(state: DeskState) -> tuple[InForce, ...]:
    """Return what is in force in the job in hand and in the open lists beside it."""
    if state.kept is None:
        return ()
    number = state.job.follows or state.job.number
    jobs = [job for job in desk_jobs.all_jobs(state) if isinstance(job, Job) and not signed(job)]
    course = next((c for c in courses_of(jobs) if c.number == number), None)
    found = [
        fact
        for job in (course.jobs if course else ())
        for fact in in_force(job, evaluate(job, state.now), state.now)
    ]
    return tuple(sorted(found, key=lambda fact: fact.urgency(state.now)))


def to_in_force(state: DeskState) -> None:
    """Show what is in force."""
    state.go(Place("in force", state.place.step))


def to_jobs(state: DeskState) -> None:
    """Go to the list of jobs; with something in force, shout it first."""
    if state.place.screen not in ("jobs", "leaving") and left_behind(state):
        state.go(Place("leaving", state.place.step))
        return
    desk_jobs.to_jobs(state)


def back(state: DeskState) -> None:
    """Go back; out of a job with something in force, shout it first."""
    before = state.way[-1] if state.way else JOBS
    if before == JOBS and state.place.screen in INSIDE and left_behind(state):
        state.go(Place("leaving", state.place.step))
        return
    state.back()


def stay(state: DeskState) -> None:
    """Look at the list of jobs without leaving the site."""
    desk_jobs.to_jobs(state)


def ask_taker(state: DeskState) -> None:
    """Ask who takes over."""
    state.go(Place("asked", state.place.step, FORCE, purpose=TAKER))


def leave_unnamed(state: DeskState) -> None:
    """Stamp that somebody left with nobody named."""
    _left(state, "")


def ask_block(state: DeskState) -> None:
    """Ask what is blocked."""
    state.forget(FORCE)
    state.go(Place("asked", state.place.step, FORCE, purpose=WHAT))


def ask_restored(state: DeskState, sequence: str) -> None:
    """Ask who restored what was blocked."""
    state.forget(FORCE)
    state.go(Place("asked", state.place.step, FORCE, part=sequence, purpose=RESTORER))


def typed(state: DeskState, text: str) -> None:
    """Hold what stands typed."""
    state.type(FORCE, text, state.place.purpose)


def kept(state: DeskState, text: str) -> None:
    """Take an answer and ask on, or keep all of them."""
    place = state.place
    state.type(FORCE, text, place.purpose)
    further = {WHAT: PERSON, PERSON: UNTIL, RESTORER: PROVED}.get(place.purpose)
    if further:
        state.turn(Place("asked", place.step, FORCE, place.part, further))
    elif place.purpose == TAKER:
        _left(state, text)
    elif _keep(state, place):
        state.forget(FORCE)
        state.back()


def _keep(state: DeskState, place: Place) -> bool:
    if place.purpose == UNTIL:
        person, role = name_and_role(state.text(FORCE, PERSON))
        until = state.text(FORCE, UNTIL)
        what, until = state.text(FORCE, WHAT), "" if until == NO_TIME else until
        return state.keep(lambda job: block(job, what, person, role, state.act, until=until))
    person, role = name_and_role(state.text(FORCE, RESTORER))
    proved, sequence = state.text(FORCE, PROVED), int(place.part)
    return state.keep(
        lambda job: restore(job, sequence, person, role, state.act, proved=proved)
    )  # fmt: skip


def _left(state: DeskState, taker: str) -> None:
    """Stamp the leaving; it is never refused, and only a full disk keeps one here."""
    names = tuple(words_of(fact) for fact in left_behind(state))
    person, role = name_and_role(taker)
    if state.keep(lambda job: leave(job, names, state.act, person, role)):
        state.forget(FORCE)
        desk_jobs.to_jobs(state)


def answer_left(state: DeskState) -> None:
    """Go back without an answer."""
    state.back()


DEEDS: Mapping[tuple[str, str], Callable[..., None]] = {
    ("in force", "block"): ask_block,
    ("in force", "restore"): ask_restored,
    ("asked", "typed"): typed,
    ("asked", "kept"): kept,
    ("asked", "left"): answer_left,
    ("leaving", "hand over"): ask_taker,
    ("leaving", "stay"): stay,
    ("leaving", "left"): leave_unnamed,
}
EVERYWHERE: Mapping[str, Callable[..., None]] = {
    "back": back,
    "jobs": to_jobs,
    "in force": to_in_force,
}
