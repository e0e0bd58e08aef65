"""What the chart of a pull shows, in the unit of the gauge in hand."""

from datetime import datetime, timedelta
from decimal import ROUND_CEILING, Decimal

from fieldapp.checklist.model import Column, Entry
from fieldapp.job.state import Attempt
from fieldapp.judgement.words import people_unit
from fieldapp.screens.kit.chart.chart_view import ChartData, Pair
from fieldapp.screens.kit.chart.two_touch_keys import ReadingKeys, keys_for
from fieldapp.screens.timed.trace_pull import ABSOLUTE, Aim, Course, course_of
from fieldapp.screens.timed.trace_times import Due
from fieldapp.screens.timed.trace_words import beside, figure
from fieldapp.units import from_si, unit_named

_LEAST_MINUTES = 4.0
_STEPS = (1, 2, 10, 20, 100, 200, 1000)
_SECONDS_A_KEY = 2
_POINTS = 60
_RISING, _FALLING = 27.2, 1.07


def pull_chart(
    course: Course, attempts: tuple[Attempt, ...], column: Column, aim: Aim, now: datetime
) -> ChartData:
    """Return the chart of the last attempt, with the earlier ones behind it."""
    attempt, scale = attempts[-1] if attempts else None, _Scale(column, aim)
    earlier = (course_of(attempt, column, aim) for attempt in attempts[:-1])
    history = tuple(scale.pairs(one) for one in earlier if one.pressures)
    minutes = _minutes(course, history, attempt, now)
    present = course.pressures[-1] if course.pressures else None
    target = aim.pressure
    return ChartData(
        time_span=(0.0, minutes),
        value_span=(0.0, scale.highest),
        time_ticks=_time_ticks(attempt.started if attempt else now, minutes),
        value_ticks=scale.ticks,
        points=scale.pairs(course),
        fit=_fit(course, scale, minutes),
        history=history,
        history_words=_history_words(history),
        target=None if target is None else scale.value(target),
        target_words=f"target {figure(target, column, aim, safe=True)}" if target else "",
        target_label=figure(target, column, aim, safe=True) if target else "",
        wash_from=None if scale.absolute or aim.station is None else scale.value(0.0),
        wash_words=f"{figure(0.0, column, aim)} is all this site can give",
        expected=_expected(course, minutes, attempt, now),
        expected_words=_expected_words(course, attempt),
        value_text="" if present is None else figure(present, column, aim),
        unit=people_unit(column.measure.unit).strip(),
        value_beside="" if present is None else beside(present, column, aim),
    )


def reading_keys(
    course: Course, attempt: Attempt, column: Column, aim: Aim, due: Due
) -> ReadingKeys:
    """Return the keys around what the needle will show when the next reading is due.

    While it moves fast the keys are round figures: touch one as the needle passes it.
    """
    scale = _Scale(column, aim)
    at = (due.at - attempt.started).total_seconds()
    expected, speed = _expected_reading(course, scale, at)
    smallest = Decimal(1).scaleb(-column.measure.decimals)
    wanted = speed * _SECONDS_A_KEY
    division = next((smallest * s for s in _STEPS if float(smallest * s) >= wanted), smallest * 200)
    return keys_for(Decimal(repr(round(max(0.0, expected), 3))), division)


class _Scale:
    """Turns absolute pressures [Pa] into what the gauge in hand shows."""

    def __init__(self, column: Column, aim: Aim) -> None:
        self.unit = column.measure.unit
        self.absolute = unit_named(self.unit).quantity == ABSOLUTE
        self.station = aim.station or 101_325.0
        top = from_si(self.station, self.unit) * (_FALLING if self.absolute else 1.09)
        self.step = next(
            10.0**power * digit
            for power in range(-2, 6)
            for digit in (1, 2, 5)
            if top / (10.0**power * digit) <= 5  # noqa: PLR2004 - more labels touch each other
        )
        self.highest = top
        self.ticks = tuple(
            (self.step * at, f"{self.step * at:g}") for at in range(int(top / self.step) + 1)
        )

    def value(self, pressure: float) -> float:
        """Return what the gauge shows."""
        return from_si(pressure if self.absolute else self.station - pressure, self.unit)

    def pairs(self, course: Course) -> tuple[Pair, ...]:
        """Return the readings in minutes and in the gauge's unit."""
        return tuple(
            (time / 60, self.value(pressure))
            for time, pressure in zip(course.times, course.pressures, strict=True)
        )


def _minutes(
    course: Course, history: tuple[tuple[Pair, ...], ...], attempt: Attempt | None, now: datetime
) -> float:
    ends = [_LEAST_MINUTES, *(pairs[-1][0] for pairs in history if pairs)]
    ends += [time / 60 for time in course.times[-1:]]
    if attempt is not None and attempt.ended is None:
        ends.append(min((now - attempt.started).total_seconds() / 60, max(ends) + 2))
    if course.reached_after:
        ends.append(min(course.reached_after[2] / 60, 2.5 * max(ends)))
    return max(ends) * 1.08


def _time_ticks(started: datetime, minutes: float) -> tuple[tuple[float, str], ...]:
    step = next((s for s in (1, 2, 5, 10, 20, 30, 60) if minutes / s <= 5), 120)  # noqa: PLR2004
    first = (60 - started.second) % 60 / 60
    ticks = []
    while first <= minutes:
        ticks.append((first, f"{started + timedelta(minutes=first):%H:%M}"))
        first += step
    return tuple(ticks)


def _fit(course: Course, scale: _Scale, minutes: float) -> tuple[Pair, ...]:
    if course.fit is None:
        return ()
    start = course.times[0] / 60
    times = [start + (minutes - start) * at / _POINTS for at in range(_POINTS + 1)]
    shown = [(time, scale.value(max(0.0, course.fit.pressure_at(time * 60)))) for time in times]
    return tuple(shown)


def _expected(
    course: Course, minutes: float, attempt: Attempt | None, now: datetime
) -> tuple[float, float, float] | None:
    if course.reached_after is None or attempt is None or attempt.ended is not None:
        return None
    early, likely, late = (time / 60 for time in course.reached_after)
    gone = (now - attempt.started).total_seconds() / 60
    if course.times[-1] >= course.reached_after[1] or late < gone or early > minutes:
        return None
    return early, likely, late


def _expected_words(course: Course, attempt: Attempt | None) -> str:
    if course.reached_after is None or attempt is None:
        return ""
    early, _, late = (attempt.started + timedelta(seconds=s) for s in course.reached_after)
    first, last = f"{early:%H:%M}", f"{late:%H:%M}"
    return first if first == last else f"{first} to {last}"


def _history_words(history: tuple[tuple[Pair, ...], ...]) -> str:
    if not any(history):
        return ""
    return "first try" if len(history) == 1 else f"{len(history)} tries before"


def _expected_reading(course: Course, scale: _Scale, at: float) -> tuple[float, float]:
    """Return what the gauge will show at a time [s], and how fast it moves then [1/s]."""
    if course.fit is not None:
        now, then = (scale.value(max(0.0, course.fit.pressure_at(t))) for t in (at, at + 1))
        return now, abs(then - now)
    if not course.pressures:
        return scale.value(scale.station), 0.0
    last = course.pressures[-1]
    if len(course.pressures) == 1:
        return scale.value(last), 0.0
    span, before = course.times[-1] - course.times[-2], course.pressures[-2]
    # What is left shrinks by the same share in the same time, as far as two readings tell.
    share = min(1.0, last / before) if before > 0 and span > 0 else 1.0
    coming = last * share ** ((at - course.times[-1]) / span) if span > 0 else last
    return scale.value(coming), abs(scale.value(coming) - scale.value(last)) / max(span, 1.0)


def whole_minutes(entry: Entry) -> str:
    """Return how often a trace is read, for people."""
    seconds = Decimal(entry.every)
    if seconds < 60:  # noqa: PLR2004 - a minute
        return f"{seconds} s"
    return f"{(seconds / 60).to_integral_value(ROUND_CEILING)} min"
