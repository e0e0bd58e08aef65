"""Reads a pull: which pressure it must reach, where it levels out, and when it gets there."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from fieldapp.checklist.model import Column, Computed, Entry, Kind, Measure
from fieldapp.engineering.air.outlook import Blanked, PumpDownVerdict, pump_down_verdict
from fieldapp.engineering.pump_down import PumpDown, fitted_pump_down
from fieldapp.engineering.validity import OutsideValidity
from fieldapp.job.job import Job
from fieldapp.job.state import Attempt
from fieldapp.judgement.values import Values
from fieldapp.screens.draft import range_for
from fieldapp.units import parse_number, to_si, unit_named

ABSOLUTE, BELOW_AIR = "absolute pressure", "vacuum below air"


@dataclass(frozen=True, slots=True)
class Aim:
    """What a pull must reach, in Pa; `blanked` is the pump's own blank-off, if it was read.

    `pressure` is the limit with the gauge's uncertainty taken off, `station` the air outside,
    `repeats` what the gauge repeats to (k = 1).
    """

    pressure: float | None = None
    limit: float | None = None
    station: float | None = None
    blanked: Blanked | None = None
    repeats: float = 0.0


@dataclass(frozen=True, slots=True)
class Course:
    """Timed pressures [s, Pa] of one attempt, the curve through them, and what they say."""

    times: tuple[float, ...] = ()
    pressures: tuple[float, ...] = ()
    fit: PumpDown | None = None
    verdict: PumpDownVerdict | None = None

    @property
    def reached_after(self) -> tuple[float, float, float] | None:
        """When the target comes [s]: at the soonest, likely, at the latest; None if not known."""
        after = self.verdict.reached_after if self.verdict else None
        within = self.verdict.reached_within if self.verdict else None
        if after is None or within is None:
            return None
        return after - within, after, after + within


def is_pull(entry: Entry) -> bool:
    """Say whether a trace follows one pressure on its way down."""
    return entry.kind is Kind.TRACE and len(entry.columns) == 1 and (
        unit_named(entry.columns[0].measure.unit).quantity in (ABSOLUTE, BELOW_AIR)
    )  # fmt: skip


def aim_of(job: Job, values: Values, entry: Entry, taken: str) -> Aim:
    """Return what the pull must reach: the limit of the entry that is judged after it.

    `taken` is the instrument in hand for the pull; it reads what is judged after it, too.
    """
    computed = _gauge_target(job)
    if computed is None:
        return Aim(blanked=_blanked(job, values, entry), repeats=_repeats(job, entry, taken))
    inputs = dict(computed.inputs)
    station = values.numbers.get(inputs["station_pressure"])
    limit = values.numbers.get(inputs["residual_pressure"])
    judged = _judged_by(job, inputs["residual_pressure"])
    pressure = limit.si if limit else None
    if judged is not None:
        same = judged.instrument == entry.columns[0].measure.instrument
        name = taken if same else judged.instrument
        instrument = job.sheet.instrument(name) if name else None
        limits, _ = range_for(judged, instrument, values, None)
        if limits.high is not None:
            pressure = to_si(float(limits.high - limits.guard), judged.unit)
    return Aim(
        pressure=pressure,
        limit=limit.si if limit else None,
        station=station.si if station else None,
        blanked=_blanked(job, values, entry),
        repeats=_repeats(job, entry, taken),
    )


def absolute(number: float, column: Column, station: float | None) -> float | None:
    """Return what a gauge shows as absolute pressure [Pa]; None without the air outside."""
    unit = column.measure.unit
    if unit_named(unit).quantity == ABSOLUTE:
        return to_si(number, unit)
    return None if station is None else station - to_si(number, unit)


def course_of(attempt: Attempt, column: Column, aim: Aim) -> Course:
    """Return the course of an attempt as far as it has been read."""
    pairs = []
    for reading in attempt.readings:
        pressure = absolute(float(parse_number(reading.fields[column.id])), column, aim.station)
        if pressure is not None:
            pairs.append(((reading.taken - attempt.started).total_seconds(), pressure))
    pairs.sort()
    times, pressures = tuple(t for t, _ in pairs), tuple(p for _, p in pairs)
    return _course(times, pressures, aim)


@lru_cache(maxsize=32)
def _course(times: tuple[float, ...], pressures: tuple[float, ...], aim: Aim) -> Course:
    return Course(times, pressures, _fitted(times, pressures), _said(times, pressures, aim))


def _fitted(times: Sequence[float], pressures: Sequence[float]) -> PumpDown | None:
    try:
        return fitted_pump_down(times, pressures)
    except OutsideValidity:
        return None


def _said(
    times: tuple[float, ...], pressures: tuple[float, ...], aim: Aim
) -> PumpDownVerdict | None:
    if aim.pressure is None:
        return None
    try:
        return pump_down_verdict(
            times, pressures, target=aim.pressure, repeatability=aim.repeats, blanked=aim.blanked
        )
    except OutsideValidity:
        return None


def _gauge_target(job: Job) -> Computed | None:
    entries = {entry.id for step in job.checklist.steps() for entry in step.entries}
    return next(
        (
            computed
            for computed in job.checklist.computed
            if computed.formula == "gauge_vacuum"
            and dict(computed.inputs)["residual_pressure"] not in entries
        ),
        None,
    )


def _judged_by(job: Job, limit: str) -> Measure | None:
    for step in job.checklist.steps():
        for entry in step.entries:
            high = entry.measure.limits.high if entry.measure else None
            if high is not None and high.name == limit:
                return entry.measure
    return None


def _repeats(job: Job, entry: Entry, taken: str) -> float:
    """Return what the gauge of a pull repeats to [Pa], as a standard uncertainty."""
    measure = entry.columns[0].measure
    gauge = job.sheet.instrument(taken) if taken else None
    expanded = gauge.repeatability_in(measure.unit) if gauge else None
    scale = to_si(1.0, measure.unit) - to_si(0.0, measure.unit)
    return 0.0 if expanded is None else float(expanded) / 2 * scale


def _blanked(job: Job, values: Values, entry: Entry) -> Blanked | None:
    """Return the pressure read at the pump's own shut inlet, before this step."""
    for need in job.checklist.step_of(entry.id).needs:
        step = job.checklist.step(need)
        if step.part != "vacuum_pump":
            continue
        for other in step.entries:
            unit = other.measure.unit if other.measure else ""
            if unit and unit_named(unit).quantity == ABSOLUTE and other.id in values.numbers:
                read = values.numbers[other.id]
                return Blanked(read.si, read.uncertainty)
    return None
