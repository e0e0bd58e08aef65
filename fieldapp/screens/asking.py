"""The left of a screen: the caution first, then where one is, what to do, and with what."""

from __future__ import annotations

from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.body_view import AskingView, AttemptView, InstrumentView
from fieldapp.screens.kit import mark, words
from fieldapp.screens.kit.diagram.diagram import LineDiagram
from fieldapp.screens.kit.diagram.diagram_view import Diagram
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.kit.plate import Plate
from fieldapp.screens.kit.strip import SignalStrip, height_for

_GAP = 14
_DIAGRAM, _DIAGRAM_WIDE = 240, 330
"""What the drawing needs at least: in the left block, and over the width of a tall sheet."""
_INSTRUMENT, _PLATE = 88, 98 + theme.GAP
_TEXT_SIZES = (theme.BODY, theme.NOTE, 22)


class Asking(Drawn):
    """Shows an `AskingView`; the line diagram stands where there is room for it."""

    __events__ = ("on_part", "on_instrument")
    DRAWN_FROM = ("view",)

    view = ObjectProperty(AskingView("", ""))
    diagram = ObjectProperty(None, allownone=True)

    def __init__(self, **kwargs: object) -> None:
        """Build the strip and the diagram."""
        self._strip = SignalStrip()
        self._drawing = LineDiagram()
        self._instrument = Plate(tid="instruments", align="left", first_size=theme.NOTE,
                                 second_size=theme.LABEL)  # fmt: skip
        super().__init__(**kwargs)
        self._drawing.bind(on_part=lambda _, part: self.dispatch("on_part", part))
        self._instrument.bind(on_touched=lambda *_: self.dispatch("on_instrument"))
        self.add_widget(self._strip)
        for name in ("view", "diagram", "size"):
            self.fbind(name, self._show)
        self._show()

    def on_part(self, part: str) -> None:
        """Say that a part of the diagram was touched; for those who listen."""

    def on_instrument(self) -> None:
        """Say that another instrument is wanted; for those who listen."""

    def draw(self, pen: Pen) -> None:
        """Write what is asked, from the top; the instrument stands at the foot."""
        view: AskingView = self.view
        y = self._strip_high() + (_GAP if view.caution else 0)
        y = _write(pen, y, view.heading, theme.NOTE, self.wide, ink="ink2")
        y = _write(pen, y, view.task, self._task_size(), self.wide, bold=True)
        y = _write(pen, y + 4, view.text, self._text_size(), self.wide)
        foot = self.high - self._instrument_high()
        if view.instrument and not view.instrument.others:
            _draw_instrument(pen, foot, view.instrument, self.wide)
        _draw_earlier(pen, y + 6, foot - 6 - self._diagram_high(y), view.earlier, self.wide)

    def _show(self, *_: object) -> None:
        view: AskingView = self.view
        high = self._strip_high()
        self._strip.word, self._strip.text = view.signal_word or "NOTICE", view.caution
        self._strip.place = [0, 0, self.wide or 1, max(1, high)]
        self._show_instrument(view)
        self.remove_widget(self._drawing)
        top = self._text_end()
        room = self._diagram_high(top)
        if room:
            foot = self.high - self._instrument_high()
            self._drawing.diagram = self.diagram or Diagram(unit="")
            self._drawing.place = [0, foot - room, self.wide, room]
            self.add_widget(self._drawing)

    def _show_instrument(self, view: AskingView) -> None:
        """Show the instrument in hand as a plate, where another could be taken."""
        self.remove_widget(self._instrument)
        shown = view.instrument
        if shown is None or not shown.others:
            return
        plate, high = self._instrument, _PLATE - theme.GAP
        plate.first = _fitting(shown.names, self.wide - 80)
        plate.second = f"{shown.accuracy}, {shown.calibration}"
        plate.sign = "failed" if shown.overdue else ""
        plate.place = [0, -high, self.wide or 1, high]
        self.add_widget(plate)

    def _instrument_high(self) -> float:
        shown = self.view.instrument
        if shown is None:
            return 0
        return _PLATE if shown.others else _INSTRUMENT

    def _diagram_high(self, top: float) -> float:
        """The height left for the diagram; 0 where that is too little."""
        view: AskingView = self.view
        if self.diagram is None or self.wide < theme.LEFT_BLOCK:
            return 0
        foot = self.high - self._instrument_high() - (6 if view.instrument else 0)
        earlier = sum(_attempt_high(one, self.wide) for one in view.earlier)
        room = foot - top - earlier - 12
        least = _DIAGRAM if self.wide < theme.RIGHT_BLOCK else _DIAGRAM_WIDE
        return float(min(room, 420)) if room >= least else 0

    def _strip_high(self) -> float:
        view: AskingView = self.view
        return height_for(view.signal_word or "NOTICE", view.caution, self.wide)

    def _text_end(self) -> float:
        return self._end_with(self._text_size())

    def _end_with(self, size: float) -> float:
        view: AskingView = self.view
        y = self._strip_high() + (_GAP if view.caution else 0)
        y += _high(view.heading, theme.NOTE, self.wide)
        y += _high(view.task, self._task_size(), self.wide, bold=True)
        return y + 4 + _high(view.text, size, self.wide)

    def _task_size(self) -> float:
        lines = words.wrapped(self.view.task, theme.TASK, max(1, self.wide), bold=True)
        return theme.TASK if len(lines) <= 2 else theme.BODY  # noqa: PLR2004

    def _text_size(self) -> float:
        foot = self.high - self._instrument_high()
        fits = (size for size in _TEXT_SIZES if self._end_with(size) <= foot)
        return next(fits, theme.LEAST_TEXT)


def _high(text: str, size: float, wide: float, *, bold: bool = False) -> float:
    if not text:
        return 0
    return words.height_of(len(words.wrapped(text, size, max(1, wide), bold=bold)), size)


def _write(
    pen: Pen, y: float, text: str, size: float, wide: float, *, bold: bool = False, ink: str = "ink"
) -> float:
    """Write a text that wraps; return where the next may begin."""
    if not text:
        return y
    lines = words.wrapped(text, size, wide, bold=bold)
    pen.lines(0, y + words.first_baseline(size), lines, size, bold=bold, ink=ink, room=wide)
    return y + words.height_of(len(lines), size)


def _draw_instrument(pen: Pen, y: float, view: InstrumentView, wide: float) -> None:
    pen.line([(0, y + 1), (wide, y + 1)], "ink", theme.THIN)
    room = wide - words.width_of(view.accuracy, theme.NOTE) - 12
    name = _fitting(view.names, room)
    pen.text(0, y + 34, name, theme.NOTE, bold=True)
    pen.text(wide, y + 34, view.accuracy, theme.NOTE, anchor="right", ink="ink2")
    left = 0.0
    if view.overdue:
        mark.draw_mark(pen, "failed", 13, y + 62, 12)
        left = 36
    pen.text(left, y + 69, view.calibration, theme.LABEL, ink="ink" if view.overdue else "ink2",
             bold=view.overdue, room=wide - left)  # fmt: skip
    pen.line([(0, y + 85), (wide, y + 85)], "ink", theme.THIN)


def _fitting(names: tuple[str, ...], room: float) -> str:
    """The fullest name that has room."""
    fit = (name for name in names if words.width_of(name, theme.NOTE, bold=True) <= room)
    return next(fit, names[-1])


def _attempt_high(attempt: AttemptView, wide: float) -> float:
    return _high(attempt.line, theme.LABEL, wide - 36) + 6


def _draw_earlier(
    pen: Pen, top: float, foot: float, attempts: tuple[AttemptView, ...], wide: float
) -> None:
    """Write earlier tries, oldest first; of too many, the last ones."""
    shown: list[AttemptView] = []
    room = foot - top
    for attempt in reversed(attempts):
        room -= _attempt_high(attempt, wide)
        if room < 0:
            break
        shown.insert(0, attempt)
    y = top
    for attempt in shown:
        mark.draw_mark(pen, attempt.mark, 13, y + 15, 12)
        lines = words.wrapped(attempt.line, theme.LABEL, wide - 36)
        pen.lines(36, y + words.first_baseline(theme.LABEL), lines, theme.LABEL, room=wide - 36)
        y += _attempt_high(attempt, wide)
