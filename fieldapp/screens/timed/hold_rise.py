"""Reads a hold test: the rise corrected for temperature, its limit, and whether it is straight."""

from dataclasses import dataclass
from decimal import Decimal
from math import hypot

from fieldapp.checklist.model import Column, Computed, Entry
from fieldapp.engineering.air.hold import HoldPoint, Shape, hold_read
from fieldapp.engineering.atmosphere import residual_pressure
from fieldapp.engineering.vacuum import pressure_at_first_temperature
from fieldapp.engineering.validity import OutsideValidity
from fieldapp.job.job import Job
from fieldapp.job.sheet import JobSheet
from fieldapp.job.state import Attempt, Reading
from fieldapp.judgement.values import Value, Values, reading_value, stated, used_for
from fieldapp.screens.draft import number_in
from fieldapp.screens.kit.chart.chart_view import ChartData, Pair, hold_chart
from fieldapp.units import difference_from_si, rounded, to_si, written

# what the first pressure is called, by the formula that judges the hold
_FIRST = {"leak_rate": "start_pressure", "leak_rate_by_dial": "start_vacuum"}
_ROOM = 293.15  # where no temperature is read it is taken as steady
_SHAPES = {
    Shape.STILL: "No rise that this gauge can see.",
    Shape.FALLING: "The pressure falls: read again.",
    Shape.RISING: "Straight or flattening: too small to tell.",
    Shape.STRAIGHT: "The rise is straight: that is a leak.",
    Shape.FLATTENING: "The rise flattens: that is outgassing.",
    Shape.STEEPENING: "The rise steepens: something changed.",
}


@dataclass(frozen=True, slots=True)
class LeakTest:
    """What judges a hold test: the leak rate and the names of what goes into it."""

    computed: Computed
    pressure: Column
    temperature: Column | None
    allowed_rise: float | None
    """The rise over the whole time that is just allowed [Pa]."""
    station: Column | None = None
    """The barometer beside a gauge relative to air; None where the gauge is absolute."""


def leak_test_of(job: Job, values: Values, entry: Entry) -> LeakTest | None:
    """Return how the leak rate of this hold is worked out; None if it has none."""
    for computed in job.checklist.computed:
        inputs = dict(computed.inputs)
        first = _FIRST.get(computed.formula)
        if first is None or inputs["duration"] != f"{entry.id}_duration":
            continue
        columns = {f"{column.id}_first": column for column in entry.columns}
        pressure = columns.get(inputs[first])
        station = columns.get(inputs.get("start_station_pressure", ""))
        if pressure is not None and (first == "start_pressure" or station is not None):
            return LeakTest(computed, pressure, columns.get(inputs["start_temperature"]),
                            _allowed(computed, values, entry), station)  # fmt: skip
    return None


def rises(attempt: Attempt, test: LeakTest) -> tuple[Pair, ...]:
    """Return (minutes, rise in the gauge's unit) of every reading, at the first temperature.

    Of a gauge relative to air it is the rise of the absolute pressure. A reading that cannot be
    (more vacuum than air, a wall as hot as an oven) has no place among them.
    """
    found = []
    for reading in attempt.readings:
        first = attempt.readings[0]
        try:
            rise = _corrected(reading, first, test) - _pressure(first, test)
        except OutsideValidity:
            continue
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


def shape_words(attempt: Attempt, test: LeakTest, volume: float, sheet: JobSheet) -> str:
    """Return whether the rise is straight or flattens, as far as these instruments can tell.

    `volume` is the evacuated volume [m³]. Nothing is said of fewer than four readings.
    """
    last, begin = attempt.readings[-1], attempt.readings[0].taken
    try:
        points = [
            HoldPoint((reading.taken - begin).total_seconds(), _pressure(reading, test),
                      _wall(reading, test, sheet).si)
            for reading in attempt.readings
        ]  # fmt: skip
        found = hold_read(
            points,
            volume=volume,
            repeatability=_repeatability(last, test, sheet),
            temperature_repeatability=_wall(last, test, sheet).uncertainty,
        )
    except OutsideValidity:
        return ""
    return _SHAPES[found.shape] if found else ""


def _pressure(reading: Reading, test: LeakTest) -> float:
    """Return the absolute pressure of a reading [Pa]."""
    read = _number(reading.fields, test.pressure)
    if test.station is None:
        return read
    return residual_pressure(station_pressure=_number(reading.fields, test.station), vacuum=read)


def _corrected(reading: Reading, first: Reading, test: LeakTest) -> float:
    """Return the absolute pressure of a reading, brought to the temperature of the first [Pa]."""
    if test.temperature is None:
        return _pressure(reading, test)
    return pressure_at_first_temperature(
        pressure=_pressure(reading, test),
        temperature=_number(reading.fields, test.temperature),
        first_temperature=_number(first.fields, test.temperature),
    )


def _repeatability(reading: Reading, test: LeakTest, sheet: JobSheet) -> float:
    """Return what gauge and barometer together repeat to, k = 2 [Pa]."""
    columns = (test.pressure, test.station)
    return hypot(*(_value(reading, column, sheet).uncertainty for column in columns if column))


def _value(reading: Reading, column: Column, sheet: JobSheet) -> Value:
    used = used_for(column, reading)
    return reading_value(reading.fields, column.id, used, sheet, repeat=True)


def _wall(reading: Reading, test: LeakTest, sheet: JobSheet) -> Value:
    if test.temperature is None:
        return Value(_ROOM)
    return _value(reading, test.temperature, sheet)


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
    thirds = [minutes * at / 3 for at in range(4)]
    halves = [minutes * at / 2 for at in range(3)]
    times = thirds if all(time.is_integer() for time in thirds) else halves
    return ChartData(
        time_span=(0.0, minutes * 1.04),
        value_span=(0.0, top),
        time_ticks=tuple((time, f"{time:g} min" if time else "0") for time in times),
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
    volume = values.numbers.get(inputs["volume"]) or stated(inputs["volume"])
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
