"""Where things stand on a chart: the scales, what lies in the way, and free places for words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from fieldapp.screens.kit.chart.chart_view import ChartData, Pair

Box = tuple[float, float, float, float]
"""Left, top, right, bottom."""
COMPACT_BELOW = 200
_BELOW_AXIS = 34
_STEP = 6
_PIECES = 8


@dataclass(frozen=True, slots=True)
class Scale:
    """The plot's box and the turning of times and values into places on it."""

    left: float
    top: float
    right: float
    bottom: float
    time_span: Pair
    value_span: Pair

    def x(self, time: float) -> float:
        """The place of a time."""
        start, end = self.time_span
        return self.left + (self.right - self.left) * (time - start) / (end - start)

    def y(self, value: float) -> float:
        """The place of a value; values beyond the axis end at it."""
        low, high = self.value_span
        share = min(1.0, max(0.0, (value - low) / (high - low)))
        return self.bottom - (self.bottom - self.top) * share

    def place(self, pair: Pair) -> Pair:
        """The place of a point."""
        return self.x(pair[0]), self.y(pair[1])

    def shows(self, time: float) -> bool:
        """Whether a time lies on the axis."""
        return self.time_span[0] <= time <= self.time_span[1]


def scale_of(chart: ChartData, width: float, height: float, label_width: float) -> Scale:
    """The scale for a widget's size, with room for labels of the value axis."""
    return Scale(
        left=label_width + 14,
        top=4,
        right=width - 3,
        bottom=height - _BELOW_AXIS,
        time_span=chart.time_span,
        value_span=chart.value_span,
    )


def compact(height: float) -> bool:
    """Whether a chart is too low for words inside."""
    return height < COMPACT_BELOW


def thinned(points: Sequence[Pair], most: int) -> list[Pair]:
    """At most so many points, the first and last among them."""
    if len(points) <= most:
        return list(points)
    last = len(points) - 1
    return [points[round(at * last / (most - 1))] for at in range(most)]


def cut_at(curve: Sequence[Pair], time: float) -> tuple[list[Pair], list[Pair]]:
    """A curve up to a time and from it on; both hold the point in between."""
    for (start, low), (end, high) in pairwise(curve):
        if start <= time < end:
            middle = (time, low + (high - low) * (time - start) / (end - start))
            before = [pair for pair in curve if pair[0] < time]
            after = [pair for pair in curve if pair[0] > time]
            return [*before, middle], [middle, *after]
    if curve and time < curve[0][0]:
        return [], list(curve)
    return list(curve), []


def wash_side(chart: ChartData) -> float:
    """The end of the value axis up to which the wash goes."""
    bound = chart.wash_from or 0.0
    inner = chart.points[0][1] if chart.points else chart.value_span[0]
    if inner == bound:
        inner = chart.value_span[0]
    low, high = sorted(chart.value_span)
    return high if inner < bound else low


def boxes_of(places: Sequence[Pair], around: float) -> list[Box]:
    """Small boxes along a curve, to keep words off it."""
    found = []
    for (x1, y1), (x2, y2) in pairwise(places):
        for at in range(_PIECES + 1):
            x, y = x1 + (x2 - x1) * at / _PIECES, y1 + (y2 - y1) * at / _PIECES
            found.append((x - around, y - around, x + around, y + around))
    return found


def free_place(
    size: Pair, area: Box, taken: Iterable[Box], near: Pair, margin: float = 6
) -> Box | None:
    """The free box of a size inside an area that lies nearest to a point."""
    wide, high = size
    left, top, right, bottom = area
    blocks = [
        box
        for box in taken
        if box[2] > left and box[0] < right and box[3] > top and box[1] < bottom
    ]
    across = _steps(left + margin, right - margin - wide)
    down = _steps(top + margin, bottom - margin - high)
    places = [(x, y, x + wide, y + high) for x in across for y in down]
    places.sort(key=lambda box: _distance(box, near))
    return next((box for box in places if not any(_meet(box, other) for other in blocks)), None)


def _steps(start: float, end: float) -> list[float]:
    return (
        [start + _STEP * at for at in range(int((end - start) / _STEP) + 1)] if end >= start else []
    )


def _distance(box: Box, near: Pair) -> float:
    x, y = (box[0] + box[2]) / 2 - near[0], (box[1] + box[3]) / 2 - near[1]
    return x * x + y * y


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
