"""The screen of the sign-off: the sheet to review and sign, or a note that is asked for."""

from __future__ import annotations

from kivy.lang import Builder

from fieldapp.screens.frame import Frame
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.signing.signoff_part import SignoffPart
from fieldapp.screens.signing.signoff_view import SignoffView
from fieldapp.screens.timed.trace_parts import TimedNote, swap

Builder.load_file(__file__.replace(".py", ".kv"))


class SignoffScreen(Drawn):
    """Shows a `SignoffView`; says what was touched."""

    __events__ = ("on_touched",)

    def __init__(self, **kwargs: object) -> None:
        """Build both parts; one of them is shown at a time."""
        self._sheet_part, self._note = SignoffPart(), TimedNote()
        super().__init__(**kwargs)
        self._sheet_part.bind(on_touched=lambda _, *what: self._told(*what))
        self._note.bind(on_touched=lambda _, *what: self._told(*what))
        self.ids.frame.bind(on_touched=self._foot_touched)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: SignoffView) -> None:
        """Show the sign-off."""
        self.ids.frame.view = view.frame
        parts = (self._sheet_part, self._note)
        if view.note is not None:
            self._note.show(view.note)
            swap(self, parts, self._note)
            return
        self._sheet_part.show(view)
        swap(self, parts, self._sheet_part)

    def _told(self, what: str, *details: object) -> None:
        if what == "see":
            details = (int(str(details[0])),)
        self.dispatch("on_touched", what, *details)

    def _foot_touched(self, _: Frame, what: str, *details: object) -> None:
        drawn = (self._sheet_part.strokes(),) if what == "sign" else ()
        self.dispatch("on_touched", what, *details, *drawn)
