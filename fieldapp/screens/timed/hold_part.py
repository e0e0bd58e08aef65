"""The hold on its screen: the clock, the table of readings, the rise, and the columns to type."""

from __future__ import annotations

from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.frame import TALL, show_plate
from fieldapp.screens.kit import words
from fieldapp.screens.kit.chart.chart import Chart
from fieldapp.screens.kit.diagram.diagram import LineDiagram
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.mark import draw_here
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.kit.pipe import JobPipe
from fieldapp.screens.kit.plate import Plate
from fieldapp.screens.kit.strip import SignalStrip, height_for
from fieldapp.screens.kit.text import Value, Verdict, Words
from fieldapp.screens.timed.hold_view import HoldRow, HoldView
from fieldapp.screens.timed.trace_parts import meant

_MINUTE, _TIME, _ROW, _HEAD = 60, 84, 38, 58
_PLATES, _VERDICT = 110, 102


class HoldTable(Drawn):
    """The readings: one row each, the one that is due between corner angles."""

    DRAWN_FROM = ("columns", "rows")

    columns = ObjectProperty(())
    rows = ObjectProperty(())

    def draw(self, pen: Pen) -> None:
        """Draw the table."""
        if not self.columns:
            return
        each = (self.wide - _MINUTE - _TIME) / len(self.columns)
        ends = [_MINUTE + _TIME + each * (at + 1) for at in range(len(self.columns))]
        pen.text(0, 46, "min", theme.LABEL, ink="ink2", room=_MINUTE)
        for label, end in zip(self.columns, ends, strict=True):
            lines = words.wrapped(label, theme.LABEL, each - 10)[:2]
            for at, line in enumerate(lines):
                pen.text(end, 22 + 24 * at, line, theme.LABEL, ink="ink2", anchor="right",
                         room=each - 4)  # fmt: skip
        pen.line([(0, _HEAD), (self.wide, _HEAD)], "ink", theme.THIN)
        for at, row in enumerate(self.rows):
            self._draw_row(pen, row, _HEAD + 30 + at * self._pitch(), ends)

    def _pitch(self) -> float:
        """The height of a row; where room is short the rows stand closer."""
        return min(_ROW, (self.high - _HEAD - 8) / max(1, len(self.rows)))

    def _draw_row(self, pen: Pen, row: HoldRow, y: float, ends: list[float]) -> None:
        ink = "here" if row.now else "ink"
        pen.text(0, y, row.minute, theme.NOTE, bold=row.now, ink=ink, room=_MINUTE)
        pen.text(_MINUTE, y, row.at[:5], theme.NOTE, bold=row.now, ink=ink, room=_TIME)
        for figure, end in zip(row.figures, ends, strict=True):
            pen.text(end, y, figure, theme.BODY, bold=True, anchor="right")
        if row.now:
            draw_here(pen, -8, y - 29, self.wide + 16, 40, 12, 4)


class HoldPart(Drawn):
    """Shows a `HoldView`; says what was touched."""

    __events__ = ("on_touched",)

    def __init__(self, **kwargs: object) -> None:
        """Build the parts."""
        self._strip, self._chart, self._diagram = SignalStrip(), Chart(), LineDiagram()
        self._task = Words(bold=True, letter=theme.TASK)
        self._text, self._of = Words(letter=theme.NOTE), Words(letter=theme.TASK, ink="ink2")
        self._clock, self._pipe = Value(letter=84), JobPipe(lengths=1)
        self._due = Words(bold=True, letter=theme.BODY, ink="here")
        self._table, self._verdict = HoldTable(), Verdict(radius=16)
        self._plates: list[Plate] = []
        self._view: HoldView | None = None
        super().__init__(**kwargs)
        for part in (self._strip, self._task, self._text, self._clock, self._of, self._pipe,
                     self._due, self._table, self._verdict):  # fmt: skip
            self.add_widget(part)
        self._diagram.bind(on_part=lambda *_: self.dispatch("on_touched", "hookup"))
        self.fbind("size", self._place_parts)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: HoldView) -> None:
        """Show a hold."""
        self._view = view
        self._strip.word, self._strip.text = view.signal_word or "NOTICE", view.caution
        self._task.text, self._text.text, self._due.text = view.task, view.text, view.due
        self._clock.text, self._of.text, self._pipe.part = view.clock, view.of, view.share
        self._table.columns, self._table.rows = view.columns, view.rows
        self._verdict.kind, self._verdict.sentence = view.verdict.mark, view.verdict.sentence
        self._verdict.second = view.verdict.second
        self._show_right(view)
        self._match_plates(view)
        self._place_parts()

    def _show_right(self, view: HoldView) -> None:
        for part in (self._chart, self._diagram):
            self.remove_widget(part)
        if view.chart is not None:
            self._chart.chart = view.chart
            self.add_widget(self._chart)
        elif view.diagram is not None:
            self._diagram.diagram = view.diagram
            self.add_widget(self._diagram)

    def _match_plates(self, view: HoldView) -> None:
        while len(self._plates) > len(view.plates):
            self.remove_widget(self._plates.pop())
        while len(self._plates) < len(view.plates):
            plate = Plate(first_size=theme.TASK)
            plate.bind(on_touched=self._touched)
            self._plates.append(plate)
            self.add_widget(plate)
        for plate, shown in zip(self._plates, view.plates, strict=True):
            show_plate(plate, shown)
            plate.tid = str(shown.details[0])

    def _place_parts(self, *_: object) -> None:
        if self._view is None:
            return
        tall = self.wide < TALL
        top, foot = (140.0, self.high - 238) if tall else (90.0, self.high - 124)
        strip = height_for(self._strip.word, self._strip.text, self.wide - 48)
        self._strip.place = [24, top, -24, max(1, strip)]
        top += strip + 10 if strip else 0
        low = foot - (_PLATES + theme.GAP if self._plates else 0)
        self._place_plates(foot - _PLATES)
        if tall:
            self._place_left(top, self.wide - 48, foot)
            y = top + 262 + self._table_high()
            self._place_right(24, y, self.wide - 48, low)
        else:
            self._place_left(top, theme.LEFT_BLOCK, low)
            self._place_right(self.wide - 734, top, 710, low)

    def _place_left(self, top: float, wide: float, foot: float) -> None:
        lines = words.wrapped(self._text.text, theme.NOTE, wide)
        text = words.height_of(len(lines), theme.NOTE)
        self._task.place = [24, top, wide, 38]
        self._text.place = [24, top + 38, wide, text]
        y = top + 38 + text
        clock = words.width_of(self._clock.text, 84, bold=True)
        self._clock.place = [24, y, clock + 2, 84]
        self._of.place = [24 + clock + 16, y + 38, 160, 40]
        self._pipe.place = [24, y + 88, wide, 30]
        self._due.place = [24, y + 122, wide, 36]
        table = y + 160
        self._table.place = [24, table, wide, max(1, min(self._table_high(), foot - 4 - table))]

    def _table_high(self) -> float:
        return float(_HEAD + _ROW * len(self._table.rows) + 10) if self._table.columns else 1.0

    def _place_right(self, left: float, top: float, wide: float, foot: float) -> None:
        self._verdict.place = [left, foot - _VERDICT, wide, _VERDICT]
        box = [left, top, wide, max(1, foot - _VERDICT - 10 - top)]
        self._chart.place = self._diagram.place = box

    def _place_plates(self, top: float) -> None:
        count = max(1, len(self._plates))
        each = (self.wide - 48 - theme.GAP * (count - 1)) / count
        for at, plate in enumerate(self._plates):
            plate.place = [24 + at * (each + theme.GAP), top, each, _PLATES]

    def _touched(self, plate: Plate) -> None:
        assert self._view is not None  # noqa: S101 - plates are only there with a view
        shown = self._view.plates[self._plates.index(plate)]
        self.dispatch("on_touched", *meant(shown.name, shown.details))
