"""Reads a hold test: the rise corrected for temperature, its limit, and whether it is straight."""

from dataclasses import dataclass
from decimal import Decimal

from fieldapp.checklist.model import Column, Computed, Entry
from fieldapp.engineering.vacuum import pressure_at_first_temperature
from fieldapp.job.job import Job
from fieldapp.job.state import Attempt
from fieldapp.judgement.values import Values
from fieldapp.screens.draft import number_in
from fieldapp.screens.kit.chart.chart_view import ChartData, Pair, hold_chart
from fieldapp.units import difference_from_si, rounded, to_si, written

_STRAIGHT = 0.7
_SCATTER = 2.45  # the root of 1 + 4 + 1: the middle reading counts twice
_LEAST_FOR_SHAPE = 4


@dataclass(frozen=True, slots=True)
class LeakTest:
    """What judges a hold test: the leak rate and the names of what goes into it."""

    computed: Computed
    pressure: Column
    temperature: Column | None
    allowed_rise: float | None
    """The rise over the whole time that is just allowed [Pa]."""


def leak_test_of(job: Job, values: Values, entry: Entry) -> LeakTest | None:
    """Return how the leak rate of this hold is worked out; None if it has none."""
    for computed in job.checklist.computed:
        inputs = dict(computed.inputs)
        if computed.formula != "leak_rate" or inputs["duration"] != f"{entry.id}_duration":
            continue
        columns = {f"{column.id}_first": column for column in entry.columns}
        pressure = columns.get(inputs["start_pressure"])
        if pressure is not None:
            return LeakTest(computed, pressure, columns.get(inputs["start_temperature"]),
                            _allowed(computed, values, entry))  # fmt: skip
    return None


def rises(attempt: Attempt, test: LeakTest) -> tuple[Pair, ...]:
    """Return (minutes, rise in the gauge's unit) of every reading, at the first temperature."""
    if not attempt.readings:
        return ()
    first = attempt.readings[0]
    found = []
    for reading in attempt.readings:
        pressure = _number(reading.fields, test.pressure)
        if test.temperature is not None:
            pressure = pressure_at_first_temperature(
                pressure=pressure,
                temperature=_number(reading.fields, test.temperature),
                first_temperature=_number(first.fields, test.temperature),
            )
        rise = pressure - _number(first.fields, test.pressure)
        minutes = (reading.taken - first.taken).total_seconds() / 60
        found.append((minutes, difference_from_si(rise, test.pressure.measure.unit)))
    return tuple(found)


def rise_chart(attempts: tuple[Attempt, ...], test: LeakTest, entry: Entry) -> ChartData:
    """Return the chart of the rise against the rise that is just allowed."""
    unit, minutes = test.pressure.measure.unit, float(entry.times[-1] - entry.times[0])
    limit = difference_from_si(test.allowed_rise or 0.0, unit)
    points = rises(attempts[-1], test) if attempts else ()
    shown = written(rounded(limit, test.pressure.measure.decimals + 1, "down"))
    return hold_chart(
        points,
        limit=limit,
        limit_words=f"at most {shown} {unit} in {minutes:g} min",
        outside_words="outside",
        minutes=minutes,
        unit=unit,
        value_text=written(rounded(points[-1][1], 2)) if points else "",
        value_beside="rise, corrected" if test.temperature else "rise",
        earlier=tuple(rises(attempt, test) for attempt in attempts[:-1] if attempt.readings),
    )


def shape_words(points: tuple[Pair, ...], repeatability: float) -> str:
    """Return whether the rise is straight or flattens, as far as the gauge can tell.

    A straight rise is a leak, one that flattens is outgassing (common practice, no source).
    """
    if len(points) < _LEAST_FOR_SHAPE:
        return ""
    (early, low), (middle, half), (late, high) = points[0], points[len(points) // 2], points[-1]
    first, second = (half - low) / (middle - early), (high - half) / (late - middle)
    # A rise that flattens by as much as counts must stand out of three readings' own scatter.
    if (1 - _STRAIGHT) * (high - low) / 2 < repeatability * _SCATTER:
        return "Straight or flattening: too small to tell."
    if second < _STRAIGHT * first:
        return "The rise flattens: that is outgassing."
    return "The rise is straight: that is a leak."


def column_chart(attempts: tuple[Attempt, ...], column: Column, entry: Entry,
                 limit: Decimal | None, words: str) -> ChartData:  # fmt: skip
    """Return the chart of one column against its limit."""
    minutes = float(entry.times[-1] - entry.times[0])
    points = _points(attempts[-1], column) if attempts else ()
    values = [value for _, value in points] + ([float(limit)] if limit is not None else [])
    top = max([*values, 1e-6]) * 1.4
    step = next(
        digit * 10.0**power
        for power in range(-4, 6)
        for digit in (1, 2, 5)
        if top / (digit * 10.0**power) <= 5  # noqa: PLR2004 - more labels touch each other
    )
    quarters = [minutes * at / 3 for at in range(4)]
    return ChartData(
        time_span=(0.0, minutes * 1.04),
        value_span=(0.0, top),
        time_ticks=tuple((time, f"{time:g} min" if time else "0") for time in quarters),
        value_ticks=tuple((step * at, f"{step * at:g}") for at in range(int(top / step) + 1)),
        points=points,
        fit=points,
        target=None if limit is None else float(limit),
        target_words=words,
        target_label="" if limit is None else written(limit),
        value_text=attempts[-1].readings[-1].fields[column.id] if points else "",
        unit=column.measure.unit,
    )


def _points(attempt: Attempt, column: Column) -> tuple[Pair, ...]:
    first = attempt.readings[0].taken if attempt.readings else attempt.started
    return tuple(
        ((reading.taken - first).total_seconds() / 60, float(number))
        for reading in attempt.readings
        if (number := number_in(reading.fields.get(column.id, ""))) is not None
    )


def _allowed(computed: Computed, values: Values, entry: Entry) -> float | None:
    inputs = dict(computed.inputs)
    high = computed.limits.high
    volume = values.numbers.get(inputs["volume"])
    if high is None or volume is None:
        return None
    limit = values.numbers.get(high.name)
    rate = limit.si if limit else None
    if high.number is not None:
        rate = to_si(float(high.number), computed.unit)
    return None if rate is None else rate * (entry.times[-1] - entry.times[0]) * 60 / volume.si


def _number(fields: object, column: Column) -> float:
    assert hasattr(fields, "get")  # noqa: S101 - fields are a mapping
    number = number_in(fields[column.id])  # type: ignore[index]
    assert number is not None  # noqa: S101 - a reading that was kept is a number
    return to_si(float(number), fields.get(f"{column.id}_unit", column.measure.unit))
