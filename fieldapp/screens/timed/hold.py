"""The screen of a hold: the clock and the readings, the keypad for one value, or a note."""

from __future__ import annotations

from kivy.lang import Builder

from fieldapp.screens.frame import Frame
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.timed.hold_part import HoldPart
from fieldapp.screens.timed.hold_view import HoldView
from fieldapp.screens.timed.trace_parts import TimedNote, TimedPad, meant, swap

Builder.load_file(__file__.replace(".py", ".kv"))


class HoldScreen(Drawn):
    """Shows a `HoldView`; says what was touched."""

    __events__ = ("on_touched",)

    def __init__(self, **kwargs: object) -> None:
        """Build the parts; one of them is shown at a time."""
        self._hold, self._pad, self._note = HoldPart(), TimedPad(), TimedNote()
        self._view: HoldView | None = None
        super().__init__(**kwargs)
        for part in (self._hold, self._pad, self._note):
            part.bind(on_touched=lambda _, *what: self.dispatch("on_touched", *what))
        self.ids.frame.bind(on_touched=self._foot_touched)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: HoldView) -> None:
        """Show a hold."""
        self._view = view
        self.ids.frame.view = view.frame
        parts = (self._hold, self._pad, self._note)
        if view.note is not None:
            self._note.show(view.note)
            swap(self, parts, self._note)
        elif view.pad is not None:
            self._pad.show(view.pad)
            swap(self, parts, self._pad)
        else:
            self._hold.show(view)
            swap(self, parts, self._hold)

    def _foot_touched(self, _: Frame, what: str, *details: object) -> None:
        if what == "keep row" and self._view is not None:
            self.dispatch("on_touched", "reading", dict(self._view.row))
            return
        self.dispatch("on_touched", *meant(what, details))
