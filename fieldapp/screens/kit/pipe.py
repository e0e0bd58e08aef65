"""The small pipe of the jobs list: how far a hookup or a drying has come."""

from __future__ import annotations

from kivy.properties import ListProperty, NumericProperty

from fieldapp.screens import theme
from fieldapp.screens.kit import mark
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.kit.route import draw_flange

_HIGH = 18
_FLANGE = 28


class JobPipe(Drawn):
    """A pipe in equal lengths: `done` are full, the next is `part` full.

    With one length it is a span of time: `done` is 0, `part` the share gone by, and
    `expected` the two shares between which the end is expected.
    """

    DRAWN_FROM = ("lengths", "done", "part", "deviations", "expected")

    lengths = NumericProperty(8)
    done = NumericProperty(0)
    part = NumericProperty(0.0)
    deviations = ListProperty([])
    expected = ListProperty([])

    def draw(self, pen: Pen) -> None:
        """Draw the pipe in the middle of the widget's height."""
        top, middle = self.high / 2 - _HIGH / 2, self.high / 2
        each = (self.wide - 5) / self.lengths
        left = 2.5
        pen.rect(left, top, self.wide - 5, _HIGH, "paper", "ink")
        pen.rect(left, top, each * self.done, _HIGH, "ink")
        full = "here" if self.lengths > 1 else "ink"
        pen.rect(left + each * self.done, top + 1.5, each * self.part, _HIGH - 3, full)
        if self.expected:
            self._draw_expected(pen, left, top)
        for at in range(self.lengths + 1):
            draw_flange(pen, left + at * each, middle, _FLANGE)
        for at in self.deviations:
            mark.draw_deviation_on_pipe(pen, left + (at + 0.5) * each, middle, 8)

    def _draw_expected(self, pen: Pen, left: float, top: float) -> None:
        start, end = (left + share * (self.wide - 5) for share in self.expected)
        pen.pattern("vacuum", start, top + 1.5, end - start, _HIGH - 3)
        for edge in (start, end):
            pen.line([(edge, top), (edge, top + _HIGH)], "ink", theme.LINE)
