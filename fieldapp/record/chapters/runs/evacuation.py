"""The vacuum: what it had to be here, how each attempt ran, and what the hold test proved."""

from fieldapp.engineering.pump_down import PumpDown
from fieldapp.job.job import Job
from fieldapp.job.state import Attempt, Reading
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.judgement.subjects import verdict_of
from fieldapp.judgement.values import Value
from fieldapp.judgement.verdict import MISSING
from fieldapp.record.chapters.places import Vacuum, vacuum_of
from fieldapp.record.chapters.runs.holds import holds_of
from fieldapp.record.chapters.runs.pump_curve import (
    against_target,
    curve_of,
    fit_of,
    pressure_of,
    pump_alone,
)
from fieldapp.record.chapters.runs.timed import reported_between, seconds_since
from fieldapp.record.chapters.shapes.shapes import (
    Evacuation,
    Judgement,
    PumpAttempt,
    PumpReading,
)
from fieldapp.record.chapters.words import (
    figure,
    in_unit_text,
    judgement,
    stamp,
    typed,
    uncertainty_text,
)
from fieldapp.units import from_si, to_si

GAUGE = "inHg"
UNTIL_STATED = "default of the checklist"


def evacuation_of(job: Job, evaluation: Evaluation) -> Evacuation | None:
    """Return the chapter of the vacuum; None where nothing has been pulled yet."""
    vacuum = vacuum_of(job.checklist)
    if vacuum is None or not job.state.attempts.get(vacuum.pull.id):
        return None
    numbers = evaluation.values.numbers
    station, reached = numbers.get(vacuum.station), _reached(vacuum, evaluation)
    verdict = verdict_of(vacuum.target, job, evaluation.values) if vacuum.target else MISSING
    given = job.state.latest(vacuum.station)
    residual, source = _residual(vacuum, job, evaluation)
    return Evacuation(
        title=job.checklist.step_of(vacuum.pull.id).title,
        target=vacuum.target.id if vacuum.target else "",
        station=in_unit_text(station, "hPa", 1) if station else "",
        station_uncertainty=uncertainty_text(station, "hPa", 1) if station else "",
        station_at=stamp(given.done_at) if given else "",
        residual=residual,
        residual_source=source,
        below_air=_below_air(station, residual),
        gauge_target=_on_gauge(station, residual),
        deepest=figure(from_si(station.si, GAUGE), 2, "down") if station else "",
        volume=_volume(vacuum, evaluation),
        blank_off=_blank_off(vacuum, evaluation),
        reached=reached,
        limit=judgement(verdict).high,
        judgement=judgement(verdict, vacuum.target.measure.unit if vacuum.target
                            and vacuum.target.measure else ""),
        attempts=tuple(
            _attempt(vacuum, attempt, number, job, evaluation)
            for number, attempt in enumerate(job.state.attempts[vacuum.pull.id], start=1)
        ),
        holds=holds_of(vacuum, job, evaluation),
    )  # fmt: skip


def _reached(vacuum: Vacuum, evaluation: Evaluation) -> str:
    value = evaluation.values.numbers.get(vacuum.target.id) if vacuum.target else None
    return in_unit_text(value, "hPa", 1) if value else ""


def _residual(vacuum: Vacuum, job: Job, evaluation: Evaluation) -> tuple[str, str]:
    """Return the residual pressure allowed, and who says so."""
    gauge = vacuum.gauge_target
    name = dict(gauge.inputs).get("residual_pressure", "") if gauge else ""
    value = evaluation.values.numbers.get(name)
    if value is None:
        return "", ""
    stated = job.sheet.owner_number(name) is not None
    return in_unit_text(value, "hPa", 2), "job sheet, owner" if stated else UNTIL_STATED


def _on_gauge(station: Value | None, residual: str) -> str:
    """Return the target on the gauge, rounded to the side that is harder to reach."""
    if station is None or not residual:
        return ""
    return figure(from_si(station.si - to_si(float(residual), "hPa"), GAUGE), 1, "up")


def _below_air(station: Value | None, residual: str) -> str:
    """Return how far below the air here the target lies, in hPa."""
    if station is None or not residual:
        return ""
    return figure(from_si(station.si, "hPa") - float(residual), 2)


def _volume(vacuum: Vacuum, evaluation: Evaluation) -> str:
    value = evaluation.values.numbers.get(vacuum.volume)
    return in_unit_text(value, "L", 1) if value else ""


def _blank_off(vacuum: Vacuum, evaluation: Evaluation) -> str:
    value = pump_alone(vacuum, evaluation)
    return in_unit_text(value, "hPa", 1) if value else ""


def _attempt(
    vacuum: Vacuum, attempt: Attempt, number: int, job: Job, evaluation: Evaluation
) -> PumpAttempt:
    usable = [r for r in attempt.readings if vacuum.pressure.id in r.fields]
    fit = curve_of(vacuum, attempt, usable)
    return PumpAttempt(
        number=number,
        started=stamp(attempt.started),
        ended=stamp(attempt.ended) if attempt.ended else "",
        by=attempt.by,
        note=attempt.note,
        notes=reported_between(vacuum.pull, attempt, job),
        judgement=_judged_end(vacuum, usable, job, evaluation),
        readings=tuple(_reading(vacuum, attempt, r, fit, job, evaluation) for r in usable),
        fit=fit_of(vacuum, attempt, usable, job, evaluation),
    )


def _judged_end(
    vacuum: Vacuum, readings: list[Reading], job: Job, evaluation: Evaluation
) -> Judgement:
    verdict = against_target(vacuum, readings[-1], job, evaluation) if readings else None
    if verdict is None:
        return judgement(MISSING)
    return judgement(verdict, vacuum.pressure.measure.unit)


def _reading(
    vacuum: Vacuum,
    attempt: Attempt,
    reading: Reading,
    fit: PumpDown | None,
    job: Job,
    evaluation: Evaluation,
) -> PumpReading:
    pressure = pressure_of(vacuum, reading)
    seconds = seconds_since(attempt, reading.taken)
    station = evaluation.values.numbers.get(vacuum.station)
    verdict = against_target(vacuum, reading, job, evaluation)
    fitted = fit.pressure_at(seconds) if fit else None
    return PumpReading(
        seconds=seconds,
        pressure=typed(reading.fields, vacuum.pressure.id),
        gauge=figure(from_si(station.si - pressure, GAUGE), 2) if station else "",
        fit=figure(from_si(fitted, "hPa"), 1) if fitted is not None else "",
        off_fit=figure(from_si(pressure - fitted, "hPa"), 1) if fitted is not None else "",
        inside=verdict is not None and verdict.place.good,
    )
