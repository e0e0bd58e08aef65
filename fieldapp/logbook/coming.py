"""When somebody has to come next, for what, and why."""

from datetime import datetime, timedelta

from fieldapp.actions.following import taken_off
from fieldapp.actions.rules import LEAD
from fieldapp.job.job import Job
from fieldapp.job.moments import NotATimeError, moment_of
from fieldapp.logbook.course import Course
from fieldapp.logbook.figures import moment, text
from fieldapp.logbook.ledger import starts_of
from fieldapp.logbook.shapes import Due

FIRST_VISIT = timedelta(hours=24)
END_OF_DAY = timedelta(hours=23, minutes=59)
NOTHING_RUNS = Due("", None, "The skid was not started to the unit yet.")
FRESH = "at most 24 h after the start with fresh cartridges: they give up air for hours"
FIXED = "fixed at {where}"
SECOND_LOOK = timedelta(hours=24)
AT_BLANKS = "the blanks at both ports, a day after the first look"
NOT_FIXED = Due("Visit", None, "Nobody has fixed the next visit: fix it with the owner.")
# How long after the skid stopped each sample of a rest test is drawn: from, to (days).
DRAWS = (("t_draw1_since", "72 h", 3, 4), ("t_draw2_since", "7 days", 7, 8),
         ("t_draw3_since", "21 to 28 days", 21, 28))  # fmt: skip


def due_of(course: Course) -> Due:
    """Return what is due next."""
    off = taken_off(course.followers)
    if off is not None:
        return Due("", None, f"The skid was disconnected by {off.number}.")
    resting = _resting(course)
    if resting is not None:
        return _draw_due(resting)
    open_job = next((job for job in course.followers if _holds_up(job)), None)
    if open_job is not None:
        looked = moment(open_job, "looked")
        if looked and not text(open_job, "looked_again"):
            return Due("Second look", looked + SECOND_LOOK, AT_BLANKS)
        return Due(open_job.checklist.title, None, f"{open_job.number} is not signed off yet.")
    starts = starts_of(course)
    return _visit_due(course, starts) if starts else NOTHING_RUNS


def change_expected(course: Course) -> datetime | None:
    """Return when the last visit since the last change expected the next one."""
    changed = [at for job in course.of("cartridge_change") if (at := moment(job, "stopped"))]
    found = [
        at
        for job in course.of("visit")
        if (at := _written(job, "next_change")) and not _before(job, changed)
    ]
    return found[-1] if found else None


def _before(visit: Job, changed: list[datetime]) -> bool:
    """Say whether a visit spoke of cartridges that were changed since."""
    said = moment(visit, "next_change")
    return said is not None and any(at > said for at in changed)


def _holds_up(job: Job) -> bool:
    """Say whether a list that stopped the skid is still open, and has not started it again."""
    stops = job.checklist.id in ("alarm_response", "cartridge_change", "disconnection")
    return stops and job.state.signature(LEAD) is None and moment(job, "started") is None


def _resting(course: Course) -> Job | None:
    """Return the rest test during which the skid stands; a later start ends it."""
    tests = [job for job in course.of("rest_test") if moment(job, "stopped")]
    if not tests:
        return None
    stopped = moment(tests[-1], "stopped")
    starts = starts_of(course)
    return tests[-1] if stopped and not (starts and starts[-1][0] > stopped) else None


def _draw_due(job: Job) -> Due:
    stopped = moment(job, "stopped")
    assert stopped is not None  # noqa: S101 - it rests because it was stopped
    for entry, name, first, last in DRAWS:
        if job.state.latest(entry) is None:
            why = f"rest test: the sample at {name}, at the tank’s own cock"
            return Due("Sample", stopped + timedelta(days=last), why,
                       stopped + timedelta(days=first))  # fmt: skip
    if job.state.signature(LEAD) is None:
        return Due("Decision", None, "Rest test: the owner’s engineer decides, then both sign.")
    return Due("", None, "The rest test is signed off: what follows stands in it.")


def _visit_due(course: Course, starts: list[tuple[datetime, Job]]) -> Due:
    """Return the visit that was fixed last, or the one that fresh cartridges need, if earlier."""
    visits = [(at, job) for job in course.of("visit") if (at := moment(job, "inlet"))]
    fresh = [at for at, job in starts if job.checklist.id in ("hookup", "cartridge_change")]
    dues = []
    fixed = [job for job in course.jobs if _written(job, "next_visit")]
    if fixed and not _visited_since(fixed[-1], visits):
        where = FIXED.format(where=fixed[-1].number)
        dues.append((_written(fixed[-1], "next_visit"), where))
    if fresh and not any(at > fresh[-1] for at, _ in visits):
        dues.append((fresh[-1] + FIRST_VISIT, FRESH))
    known = sorted((at, why) for at, why in dues if at is not None)
    return Due("Visit", *known[0]) if known else NOT_FIXED


def _visited_since(fixed: Job, visits: list[tuple[datetime, Job]]) -> bool:
    """Say whether another visit has read the skid since the next one was fixed."""
    at = moment(fixed, "next_visit")
    return at is not None and any(read > at and job is not fixed for read, job in visits)


def _written(job: Job, role: str) -> datetime | None:
    """Return the moment that was written at an entry."""
    given, at = text(job, role), moment(job, role)
    try:
        found = moment_of(given, at) if given and at else None
    except NotATimeError:
        return None
    by_day = ":" not in given  # a day lasts until its end
    return found + END_OF_DAY if found and by_day else found
