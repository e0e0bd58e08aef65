"""The table of a trace with several columns: each column a plate, one plate below it."""

from __future__ import annotations

from functools import partial

from kivy.input.motionevent import MotionEvent
from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.frame import TALL, show_plate
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.kit import words
from fieldapp.screens.kit.drawn import Drawn, Target
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.kit.plate import Face, Plate, draw_plate
from fieldapp.screens.kit.text import Words
from fieldapp.screens.timed.trace_parts import meant
from fieldapp.screens.timed.trace_table_view import ColumnView, TableView
from fieldapp.screens.timed.trace_view import TraceView

_LABELS, _HEAD, _PLATE = 84, 98, 94
_ACROSS_TALL = 4
_HIGHEST_ROW = 56
_HOW = "Touch a column to type in it, or “same” below it."
_PLAIN, _PRESSED = Face("key", "ink", "ink"), Face("ink", None, "paper")


class TableColumn(Drawn):
    """One column: its name, its unit and its readings; a touch types in it."""

    __events__ = ("on_touched",)
    DRAWN_FROM = ("view", "pitch", "pressed")

    view = ObjectProperty(ColumnView("", "", "", (), "", PlateView("", "")))
    pitch = NumericProperty(38)
    pressed = BooleanProperty(defaultvalue=False)

    def on_touched(self) -> None:
        """Answer a touch; for those who listen."""

    def targets(self) -> tuple[Target, ...]:
        """The whole column."""
        return (self.whole_target(theme.TARGET),)

    def on_touch_down(self, touch: MotionEvent) -> bool:
        """Invert at once."""
        if not self.collide_point(*touch.pos):
            return False
        touch.grab(self)
        self.pressed = True
        self.draw_at_once()
        return True

    def on_touch_up(self, touch: MotionEvent) -> bool:
        """Tell the touch, if the finger left the column where it came down."""
        if touch.grab_current is not self:
            return False
        touch.ungrab(self)
        self.pressed = False
        if self.collide_point(*touch.pos):
            self.dispatch("on_touched")
        return True

    def draw(self, pen: Pen) -> None:
        """Draw the column."""
        view: ColumnView = self.view
        face = _PRESSED if self.pressed else _PLAIN
        draw_plate(pen, self.wide, self.high, face)
        write = partial(pen.text, ground=face.ground)
        lines = words.wrapped(view.label, theme.LABEL, self.wide - 24, bold=True)
        for at, line in enumerate(lines):
            write(10, 30 + 25 * at, line, theme.LABEL, bold=True, ink=face.ink,
                  room=self.wide - 16)  # fmt: skip
        write(10, _HEAD - 12, view.unit, theme.LABEL, ink=face.ink, room=self.wide - 16)
        pen.line([(0, _HEAD), (self.wide, _HEAD)], "ink", theme.LINE)
        for at, reading in enumerate(view.readings):
            y = _HEAD + self.pitch * (at + 0.5) + 9
            changed = at == 0 or reading != view.readings[at - 1]
            write(self.wide - 12, y, reading, theme.BODY, bold=changed, ink=face.ink,
                  anchor="right")  # fmt: skip


class TablePart(Drawn):
    """Shows a trace with several columns; says what was touched."""

    __events__ = ("on_touched",)
    DRAWN_FROM = ("times",)

    times = ObjectProperty(())

    def __init__(self, **kwargs: object) -> None:
        """Take the columns as they come with the view."""
        self._task = Words(bold=True, letter=theme.TASK)
        self._due = Words(bold=True, letter=theme.BODY, ink="here", anchor="right")
        self._text = Words(letter=theme.NOTE)
        self._columns: list[TableColumn] = []
        self._plates: list[Plate] = []
        self._pitch = 38.0
        self._view: TableView | None = None
        super().__init__(**kwargs)
        for part in (self._task, self._due, self._text):
            self.add_widget(part)
        self.fbind("size", self._place_parts)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def draw(self, pen: Pen) -> None:
        """Write the times at the left of the rows."""
        for column in self._columns[:: self._across()]:
            _, top, _, _ = column.place or [0, 0, 0, 0]
            for at, time in enumerate(self.times):
                y = top + _HEAD + self._pitch * (at + 0.5) + 8
                pen.text(24, y, time, theme.LABEL, ink="ink2")

    def show(self, view: TraceView) -> None:
        """Show a table."""
        table = view.table
        assert table is not None  # noqa: S101 - only tables are shown here
        self._view = table
        self._task.text, self._due.text = view.task, view.due
        self._text.text = f"{view.text} {_HOW}"
        self._match(table)
        self.times = table.times
        self._place_parts()

    def _match(self, table: TableView) -> None:
        while len(self._columns) < len(table.columns):
            column, plate = TableColumn(), Plate()
            plate.bind(on_touched=self._touched)
            column.bind(on_touched=self._type)
            self._columns.append(column)
            self._plates.append(plate)
            self.add_widget(column)
            self.add_widget(plate)
        for column, plate, shown in zip(self._columns, self._plates, table.columns, strict=True):
            column.view, column.tid = shown, f"column {shown.id}"
            show_plate(plate, shown.plate)
            plate.tid = shown.id
            plate.first_size = theme.TASK if shown.typed or shown.readings else theme.LABEL

    def _across(self) -> int:
        return _ACROSS_TALL if self.wide < TALL else max(1, len(self._columns))

    def _place_parts(self, *_: object) -> None:
        if self._view is None:
            return
        tall = self.wide < TALL
        top = 136 if tall else 90
        self._task.place, self._due.place = [24, top, 500, 44], [420, top + 2, -24, 44]
        self._text.letter = theme.LABEL if tall else theme.NOTE
        self._text.place = [24, top + 44, -24, 56 if tall else 34]
        across = self._across()
        left = 24 + _LABELS
        wide = (self.wide - 24 - left - (across - 1) * theme.GAP) / across
        rows = -(-len(self._columns) // across)
        foot = self.high - (238 if tall else 124)
        head = 106 if tall else 90
        each = (foot - top - head - (rows - 1) * theme.GAP) / rows
        inside = each - _PLATE - theme.GAP - _HEAD - 6
        self._pitch = min(_HIGHEST_ROW, inside / max(1, self._view.rows))
        for at, (column, plate) in enumerate(zip(self._columns, self._plates, strict=True)):
            x = left + (at % across) * (wide + theme.GAP)
            y = top + head + (at // across) * (each + theme.GAP)
            column.place = [x, y, wide, each - _PLATE - theme.GAP]
            column.pitch = self._pitch
            plate.place = [x, y + each - _PLATE, wide, _PLATE]
        self.draw_soon()

    def _touched(self, plate: Plate) -> None:
        assert self._view is not None  # noqa: S101 - plates are only there with a view
        shown = self._view.columns[self._plates.index(plate)].plate
        self.dispatch("on_touched", *meant(shown.name, shown.details))

    def _type(self, column: TableColumn) -> None:
        self.dispatch("on_touched", "ask", column.view.id)
