"""What the curve of a pump-down says: where it levels out, and what the rule makes of that."""

from dataclasses import replace

from fieldapp.checklist.model import Waive
from fieldapp.engineering.air.outlook import (
    Blanked,
    Outlook,
    PumpDownVerdict,
    pump_down_verdict,
)
from fieldapp.engineering.pump_down import PumpDown, fitted_pump_down
from fieldapp.engineering.validity import OutsideValidity
from fieldapp.job.job import Job
from fieldapp.job.state import Attempt, Reading
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.judgement.numbers import judged_number
from fieldapp.judgement.values import Value, reading_value, used_for
from fieldapp.judgement.verdict import Verdict
from fieldapp.record.chapters.places import Vacuum
from fieldapp.record.chapters.runs.timed import seconds_since
from fieldapp.record.chapters.shapes.shapes import Fit
from fieldapp.record.chapters.words import figure, typed
from fieldapp.units import from_si, to_si


def curve_of(vacuum: Vacuum, attempt: Attempt, readings: list[Reading]) -> PumpDown | None:
    """Return the curve through the readings; None where they carry none."""
    try:
        return fitted_pump_down(*_series(vacuum, attempt, readings))
    except OutsideValidity:
        return None


def fit_of(
    vacuum: Vacuum, attempt: Attempt, readings: list[Reading], job: Job, evaluation: Evaluation
) -> Fit | None:
    """Return the curve and what it says; None where the readings carry no curve."""
    fit = curve_of(vacuum, attempt, readings)
    if fit is None:
        return None
    target = _to_reach(vacuum, readings, job, evaluation)
    said = _said(vacuum, attempt, readings, target, job, evaluation)
    return _fit(vacuum, fit, said, target, evaluation)


def pressure_of(vacuum: Vacuum, reading: Reading) -> float:
    """Return the pressure of a reading [Pa]."""
    name = vacuum.pressure.id
    typed_number = typed(reading.fields, name).replace(",", ".").replace("\u2212", "-")
    return to_si(float(typed_number), reading.fields[f"{name}_unit"])


def against_target(
    vacuum: Vacuum, reading: Reading, job: Job, evaluation: Evaluation
) -> Verdict | None:
    """Return how a reading of the pump-down stands against the limit of the pressure reached."""
    if vacuum.target is None or vacuum.target.measure is None:
        return None
    name, named = vacuum.pressure.id, replace(reading, instrument=_gauge(vacuum, reading))
    return judged_number(vacuum.target.measure, Waive.OWNER, named, name, job, evaluation.values)


def pump_alone(vacuum: Vacuum, evaluation: Evaluation) -> Value | None:
    """Return what the pump reads with its own inlet shut; None where that was not read."""
    return evaluation.values.numbers.get(vacuum.pump_alone.id) if vacuum.pump_alone else None


def _series(
    vacuum: Vacuum, attempt: Attempt, readings: list[Reading]
) -> tuple[list[float], list[float]]:
    seconds = [float(seconds_since(attempt, reading.taken)) for reading in readings]
    return seconds, [pressure_of(vacuum, reading) for reading in readings]


def _said(
    vacuum: Vacuum,
    attempt: Attempt,
    readings: list[Reading],
    target: float | None,
    job: Job,
    evaluation: Evaluation,
) -> PumpDownVerdict | None:
    """Return what the rule for pump-downs says of an attempt; None where it says nothing."""
    if target is None:
        return None
    alone, volume = pump_alone(vacuum, evaluation), evaluation.values.numbers.get(vacuum.volume)
    repeats = reading_value(readings[-1].fields, vacuum.pressure.id, _gauge(vacuum, readings[-1]),
                            job.sheet, repeat=True)  # fmt: skip
    try:
        return pump_down_verdict(
            *_series(vacuum, attempt, readings),
            target=target,
            repeatability=repeats.uncertainty / 2,
            blanked=Blanked(alone.si, alone.uncertainty) if alone else None,
            volume=volume.si if volume else None,
        )
    except OutsideValidity:
        return None


def _to_reach(
    vacuum: Vacuum, readings: list[Reading], job: Job, evaluation: Evaluation
) -> float | None:
    """Return the pressure that a reading must keep to, the gauge's uncertainty taken off."""
    verdict = against_target(vacuum, readings[-1], job, evaluation) if readings else None
    if verdict is None or verdict.range.high is None:
        return None
    assert vacuum.target is not None  # noqa: S101 - it was judged by it
    assert vacuum.target.measure is not None  # noqa: S101
    kept = verdict.range.high - verdict.range.guard
    return to_si(float(kept), vacuum.target.measure.unit)


def _gauge(vacuum: Vacuum, reading: Reading) -> str:
    return used_for(vacuum.pressure, reading)


def _fit(
    vacuum: Vacuum,
    fit: PumpDown,
    said: PumpDownVerdict | None,
    target: float | None,
    evaluation: Evaluation,
) -> Fit:
    volume = evaluation.values.numbers.get(vacuum.volume)
    speed = fit.speed(volume.si) if volume else None
    inflow = said.inflow if said else None
    gets_there = said is not None and said.outlook in (Outlook.REACHED, Outlook.ON_ITS_WAY)
    after = fit.time_to(target) if target is not None and gets_there else None
    return Fit(
        start=figure(from_si(fit.start, "hPa"), 3),
        ultimate=figure(from_si(fit.ultimate, "hPa"), 1),
        time_constant=figure(fit.time_constant, 3),
        spread=figure(from_si(fit.spread, "hPa"), 1, "up"),
        speed="" if speed is None else figure(from_si(speed, "L/min"), 1),
        inflow="" if inflow is None else figure(from_si(inflow, "hPa L/s"), 1),
        target_after="" if after is None else figure(after / 60, 1, "up"),
        sentence=_sentence(fit, said, after, inflow),
    )


def _sentence(
    fit: PumpDown, said: PumpDownVerdict | None, after: float | None, inflow: float | None
) -> str:
    """Return what the curve says, in the words of the rule for pump-downs."""
    level = f"Levels out at {figure(from_si(fit.ultimate, 'hPa'), 0)} hPa"
    if after is not None:
        return f"{level}: reaches the target after {figure(after / 60, 1, 'up')} min."
    if said is None or said.outlook is Outlook.REACHED:
        return f"{level}."
    if said.outlook is Outlook.TOO_EARLY:
        return "Ended too early to tell whether it would have reached the target."
    more = "" if inflow is None else (
        f" {figure(from_si(inflow, 'hPa L/s'), 0)} hPa·L/s more than the pump alone."
    )  # fmt: skip
    return f"{level}. {said.sentence}{more}"
