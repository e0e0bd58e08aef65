"""The side of a screen with a field for words, in the upper half above the keyboard."""

from __future__ import annotations

from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.body_view import WordsBody
from fieldapp.screens.entry.body_parts import (
    KEEP,
    fit_verdict,
    lines_high,
    place_keep,
    show_verdict,
)
from fieldapp.screens.frame import show_plate
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.note import NoteField
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.kit.plate import Plate
from fieldapp.screens.kit.text import Verdict, Words


class FieldBody(Drawn):
    """Shows a `WordsBody`: the field above, where the tablet's keyboard leaves it in sight."""

    __events__ = ("on_touched",)

    view = ObjectProperty(WordsBody())

    def __init__(self, **kwargs: object) -> None:
        """Build the field."""
        self._limit = Words(ink="ink2")
        self._field = NoteField()
        self._verdict = Verdict(radius=16)
        self._plates = [Plate() for _ in range(7)]
        self._views: list[PlateView] = []
        self._showing = False
        super().__init__(**kwargs)
        for part in (self._limit, self._field, self._verdict):
            self.add_widget(part)
        self._field.tid = "words"
        self._field.bind(text=self._typed)
        for plate in self._plates:
            plate.bind(on_touched=self._touched)
        for name in ("view", "size"):
            self.fbind(name, self._show)
        self._show()

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def draw(self, pen: Pen) -> None:
        """Draw the frame of the field."""
        left, top, width, height = self._field.place
        pen.rect(left - 1.5, top - 1.5, width + 3, height + 3, None, "ink")

    def _show(self, *_: object) -> None:
        view: WordsBody = self.view
        self._limit.text = view.limit
        limit = lines_high(view.limit, self.wide)
        self._limit.place = [0, 0, self.wide, max(1, limit)]
        top = limit + (8 if limit else 0)
        self._field.place = [3, top + 3, max(1, self.wide - 6), 104]
        self._field.hint_text = view.hint
        self._showing = True
        if self._field.text != view.typed:
            self._field.text = view.typed
        self._showing = False
        show_verdict(self._verdict, view.verdict)
        self._verdict.place = [0, top + 118, self.wide, 74]
        fit_verdict(self._verdict, view.verdict, 74, self.wide)
        self._show_plates(view, top + 200)
        self.draw_soon()

    def _show_plates(self, view: WordsBody, top: float) -> None:
        taken = [PlateView("typed", text, details=(text,)) for text in view.suggestions]
        self._views = [*view.keep, *taken]
        for plate in self._plates:
            self.remove_widget(plate)
        used = self._plates[: len(self._views)]
        for plate, shown in zip(used, self._views, strict=True):
            show_plate(plate, shown)
            plate.tid = " ".join((shown.name, *shown.details[:1]))
            self.add_widget(plate)
        place_keep(used[: len(view.keep)], self.wide, top, KEEP)
        wide = (self.wide - theme.GAP) / 2
        for at, plate in enumerate(used[len(view.keep) :]):
            below = top + KEEP + 30 + (at // 2) * (94 + theme.GAP)
            plate.place = [(at % 2) * (wide + theme.GAP), below, wide, 94]

    def _typed(self, _: NoteField, text: str) -> None:
        if not self._showing:
            self.dispatch("on_touched", "typed", text)

    def _touched(self, plate: Plate) -> None:
        view = self._views[self._plates.index(plate)]
        self.dispatch("on_touched", view.name, *view.details)
