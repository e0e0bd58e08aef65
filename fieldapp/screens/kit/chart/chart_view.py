"""What a chart shows: measured points, fitted curve, target, and what cannot be reached."""

from __future__ import annotations

from dataclasses import dataclass

Pair = tuple[float, float]
"""Time and value."""
Tick = tuple[float, str]
"""Place on the axis and its label."""
_MOST_STEPS = 5


@dataclass(frozen=True, slots=True)
class ChartData:
    """One chart in the units shown; `value_span` runs from the bottom to the top of the axis.

    A span like (0, 27) rises, a span like (850, 0) puts the lowest value on top.
    """

    time_span: Pair
    value_span: Pair
    time_ticks: tuple[Tick, ...] = ()
    value_ticks: tuple[Tick, ...] = ()
    points: tuple[Pair, ...] = ()
    fit: tuple[Pair, ...] = ()
    """The fitted curve; solid as far as it was measured, dashed beyond."""
    history: tuple[tuple[Pair, ...], ...] = ()
    """Earlier attempts."""
    history_words: str = ""
    target: float | None = None
    target_words: str = ""
    target_label: str = ""
    """The target's figure alone, for a chart too low for words."""
    wash_from: float | None = None
    """From here away from the points, values are washed: not reachable, or outside."""
    wash_words: str = ""
    expected: tuple[float, float, float] | None = None
    """The earliest, likeliest and latest time at which the target is met."""
    expected_words: str = ""
    value_text: str = ""
    unit: str = ""
    value_beside: str = ""
    """The present value said another way, as "= 231 hPa absolute"."""
    note: str = ""


def hold_chart(
    points: tuple[Pair, ...],
    *,
    limit: float,
    limit_words: str,
    outside_words: str,
    minutes: float,
    unit: str,
    value_text: str = "",
    value_beside: str = "",
    earlier: tuple[tuple[Pair, ...], ...] = (),
) -> ChartData:
    """The chart of a hold test: the rise over time, and the limit it must stay under."""
    highest = max([limit, *(value for _, value in points)]) * 1.3
    step = _step(highest)
    ticks = [step * at for at in range(int(highest / step) + 1)]
    quarters = [minutes * at / 3 for at in range(4)]
    return ChartData(
        time_span=(0.0, minutes * 1.04),
        value_span=(0.0, highest),
        time_ticks=tuple((time, f"{time:g} min" if time else "0") for time in quarters),
        value_ticks=tuple((value, f"{value:g}") for value in ticks),
        points=points,
        fit=_line_through(points, minutes),
        history=earlier,
        target=limit,
        target_words=limit_words,
        target_label=f"{limit:g}",
        wash_from=limit,
        wash_words=outside_words,
        value_text=value_text,
        unit=unit,
        value_beside=value_beside,
    )


def _step(highest: float) -> float:
    steps = [digit * 10.0**power for power in range(-3, 5) for digit in (1, 2, 5)]
    return next(step for step in steps if highest / step <= _MOST_STEPS)


def _line_through(points: tuple[Pair, ...], minutes: float) -> tuple[Pair, ...]:
    if not points or points[-1][0] == points[0][0]:
        return ()
    (start, low), (end, high) = points[0], points[-1]
    slope = (high - low) / (end - start)
    return tuple((time, low + slope * (time - start)) for time in (start, end, minutes))
