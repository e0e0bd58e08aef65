"""The ledger: line after line what was read, and the water taken out since and in all."""

from dataclasses import dataclass, replace
from datetime import datetime
from functools import reduce

from fieldapp.actions.rules import LEAD
from fieldapp.job.job import Job
from fieldapp.logbook.course import Course, began
from fieldapp.logbook.figures import Figures, figures_of, moment
from fieldapp.logbook.shapes import NOTHING, Amount, Line
from fieldapp.logbook.stretch import Point, stretch
from fieldapp.units import from_si

DAY = 86_400.0
TITLES = {
    "hookup": "Hookup, start", "visit": "Visit", "alarm_response": "Alarm response",
    "cartridge_change": "Cartridge change", "rest_test": "Rest test, skid stopped",
    "oil_sampling": "Oil samples", "disconnection": "Disconnection",
}  # fmt: skip
NO_ZERO = "the probes’ zero is not known: their difference counts as read"
GIVES_BACK = "the outlet is wetter than the inlet: the cartridges give water back"


@dataclass(frozen=True, slots=True)
class Read:
    """A job with its point, if it read one; a change of cartridges is both an end and a start."""

    job: Job
    at: datetime
    point: Point | None
    changes: bool


def start_of(course: Course) -> datetime | None:
    """Return when the skid was first started to the unit; None if it was not yet."""
    if course.hookup is None:
        return None
    return moment(course.hookup, "started")


def starts_of(course: Course) -> list[tuple[datetime, Job]]:
    """Return every start of the skid to the unit, in order of time, each with its job."""
    found = [(at, job) for job in course.jobs if (at := moment(job, "started"))]
    return sorted(found, key=lambda pair: pair[0])


def lines_of(course: Course) -> tuple[Line, ...]:
    """Return the lines of the ledger, the start first."""
    start = start_of(course)
    reads = [read for job in course.jobs if (read := _read(job, course)) is not None]
    first = start or (reads[0].at if reads else None)
    lines: list[Line] = []
    before: Point | None = None
    total, at_least = NOTHING, False
    for read in reads:
        line = _line(read, (read.at - first).total_seconds() / DAY if first else 0.0)
        if read.point is not None and before is not None:
            found = stretch(before, read.point, read.job.sheet)
            total = total.plus(found.amount or NOTHING)
            at_least = at_least or found.amount is None
            line = replace(line, since=found.amount, rate=found.a_day,
                           notes=(*line.notes, *((found.note,) if found.note else ())))  # fmt: skip
        if read.point is not None:
            flow = read.point.flow or (before.flow if before else None)
            before = replace(read.point, fresh=read.changes, flow=flow)
        lines.append(replace(line, total=total, at_least=at_least))
    return tuple(lines)


def set_of(lines: tuple[Line, ...], last: int) -> Amount:
    """Return the water of the cartridges that were in up to a line, by the oil."""
    changes = [at for at, line in enumerate(lines[:last]) if line.new_cartridges]
    first = changes[-1] + 1 if changes else 0
    amounts = (line.since for line in lines[first : last + 1] if line.since is not None)
    return reduce(Amount.plus, amounts, NOTHING)


def _read(job: Job, course: Course) -> Read | None:
    figures = figures_of(job)
    if job is course.hookup and moment(job, "started") is None:
        return None
    at = _read_at(job)
    changes = moment(job, "stopped") is not None and job.checklist.id == "cartridge_change"
    has = any(figures.si(role) is not None for role in ("totaliser", "inlet", "outlet"))
    return Read(job, at, _point(figures, at, course) if has else None, changes)


def _read_at(job: Job) -> datetime:
    """Return when a job read its figures; the hookup's stand for the start of drying."""
    roles = ("started",) if job.checklist.id == "hookup" else ("totaliser", "inlet", "started")
    return next((at for role in roles if (at := moment(job, role))), began(job))


def _point(figures: Figures, at: datetime, course: Course) -> Point:
    offset = zero_of(course, at)
    outlet = figures.si("outlet")
    corrected = outlet + (offset or 0.0) if outlet is not None else None
    return Point(at, figures.si("totaliser"), figures.si("inlet"), corrected, figures.si("oil"),
                 figures.si("flow"), zeroed=offset is not None)  # fmt: skip


def zero_of(course: Course, at: datetime) -> float | None:
    """Return how much more the inlet probe shows on the same oil, by the last zero before `at`."""
    found: float | None = None
    for job in course.jobs:
        figures = figures_of(job)
        inlet, outlet = figures.si("zero_inlet"), figures.si("zero_outlet")
        taken = moment(job, "zero_inlet")
        if inlet is not None and outlet is not None and taken is not None and taken <= at:
            found = inlet - outlet
    return found if found is not None else _zero_of_sheet(course)


def _zero_of_sheet(course: Course) -> float | None:
    sheet = course.jobs[0].sheet
    inlet, outlet = sheet.number_of("zero_of_inlet"), sheet.number_of("zero_of_outlet")
    return inlet.si() - outlet.si() if inlet and outlet else None


def _line(read: Read, day: float) -> Line:
    figures, point, job = figures_of(read.job), read.point, read.job
    notes = []
    if point is not None and point.difference is not None:
        notes += [] if point.zeroed else [NO_ZERO]
        notes += [GIVES_BACK] if point.difference < 0 else []
    return Line(
        number=job.number,
        title=TITLES.get(job.checklist.id, job.checklist.title),
        at=read.at,
        day=day,
        signed=job.state.signature(LEAD) is not None,
        litres=_in(figures.si("totaliser"), "L"),
        inlet=_in(figures.si("inlet"), "mg/kg"),
        outlet=_in(figures.si("outlet"), "mg/kg"),
        oil=_in(figures.si("oil"), "degC"),
        new_cartridges=read.changes,
        notes=tuple(notes),
    )


def _in(value: float | None, unit: str) -> float | None:
    return None if value is None else from_si(value, unit)
