"""The pieces of the sign-off: rows of what was not as planned, totals, a given signature."""

from __future__ import annotations

from itertools import pairwise

from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.frame import show_plate
from fieldapp.screens.kit import mark, words
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.kit.plate import Plate, fitting
from fieldapp.screens.signing.signoff_rows import PlannedRow
from fieldapp.screens.signing.signoff_view import SignatureView

_LEFT, _PLATE = 60, 162
_TWO_LINES = 110


class PlannedWidget(Drawn):
    """One row: mark, title, what was said, by whom, and the plate that answers."""

    __events__ = ("on_touched",)
    DRAWN_FROM = ("view",)

    view = ObjectProperty(None, allownone=True)

    def __init__(self, **kwargs: object) -> None:
        """Build the plate."""
        self._plate = Plate(place=[-_PLATE, 0, _PLATE, 0])
        super().__init__(**kwargs)
        self.add_widget(self._plate)
        self._plate.bind(on_touched=self._touched)
        self.fbind("view", self._show)
        self._show()

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def draw(self, pen: Pen) -> None:
        """Draw the words."""
        view: PlannedRow | None = self.view
        if view is None:
            return
        mark.draw_mark(pen, view.mark, 24, 34, 18)
        room = self.wide - _LEFT - _PLATE - 20
        y = self._lines(pen, 20, view.title, 2, theme.NOTE, room, bold=True)
        y = self._lines(pen, y, view.said, 2, theme.LABEL, room)
        self._lines(pen, y, view.below, 1 if y > _TWO_LINES else 2, theme.LABEL, room, ink="ink2")

    def _lines(
        self, pen: Pen, y: float, text: str, most: int, size: float, room: float, *,
        bold: bool = False, ink: str = "ink",
    ) -> float:  # fmt: skip
        """Write a text in so many lines at most, cut between words; return where the next goes."""
        lead = round(size * 1.25)
        lines = words.wrapped(text, size, room, bold=bold)
        if len(lines) > most:
            lines = [*lines[: most - 1], words.ended(lines[most - 1], size, room, bold=bold)]
        for at, line in enumerate(lines):
            pen.text(_LEFT, y + at * lead, line, size, bold=bold, ink=ink)
        return y + len(lines) * lead

    def _show(self, *_: object) -> None:
        view: PlannedRow | None = self.view
        if view is None:
            return
        show_plate(self._plate, view.plate)
        self._plate.tid = " ".join((view.plate.name, *view.plate.details)).strip()
        self._plate.disabled = not view.plate.name

    def _touched(self, _: Plate) -> None:
        plate = self.view.plate
        if plate.name:
            self.dispatch("on_touched", plate.name, *plate.details)


class Totals(Drawn):
    """The totals, each with its mark, in as many lines as they need."""

    DRAWN_FROM = ("totals",)

    totals = ObjectProperty(())

    def draw(self, pen: Pen) -> None:
        """Draw the line above and the totals."""
        pen.line([(0, 2), (self.wide, 2)], "ink", theme.LINE)
        x, y = 0.0, 34.0
        for total in self.totals:
            wide = 40 + words.width_of(total.words, theme.NOTE)
            if x and x + wide > self.wide:
                x, y = 0.0, y + 34
            mark.draw_mark(pen, total.mark, x + 16, y - 8, 12)
            pen.text(x + 40, y, total.words, theme.NOTE, room=wide - 38)
            x += wide + 26


class Signature(Drawn):
    """Who signs in a role, or who has, with the strokes."""

    DRAWN_FROM = ("view",)

    view = ObjectProperty(SignatureView("", "", "", signed=False, open=False))

    def draw(self, pen: Pen) -> None:
        """Draw role, name, and the signature on its line."""
        view: SignatureView = self.view
        role = view.role[:1].upper() + view.role[1:]
        pen.text(0, 20, role, theme.LABEL, ink="ink2")
        left = self.wide - words.width_of(view.under, theme.LABEL)
        if view.signed:
            mark.draw_mark(pen, "done", left - 22, 13, 12)
        pen.text(self.wide, 20, view.under, theme.LABEL, ink="ink2", anchor="right")
        for size in (theme.BODY, theme.NOTE, theme.LABEL):
            lines = words.wrapped(view.name, size, self.wide, bold=True)
            if len(lines) == 1:
                break
        pen.lines(0, 50, lines[:2], size, bold=True, room=self.wide, lead=26)
        if view.signed:
            if view.typed:
                letters = fitting(view.typed, theme.TASK, self.wide, 40)[1]
                pen.text(0, self.high - 14, view.typed, letters, room=self.wide)
            inside = Pen(self._sheet, self.x + 40, self.top - 54)
            wide, high = self.wide - 80, self.high - 58
            for stroke in view.strokes:
                _draw_stroke(inside, stroke, wide, high)
            pen.line([(0, self.high - 3), (self.wide, self.high - 3)], "ink", theme.THIN)


def _draw_stroke(
    pen: Pen, stroke: tuple[tuple[float, float], ...], wide: float, high: float
) -> None:
    """Draw a stroke piece by piece: a mitre at a sharp turn of the hand would run far out."""
    places = [(across * wide, down * high) for across, down in stroke]
    for place in places:
        pen.circle(*place, theme.LINE / 2, "ink")
    for start, end in pairwise(places):
        if start != end:
            pen.line([start, end], "ink", theme.LINE)
