"""The words and figures of a chart, each where nothing is in its way."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from fieldapp.screens import theme
from fieldapp.screens.kit import words
from fieldapp.screens.kit.chart.chart_layout import Box, Scale, free_place, wash_side
from fieldapp.screens.kit.chart.chart_view import ChartData, Pair
from fieldapp.screens.kit.pen import Pen

_VALUE_SIZES = (84, 72, 60, 48)
_CAPITAL = 0.76
_UNIT = 30
_NEAR = 130
_LEADER = 30
_GAP = 12


@dataclass(frozen=True, slots=True)
class _Line:
    text: str
    size: float
    bold: bool = False
    ink: str = "ink"
    ground: str = "paper"

    @property
    def wide(self) -> float:
        return words.width_of(self.text, self.size, bold=self.bold)

    @property
    def high(self) -> float:
        return self.size * (_CAPITAL + 0.2)


def draw_words(pen: Pen, chart: ChartData, scale: Scale, taken: list[Box], *, low: bool) -> None:
    """Write labels, the words of lines, and the present value, off everything drawn so far."""
    taken = [*taken, *_time_labels(pen, chart, scale), _washed(chart, scale)]
    _value_labels(pen, chart, scale, low=low)
    if low:
        _expected_words(pen, chart, scale, taken)
        return
    _wash_words(pen, chart, scale)
    taken.append(_target_words(pen, chart, scale, taken))
    taken.append(_history_words(pen, chart, scale, taken))
    taken.append(_present_value(pen, chart, scale, taken))
    taken.append(_expected_words(pen, chart, scale, taken))
    _note(pen, chart, scale, taken)


def _time_labels(pen: Pen, chart: ChartData, scale: Scale) -> list[Box]:
    used = scale.left - 60.0
    for time, label in chart.time_ticks:
        half = words.width_of(label, theme.LABEL) / 2
        x = min(scale.x(time), scale.right - half)
        if scale.shows(time) and x - half > used and x - half >= 0:
            pen.text(x, scale.bottom + 30, label, theme.LABEL, ink="ink2", anchor="middle")
            used = x + half + 10
    return [(0.0, scale.bottom - 3, scale.right, scale.bottom + 34)]


def _value_labels(pen: Pen, chart: ChartData, scale: Scale, *, low: bool) -> None:
    right = scale.left - 11
    used: list[float] = []
    if low and chart.target is not None and chart.target_label:
        y = scale.y(chart.target)
        pen.text(right, y + 8, chart.target_label, theme.LABEL, bold=True, anchor="right")
        used.append(y)
    for value, label in chart.value_ticks:
        y = min(max(scale.y(value) + 8, 20), scale.bottom + 8)
        if all(abs(y - 8 - other) >= theme.LABEL for other in used):
            pen.text(right, y, label, theme.LABEL, ink="ink2", anchor="right")
            used.append(y - 8)


def _washed(chart: ChartData, scale: Scale) -> Box:
    if chart.wash_from is None:
        return _nothing()
    bound, far = scale.y(chart.wash_from), scale.y(wash_side(chart))
    return (scale.left, min(bound, far) - 4, scale.right, max(bound, far) + 4)


def _wash_words(pen: Pen, chart: ChartData, scale: Scale) -> None:
    if chart.wash_from is None:
        return
    bound, far = scale.y(chart.wash_from), scale.y(wash_side(chart))
    line = _Line(chart.wash_words, theme.LABEL, ink="ink2", ground="wash")
    washed = (scale.left, min(bound, far), scale.right, max(bound, far))
    if washed[3] - washed[1] < line.high - 4:
        line = _Line(chart.wash_words, theme.LABEL, ink="ink2")
        baseline = bound + 22 if far <= bound else bound - 8
    else:
        baseline = bound - 5 if far <= bound else bound + 20
    _write(pen, line, scale.left + 10, baseline)


def _target_words(pen: Pen, chart: ChartData, scale: Scale, taken: list[Box]) -> Box:
    if chart.target is None or not chart.target_words:
        return _nothing()
    y = scale.y(chart.target)
    line = _Line(chart.target_words, theme.NOTE, bold=True)
    return _put(pen, line, scale, taken, (scale.left + 10 + line.wide / 2, y - 16))


def _expected_words(pen: Pen, chart: ChartData, scale: Scale, taken: list[Box]) -> Box:
    placed = _expected_line(chart, scale)
    if placed is None or chart.expected is None:
        return _nothing()
    box = _put(pen, placed[0], scale, taken, placed[1])
    x, y = scale.x(chart.expected[1]), scale.y(chart.target or 0)
    if box[0] < x < box[2] and box[1] - y > _LEADER:
        pen.line([(x, y + 16), (x, box[1] - 1)], "here", 3)
    elif box[0] < x < box[2] and y - box[3] > _LEADER:
        pen.line([(x, box[3] + 1), (x, y - 16)], "here", 3)
    return box


def _history_words(pen: Pen, chart: ChartData, scale: Scale, taken: list[Box]) -> Box:
    placed = _history_line(chart, scale)
    return _put(pen, placed[0], scale, taken, placed[1]) if placed else _nothing()


def _expected_line(chart: ChartData, scale: Scale) -> tuple[_Line, Pair] | None:
    if chart.expected is None or chart.target is None or not chart.expected_words:
        return None
    early, _, late = chart.expected
    x, y = (scale.x(early) + scale.x(late)) / 2, scale.y(chart.target)
    return _Line(chart.expected_words, theme.LABEL, bold=True, ink="here"), (x, y - 26)


def _history_line(chart: ChartData, scale: Scale) -> tuple[_Line, Pair] | None:
    if not (chart.history and chart.history_words):
        return None
    line = _Line(chart.history_words, theme.LABEL, ink="ink2")
    x, y = scale.place(chart.history[-1][-1])
    away = -22 if chart.target is not None and y < scale.y(chart.target) else 22
    return line, (min(x, scale.right - line.wide / 2), y + away)


def _present_value(pen: Pen, chart: ChartData, scale: Scale, taken: list[Box]) -> Box:
    if not chart.value_text:
        return _nothing()
    found = _value_places(chart, scale, taken)
    roomy = [place for place in found if _leaves_room(chart, scale, [*taken, _apart(place[1])])]
    for size, box in (roomy or found)[:1]:
        left, baseline = box[0], box[1] + size * _CAPITAL
        value = _Line(chart.value_text, size, bold=True)
        _write(pen, value, left, baseline)
        _write(pen, _Line(chart.unit, _UNIT), left + value.wide + _GAP, baseline)
        beside = _Line(chart.value_beside, theme.NOTE, ink="ink2")
        _write(pen, beside, left + 2, baseline + 30)
        return _apart(box)
    return _nothing()


def _value_places(chart: ChartData, scale: Scale, taken: list[Box]) -> list[tuple[int, Box]]:
    last = scale.place(chart.points[-1])[0] if chart.points else scale.left
    near = ((last + scale.right) / 2, scale.bottom)
    beside = words.width_of(chart.value_beside, theme.NOTE)
    unit = words.width_of(chart.unit, _UNIT)
    found = []
    for size in _VALUE_SIZES:
        wide = max(words.width_of(chart.value_text, size, bold=True) + _GAP + unit, beside)
        high = size * _CAPITAL + (36 if chart.value_beside else 4)
        box = free_place((wide, high), _area(scale), taken, near)
        if box:
            found.append((size, box))
    return found


def _apart(box: Box) -> Box:
    return (box[0] - _GAP, box[1], box[2] + _GAP, box[3])


def _leaves_room(chart: ChartData, scale: Scale, taken: list[Box]) -> bool:
    placed = _expected_line(chart, scale)
    if placed is None:
        return True
    line, near = placed
    box = free_place((line.wide, line.high), _area(scale), taken, near, margin=3)
    if box is None:
        return False
    aside, below = (box[0] + box[2]) / 2 - near[0], (box[1] + box[3]) / 2 - near[1]
    return hypot(aside, below) < _NEAR


def _note(pen: Pen, chart: ChartData, scale: Scale, taken: list[Box]) -> None:
    if chart.note:
        line = _Line(chart.note, theme.LABEL, ink="ink2")
        _put(pen, line, scale, taken, (scale.right, scale.y(chart.target or 0) + 24))


def _put(pen: Pen, line: _Line, scale: Scale, taken: list[Box], near: Pair) -> Box:
    place = free_place((line.wide, line.high), _area(scale), taken, near, margin=3)
    if place is None:
        return _nothing()
    return _write(pen, line, place[0], place[1] + line.size * _CAPITAL)


def _write(pen: Pen, line: _Line, left: float, baseline: float) -> Box:
    end = pen.text(
        left,
        baseline,
        line.text,
        line.size,
        bold=line.bold,
        ink=line.ink,
        ground=line.ground,
    )
    return (left - 4, baseline - line.size * _CAPITAL - 2, end + 4, baseline + line.size * 0.2)


def _area(scale: Scale) -> Box:
    return (scale.left + 4, scale.top - 6, scale.right, scale.bottom)


def _nothing() -> Box:
    return (0.0, 0.0, 0.0, 0.0)
