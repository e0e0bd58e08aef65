"""The screen of a trace: the pull or the table, the keypad for one value, or a note."""

from __future__ import annotations

from kivy.lang import Builder

from fieldapp.screens.frame import Frame
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.timed.trace_parts import TimedNote, TimedPad, meant, swap
from fieldapp.screens.timed.trace_pull_part import PullPart
from fieldapp.screens.timed.trace_start_part import StartPart
from fieldapp.screens.timed.trace_table_part import TablePart
from fieldapp.screens.timed.trace_view import TraceView

Builder.load_file(__file__.replace(".py", ".kv"))


class TraceScreen(Drawn):
    """Shows a `TraceView`; says what was touched."""

    __events__ = ("on_touched",)

    def __init__(self, **kwargs: object) -> None:
        """Build the parts; one of them is shown at a time."""
        self._pull, self._table, self._start = PullPart(), TablePart(), StartPart()
        self._pad, self._note = TimedPad(), TimedNote()
        self._view: TraceView | None = None
        super().__init__(**kwargs)
        for part in self._parts:
            part.bind(on_touched=lambda _, *what: self.dispatch("on_touched", *what))
        self.ids.frame.bind(on_touched=self._foot_touched)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: TraceView) -> None:
        """Show a trace."""
        self._view = view
        self.ids.frame.view = view.frame
        if view.note is not None:
            self._note.show(view.note)
            swap(self, self._parts, self._note)
        elif view.pad is not None:
            self._pad.show(view.pad)
            swap(self, self._parts, self._pad)
        else:
            part = self._pull if view.pull else self._table if view.table else self._start
            part.show(view)
            swap(self, self._parts, part)

    @property
    def _parts(self) -> tuple[Drawn, ...]:
        return (self._pull, self._table, self._start, self._pad, self._note)

    def _foot_touched(self, _: Frame, what: str, *details: object) -> None:
        if what == "keep row" and self._view is not None and self._view.table is not None:
            self.dispatch("on_touched", "reading", dict(self._view.table.row))
            return
        self.dispatch("on_touched", *meant(what, details))
