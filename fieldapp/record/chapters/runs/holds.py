"""The hold test: readings brought to the first temperature, the rise, and the leak rate."""

from fieldapp.checklist.model import Measure
from fieldapp.engineering.air.gas import air_a_day
from fieldapp.engineering.air.hold import Hold, HoldPoint, hold_read
from fieldapp.engineering.vacuum import pressure_at_first_temperature
from fieldapp.engineering.validity import OutsideValidity
from fieldapp.job.job import Job
from fieldapp.job.state import Attempt, Reading
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.judgement.subjects import verdict_of_computed
from fieldapp.judgement.values import Value, reading_value, used_for
from fieldapp.judgement.verdict import DONE, Place, Verdict, in_unit, judged, range_of
from fieldapp.record.chapters.places import Vacuum
from fieldapp.record.chapters.runs.timed import seconds_since
from fieldapp.record.chapters.shapes.shapes import HoldAttempt, HoldReading, Judgement
from fieldapp.record.chapters.words import figure, judgement, stamp, typed
from fieldapp.units import difference_from_si, from_si, rounded, to_si

LEAK = "hPa L/s"


def holds_of(vacuum: Vacuum, job: Job, evaluation: Evaluation) -> tuple[HoldAttempt, ...]:
    """Return every hold test, the last one with its verdict."""
    if vacuum.hold is None or vacuum.hold_pressure is None:
        return ()
    attempts = job.state.attempts.get(vacuum.hold.id, ())
    return tuple(
        _attempt(vacuum, attempt, number, job, evaluation)
        for number, attempt in enumerate(attempts, start=1)
    )


def _attempt(
    vacuum: Vacuum, attempt: Attempt, number: int, job: Job, evaluation: Evaluation
) -> HoldAttempt:
    usable = [r for r in attempt.readings if all(c in r.fields for c in _columns(vacuum))]
    seconds = seconds_since(attempt, usable[-1].taken) if usable else 0
    volume = evaluation.values.numbers.get(vacuum.volume)
    hold = _read_by_rule(vacuum, attempt, usable, volume, job)
    leak, spread = (hold.leak_rate, hold.leak_rate_uncertainty) if hold else (None, 0.0)
    rise = _corrected(vacuum, usable, usable[-1]) - _si(usable[0], vacuum) if usable else None
    return HoldAttempt(
        number=number,
        started=stamp(usable[0].taken if usable else attempt.started),
        ended=stamp(attempt.ended) if attempt.ended else "",
        by=attempt.by,
        note=attempt.note,
        readings=tuple(_reading(vacuum, attempt, usable, reading) for reading in usable),
        rise="" if rise is None else figure(from_si(rise, "hPa"), 2),
        rise_uncertainty=figure(from_si(hold.rise_uncertainty, "hPa"), 2, "up") if hold else "",
        rise_limit=_as_rise(_limit(vacuum, evaluation), volume, seconds, "down"),
        rise_as_read=figure(from_si(_si(usable[-1], vacuum) - _si(usable[0], vacuum), "hPa"), 1)
        if usable else "",
        leak="" if leak is None else figure(from_si(leak, LEAK), 3),
        leak_uncertainty="" if not spread else figure(from_si(spread, LEAK), 3, "up"),
        litres_a_day=""
        if leak is None else figure(from_si(air_a_day(leak_rate=leak), "L/d"), 0),
        shape=str(hold.shape) if hold else "",
        judgement=_judged(vacuum, leak, spread, evaluation, last=_is_last(vacuum, attempt, job)),
    )  # fmt: skip


def _is_last(vacuum: Vacuum, attempt: Attempt, job: Job) -> bool:
    return vacuum.hold is not None and attempt is job.state.attempt(vacuum.hold.id)


def _columns(vacuum: Vacuum) -> tuple[str, ...]:
    columns = (vacuum.hold_pressure, vacuum.hold_temperature)
    return tuple(column.id for column in columns if column is not None)


def _si(reading: Reading, vacuum: Vacuum) -> float:
    assert vacuum.hold_pressure is not None  # noqa: S101 - asked for before
    return _read(reading, vacuum.hold_pressure.id)


def _read(reading: Reading, name: str) -> float:
    text = typed(reading.fields, name).replace(",", ".").replace("\u2212", "-")
    return to_si(float(text), reading.fields[f"{name}_unit"])


def _corrected(vacuum: Vacuum, readings: list[Reading], reading: Reading) -> float:
    """Return the pressure of a reading, brought to the temperature of the first."""
    if vacuum.hold_temperature is None:
        return _si(reading, vacuum)
    name = vacuum.hold_temperature.id
    try:
        return pressure_at_first_temperature(
            pressure=_si(reading, vacuum),
            temperature=_read(reading, name),
            first_temperature=_read(readings[0], name),
        )
    except OutsideValidity:
        return _si(reading, vacuum)


def _reading(
    vacuum: Vacuum, attempt: Attempt, readings: list[Reading], reading: Reading
) -> HoldReading:
    assert vacuum.hold_pressure is not None  # noqa: S101 - asked for before
    corrected = _corrected(vacuum, readings, reading)
    rise = corrected - _si(readings[0], vacuum)
    minutes = seconds_since(attempt, reading.taken) / 60
    temperature = vacuum.hold_temperature
    return HoldReading(
        minutes=figure(minutes, 0 if minutes == int(minutes) else 1),
        pressure=typed(reading.fields, vacuum.hold_pressure.id),
        temperature=typed(reading.fields, temperature.id) if temperature else "",
        corrected=figure(from_si(corrected, "hPa"), 2),
        rise=figure(from_si(rise, "hPa"), 2),
    )


def _read_by_rule(
    vacuum: Vacuum, attempt: Attempt, readings: list[Reading], volume: Value | None, job: Job
) -> Hold | None:
    """Return what the rule for holds reads; None where it says nothing: too few, too short."""
    if volume is None or not readings or vacuum.hold_temperature is None:
        return None
    assert vacuum.hold_pressure is not None  # noqa: S101 - asked for before
    columns = (vacuum.hold_pressure, vacuum.hold_temperature)
    gauge, thermometer = (
        reading_value(readings[-1].fields, column.id, used_for(column, readings[-1]), job.sheet,
                      repeat=True).uncertainty
        for column in columns
    )  # fmt: skip
    points = [
        HoldPoint(
            float(seconds_since(attempt, reading.taken)),
            *(_read(reading, column.id) for column in columns),
        )
        for reading in readings
    ]
    try:
        return hold_read(
            points, volume=volume.si, repeatability=gauge, temperature_repeatability=thermometer
        )
    except OutsideValidity:
        return None


def _as_rise(rate: float | None, volume: Value | None, seconds: int, towards: str) -> str:
    """Return a leak rate as the rise of pressure it makes in this volume and time."""
    if not rate or volume is None or not seconds:
        return ""
    return figure(difference_from_si(rate * seconds / volume.si, "hPa"), 2, towards)


def _limit(vacuum: Vacuum, evaluation: Evaluation) -> float | None:
    high = vacuum.leak.limits.high if vacuum.leak else None
    if high is None or vacuum.leak is None:
        return None
    if high.number is not None:
        return to_si(float(high.number), vacuum.leak.unit)
    value = evaluation.values.numbers.get(high.name)
    return value.si if value else None


def _judged(
    vacuum: Vacuum, leak: float | None, spread: float, evaluation: Evaluation, *, last: bool
) -> Judgement:
    if vacuum.leak is None:
        return judgement(DONE)
    if last:
        return judgement(verdict_of_computed(vacuum.leak, evaluation.values), vacuum.leak.unit)
    if leak is None:
        return judgement(Verdict(Place.OUTSIDE, "Not finished: begun again."))
    measure = Measure(vacuum.leak.unit, vacuum.leak.decimals, vacuum.leak.limits)
    number, guard = in_unit(Value(leak, spread), measure.unit)
    limits = range_of(measure, evaluation.values.numbers, rounded(guard, measure.decimals, "up"))
    verdict = judged(rounded(number, measure.decimals, "up"), measure, limits, vacuum.leak.waive)
    return judgement(verdict, measure.unit)
