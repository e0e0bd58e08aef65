"""The limit ruler: inside, too near and outside as one scale, the limit as a wall."""

from __future__ import annotations

from kivy.properties import NumericProperty, StringProperty

from fieldapp.screens import theme
from fieldapp.screens.kit import scale, words
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.pen import Pen

WORDS = {"inside": "inside", "near": "too near", "outside": "outside"}
HEIGHT = 88
_TOP = 30
_HIGH = 26
_WALL = 7
_HALF = 11


class LimitRuler(Drawn):
    """A ruler for an upper limit, a lower one, or both.

    Numbers place the parts; the figures under the walls are the texts the view gives. Give the
    widget 88 in height: words above, the scale, figures below.
    """

    DRAWN_FROM = (
        "lower", "upper", "guard", "reading", "uncertainty",
        "lower_text", "upper_text", "lower_guard_text", "upper_guard_text",
    )  # fmt: skip

    lower = NumericProperty(None, allownone=True)
    upper = NumericProperty(None, allownone=True)
    guard = NumericProperty(0.0)
    reading = NumericProperty(None, allownone=True)
    uncertainty = NumericProperty(0.0)
    lower_text = StringProperty("")
    upper_text = StringProperty("")
    lower_guard_text = StringProperty("")
    upper_guard_text = StringProperty("")

    def draw(self, pen: Pen) -> None:
        """Draw the zones, the walls, the figures and the reading."""
        zones = scale.zones(self.lower, self.upper, self.guard)
        if not zones:
            return
        self._draw_zones(pen, zones)
        for limit in (self.lower, self.upper):
            if limit is not None:
                at = self._x(limit, zones)
                pen.rect(round(at) - _WALL // 2, _TOP - 4, _WALL, _HIGH + 12, "ink")
        self._draw_figures(pen, zones)
        if self.reading is not None:
            self._draw_reading(pen, zones)

    def _x(self, number: float, zones: tuple[scale.Zone, ...]) -> float:
        return scale.place(number, zones) * self.wide

    def _draw_zones(self, pen: Pen, zones: tuple[scale.Zone, ...]) -> None:
        left = 0.0
        for at, zone in enumerate(zones):
            width = zone.share * self.wide
            if zone.kind == "outside":
                pen.pattern("outside", left, _TOP, width, _HIGH)
                pen.rect(left, _TOP, width, _HIGH, None, "ink")
            else:
                ground = "caution" if zone.kind == "near" else "paper"
                pen.rect(left, _TOP, width, _HIGH, ground, "ink")
            word = WORDS[zone.kind]
            anchor = "middle"
            if zone.kind == "outside" and self.lower is not None and self.upper is not None:
                anchor = "right" if at else "left"
            beside = {"left": left, "middle": left + width / 2, "right": left + width}[anchor]
            pen.text(beside, _TOP - 9, word, theme.LABEL, anchor=anchor, room=width)
            left += width

    def _draw_figures(self, pen: Pen, zones: tuple[scale.Zone, ...]) -> None:
        taken: list[tuple[float, float]] = []
        for number, text in self._figures():
            half = words.width_of(text, theme.LABEL, bold=True) / 2
            at = min(max(self._x(number, zones), half), self.wide - half)
            if text and all(at + half < left or at - half > right for left, right in taken):
                taken.append((at - half - 8, at + half + 8))
                pen.text(at, _TOP + _HIGH + 24, text, theme.LABEL, bold=True, anchor="middle")

    def _figures(self) -> list[tuple[float, str]]:
        """The limits first: where there is no room for all, the guards' figures are left out."""
        found = []
        if self.lower is not None:
            found.append((self.lower, self.lower_text))
        if self.upper is not None:
            found.append((self.upper, self.upper_text))
        if self.lower is not None:
            found.append((self.lower + self.guard, self.lower_guard_text))
        if self.upper is not None:
            found.append((self.upper - self.guard, self.upper_guard_text))
        return found

    def _draw_reading(self, pen: Pen, zones: tuple[scale.Zone, ...]) -> None:
        if self.reading < zones[0].low:
            _draw_beyond(pen, 0, 1)
        elif self.reading > zones[-1].high:
            _draw_beyond(pen, self.wide, -1)
        else:
            if self.uncertainty:
                self._draw_whisker(pen, zones)
            at = self._x(self.reading, zones)
            _draw_pointer(pen, min(max(at, _HALF), self.wide - _HALF))

    def _draw_whisker(self, pen: Pen, zones: tuple[scale.Zone, ...]) -> None:
        middle = _TOP + _HIGH / 2
        ends = [self._x(self.reading + sign * self.uncertainty, zones) for sign in (-1, 1)]
        pen.line([(ends[0], middle), (ends[1], middle)], "paper", 9)
        pen.line([(ends[0], middle), (ends[1], middle)], "here", theme.TARGET_LINE)
        for end in ends:
            edge = min(max(end, 2.5), self.wide - 2.5)
            pen.line([(edge, middle - 9), (edge, middle + 9)], "here", theme.TARGET_LINE)


def _draw_pointer(pen: Pen, at: float) -> None:
    top, shoulder, tip = _TOP - 4, _TOP + _HIGH * 0.4, _TOP + _HIGH + 3
    shape = [
        (at, tip),
        (at - _HALF, shoulder),
        (at - _HALF, top),
        (at + _HALF, top),
        (at + _HALF, shoulder),
    ]
    pen.poly(shape, "here", "paper", theme.THIN)


def _draw_beyond(pen: Pen, edge: float, towards: int) -> None:
    """Draw the pointer on its side: the reading lies beyond this end of the ruler."""
    middle = _TOP + _HIGH / 2
    shape = [
        (edge, middle),
        (edge + towards * 16, middle - 15),
        (edge + towards * 34, middle - 15),
        (edge + towards * 34, middle + 15),
        (edge + towards * 16, middle + 15),
    ]
    pen.poly(shape, "here", "paper", theme.THIN)
