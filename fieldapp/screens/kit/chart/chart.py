"""The chart: measured points over time with fit, target, and the present value beside them."""

from __future__ import annotations

from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.kit import words
from fieldapp.screens.kit.chart import chart_layout as layout
from fieldapp.screens.kit.chart.chart_layout import Box, Scale
from fieldapp.screens.kit.chart.chart_view import ChartData
from fieldapp.screens.kit.chart.chart_words import draw_words
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.pen import Pen

_RING, _LAST = 6, 10
_MOST_RINGS = 60
_MOST_POINTS = 1200
_MOST_DASHED = 120
_FIT_DASH, _HISTORY_DASH, _WASH_DASH = (12, 7), (6, 6), (3, 5)


class Chart(Drawn):
    """Shows a `ChartData`; a low one keeps only figures, for the value to stand beside it."""

    DRAWN_FROM = ("chart",)

    chart = ObjectProperty(ChartData(time_span=(0.0, 1.0), value_span=(0.0, 1.0)))

    def scale(self) -> Scale:
        """The scale at the present size."""
        labels = [label for _, label in self.chart.value_ticks]
        wide = max((words.width_of(label, theme.LABEL) for label in labels), default=0.0)
        if layout.compact(self.high) and self.chart.target_label:
            bold = words.width_of(self.chart.target_label, theme.LABEL, bold=True)
            wide = max(wide, bold)
        return layout.scale_of(self.chart, self.wide, self.high, wide)

    def draw(self, pen: Pen) -> None:
        """Draw from the back to the front."""
        scale = self.scale()
        _wash(pen, self.chart, scale)
        _axes(pen, self.chart, scale)
        taken = _curves(pen, self.chart, scale)
        draw_words(pen, self.chart, scale, taken, low=layout.compact(self.high))


def _wash(pen: Pen, chart: ChartData, scale: Scale) -> None:
    if chart.wash_from is None:
        return
    bound = scale.y(chart.wash_from)
    far = scale.y(layout.wash_side(chart))
    pen.rect(scale.left, min(bound, far), scale.right - scale.left, abs(far - bound), "wash")
    pen.line([(scale.left, bound), (scale.right, bound)], "ink", 2, _WASH_DASH)


def _axes(pen: Pen, chart: ChartData, scale: Scale) -> None:
    corners = [(scale.left, scale.top), (scale.left, scale.bottom), (scale.right, scale.bottom)]
    pen.line(corners, "ink", 3)
    for value, _ in chart.value_ticks:
        y = scale.y(value)
        pen.line([(scale.left - 7, y), (scale.left + 7, y)], "ink", 3)
    for time, _ in chart.time_ticks:
        if scale.shows(time):
            x = scale.x(time)
            pen.line([(x, scale.bottom), (x, scale.bottom + 7)], "ink", 3)


def _curves(pen: Pen, chart: ChartData, scale: Scale) -> list[Box]:
    taken = _history(pen, chart, scale)
    if chart.target is not None:
        y = scale.y(chart.target)
        pen.line([(scale.left, y), (scale.right, y)], "ink", theme.TARGET_LINE)
        taken.append((scale.left, y - 3, scale.right, y + 3))
    taken += _fit(pen, chart, scale)
    taken += _expected(pen, chart, scale)
    places = [scale.place(pair) for pair in chart.points if scale.shows(pair[0])]
    if not places:
        return taken
    if len(places) <= _MOST_RINGS:
        for x, y in places[:-1]:
            pen.circle(x, y, _RING, "paper", "ink", 3)
    elif not chart.fit:
        pen.curve(layout.thinned(places, _MOST_POINTS), "ink", 3)
    pen.circle(*places[-1], _LAST, "ink")
    thin = layout.thinned(places, _MOST_DASHED)
    return taken + [(x - 9, y - 9, x + 9, y + 9) for x, y in thin]


def _history(pen: Pen, chart: ChartData, scale: Scale) -> list[Box]:
    taken: list[Box] = []
    for attempt in chart.history:
        places = [scale.place(pair) for pair in attempt if scale.shows(pair[0])]
        places = layout.thinned(places, _MOST_DASHED)
        if len(places) > 1:
            pen.line(places, "rule", 3, _HISTORY_DASH)
            taken += layout.boxes_of(places, 4)
    return taken


def _fit(pen: Pen, chart: ChartData, scale: Scale) -> list[Box]:
    measured = chart.points[-1][0] if chart.points else chart.time_span[0]
    curve = [pair for pair in chart.fit if scale.shows(pair[0])]
    solid, dashed = layout.cut_at(curve, measured)
    before = [scale.place(pair) for pair in solid]
    after = layout.thinned([scale.place(pair) for pair in dashed], _MOST_DASHED)
    if len(before) > 1:
        pen.curve(layout.thinned(before, _MOST_POINTS), "series2", 3)
    if len(after) > 1:
        pen.line(after, "series2", 4, _FIT_DASH)
    return layout.boxes_of(layout.thinned(before, _MOST_DASHED), 4) + layout.boxes_of(after, 4)


def _expected(pen: Pen, chart: ChartData, scale: Scale) -> list[Box]:
    if chart.expected is None or chart.target is None:
        return []
    early, likely, late = (
        min(max(scale.x(time), scale.left), scale.right) for time in chart.expected
    )
    y = scale.y(chart.target)
    pen.rect(early, y - 9, late - early, 18, "here")
    pen.line([(likely, y - 16), (likely, y + 16)], "here", 5)
    return [(early, y - 11, late, y + 11), (likely - 4, y - 17, likely + 4, y + 17)]
