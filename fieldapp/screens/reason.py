"""The screen that asks for a reason, a condition, a document's number or a note."""

from __future__ import annotations

from kivy.lang import Builder

from fieldapp.screens.frame import header_height
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.reason_view import ReasonView

Builder.load_file(__file__.replace(".py", ".kv"))


class ReasonScreen(Drawn):
    """Shows a `ReasonView`; says what was touched."""

    __events__ = ("on_touched",)

    def __init__(self, **kwargs: object) -> None:
        """Listen to the parts."""
        self._showing = False
        super().__init__(**kwargs)
        note = self.ids.note
        note.bind(
            on_kept=lambda _, text: self.dispatch("on_touched", "kept", text),
            on_left=lambda *_: self.dispatch("on_touched", "left"),
            text=self._typed,
        )
        self.ids.frame.bind(on_touched=lambda _, *what: self.dispatch("on_touched", *what))
        self.fbind("size", self._place_parts)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: ReasonView) -> None:
        """Show the question."""
        self.ids.frame.view = view.frame
        note = self.ids.note
        self._showing = True
        note.title, note.hint, note.reasons = view.title, view.hint, list(view.reasons)
        note.keep_first, note.keep_second = view.keep_first, view.keep_second
        note.needs = view.waits_for
        if note.text != view.typed:
            note.text = view.typed
        self._showing = False
        self._place_parts()

    def _place_parts(self, *_: object) -> None:
        self.ids.note.place = [0, header_height(self.wide), 0, 0]

    def _typed(self, _: object, text: str) -> None:
        if not self._showing:
            self.dispatch("on_touched", "typed", text)
