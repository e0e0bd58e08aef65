"""Whether the instruments of a job sheet are fine enough for the limits of a checklist."""

from collections.abc import Iterator
from decimal import Decimal

from fieldapp.checklist.model import Checklist, Entry, Measure, Step
from fieldapp.checklist.problems import Problem
from fieldapp.job.job import Job
from fieldapp.job.sheet import JobSheet
from fieldapp.job.state import JobState
from fieldapp.judgement.values import Values, values_of
from fieldapp.judgement.verdict import Range, range_of
from fieldapp.judgement.words import people_unit
from fieldapp.units import UNITS, rounded


def too_coarse(checklist: Checklist, sheet: JobSheet) -> tuple[Problem, ...]:
    """Return the limits that no reading with the sheet's instrument could decide."""
    values = values_of(Job(checklist, sheet, JobState()))
    found = (
        Problem(entry.line, _where(step, entry), what)
        for step, entry, measure in _readings(checklist)
        if (what := _fault(measure, sheet, values))
    )
    return tuple(sorted(found))


def _readings(checklist: Checklist) -> Iterator[tuple[Step, Entry, Measure]]:
    for step in checklist.steps():
        for entry in step.entries:
            for measure in (entry.measure, *(column.measure for column in entry.columns)):
                if measure is not None and measure.instrument:
                    yield step, entry, measure


def _fault(measure: Measure, sheet: JobSheet, values: Values) -> str:
    instrument = sheet.instrument(measure.instrument)
    limits = range_of(measure, values.numbers)
    if instrument is None or limits.missing or not _same(instrument.unit, measure.unit):
        return ""
    room = _room(limits)
    if room is None:
        return ""
    nearest = min((abs(b) for b in (limits.low, limits.high) if b is not None), default=Decimal(0))
    spread = instrument.uncertainty(nearest, measure.unit)
    if 2 * spread <= room:
        return ""
    unit = people_unit(measure.unit)
    return (
        f"{instrument.name} is known to ±{_plain(rounded(spread, measure.decimals + 2))}{unit}, "
        f"and the limits leave {_plain(room)}{unit}: take a finer one, or widen them"
    )


def _room(limits: Range) -> Decimal | None:
    """Return how wide it is between the limits; a maximum alone is counted from nought."""
    if limits.high is None:
        return None
    low = Decimal(0) if limits.low is None else limits.low
    return limits.high - low if limits.high > low else None


def _same(unit: str, other: str) -> bool:
    return UNITS[unit].quantity == UNITS[other].quantity


def _plain(number: Decimal) -> str:
    return f"{number.normalize():f}"


def _where(step: Step, entry: Entry) -> str:
    return f'step "{step.id}", entry "{entry.id}"'
