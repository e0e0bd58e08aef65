"""The parts that trace and hold share: keypad and note, which fill the sheet while asked for."""

from __future__ import annotations

from datetime import datetime

from fieldapp.screens.asking import Asking
from fieldapp.screens.entry.body_number import NumberBody
from fieldapp.screens.frame import TALL, header_height
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.note import NoteEntry
from fieldapp.screens.timed.trace_note_view import NoteView
from fieldapp.screens.timed.trace_pad_view import PadView

_ABOVE_FOOT, _ABOVE_FOOT_TALL = 114, 238


class TimedPad(Drawn):
    """Shows a `PadView`; says what was touched."""

    __events__ = ("on_touched",)

    def __init__(self, **kwargs: object) -> None:
        """Build both halves."""
        self._asking, self._body = Asking(), NumberBody()
        self._view: PadView | None = None
        super().__init__(**kwargs)
        self.add_widget(self._asking)
        self.add_widget(self._body)
        self._body.bind(on_touched=self._touched)
        self._asking.bind(on_instrument=self._instruments)
        self.fbind("size", self._place_parts)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: PadView) -> None:
        """Show a column."""
        self._view = view
        self._asking.view, self._body.view = view.asking, view.body
        self._place_parts()

    def _place_parts(self, *_: object) -> None:
        if self.wide < TALL:
            self._asking.place = [24, 140, -24, 280]
            self._body.place = [45, 456, 710, 586]
        else:
            self._asking.place = [24, 90, self.wide - 782, self.high - 214]
            self._body.place = [self.wide - 734, 90, 710, self.high - 214]

    def _instruments(self, _: Asking) -> None:
        assert self._view is not None  # noqa: S101 - it is shown, so it has a view
        self.dispatch("on_touched", "instruments", self._view.column)

    def _touched(self, _: NumberBody, what: str, *details: object) -> None:
        view = self._view
        assert view is not None  # noqa: S101 - it is shown, so it has a view
        if what == "typed":
            self.dispatch("on_touched", what, *details, view.column)
            return
        plate = next(plate for plate in view.body.side if plate.name == what)
        self.dispatch("on_touched", *meant(plate.name, plate.details))


class TimedNote(Drawn):
    """Shows a `NoteView`; says what is kept, or that nothing is asked any more."""

    __events__ = ("on_touched",)

    def __init__(self, **kwargs: object) -> None:
        """Build the field."""
        self._note = NoteEntry()
        self._view: NoteView | None = None
        super().__init__(**kwargs)
        self.add_widget(self._note)
        self._note.bind(on_kept=self._kept, on_left=lambda *_: self.dispatch(
            "on_touched", "ask", ""))  # fmt: skip
        self.fbind("size", self._place_parts)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: NoteView) -> None:
        """Ask for a note; another question begins empty."""
        if self._view is None or self._view.title != view.title:
            self._note.text = ""
        self._view = view
        self._note.title, self._note.hint = view.title, view.hint
        self._note.reasons = list(view.reasons)
        self._note.keep_first, self._note.keep_second = view.keep_first, view.keep_second
        self._note.needs = view.needs
        self._place_parts()

    def _place_parts(self, *_: object) -> None:
        foot = _ABOVE_FOOT_TALL if self.wide < TALL else _ABOVE_FOOT
        self._note.place = [0, header_height(self.wide), 0, -foot]

    def _kept(self, _: NoteEntry, text: str) -> None:
        view = self._view
        assert view is not None  # noqa: S101 - it is shown, so it has a view
        self.dispatch("on_touched", view.name, *view.details, text)


def meant(name: str, details: tuple[object, ...]) -> tuple[object, ...]:
    """Return the touch that a plate means: “ask end” asks for the end.

    >>> meant("ask end", ("end",)), meant("start", ())
    (('ask', 'end'), ('start',))
    """
    if name.startswith("ask "):
        return ("ask", *details)
    if name == "reading":
        column, text, *taken = map(str, details)
        return ("reading", {column: text}, *map(datetime.fromisoformat, taken))
    return (name, *details)


def plate_named(plates: tuple[PlateView, ...], name: str) -> PlateView:
    """Return the plate of that name."""
    return next(plate for plate in plates if plate.name == name)


def swap(screen: Drawn, parts: tuple[Drawn, ...], wanted: Drawn) -> None:
    """Let one part of some be on the screen, below the frame."""
    for part in parts:
        if part is not wanted and part.parent is screen:
            screen.remove_widget(part)
    if wanted.parent is None:
        wanted.place = [0, 0, 0, 0]
        screen.add_widget(wanted, index=1)
