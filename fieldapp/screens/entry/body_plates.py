"""The side of a screen with answers as plates."""

from __future__ import annotations

from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.body_view import AnswerBody
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
from fieldapp.screens.kit.plate import Plate
from fieldapp.screens.kit.text import Verdict, Words


class PlatesBody(Drawn):
    """Shows an `AnswerBody`: answers in columns, then the plates that keep."""

    __events__ = ("on_touched",)

    view = ObjectProperty(AnswerBody())

    def __init__(self, **kwargs: object) -> None:
        """Take the plates as they come with the view."""
        self._limit = Words()
        self._verdict = Verdict(radius=16)
        self._plates: list[Plate] = []
        self._views: list[PlateView] = []
        super().__init__(**kwargs)
        self.add_widget(self._limit)
        self.add_widget(self._verdict)
        for name in ("view", "size"):
            self.fbind(name, self._show)
        self._show()

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def _show(self, *_: object) -> None:
        view: AnswerBody = self.view
        self._limit.text = view.limit
        limit = lines_high(view.limit, self.wide)
        self._limit.place = [0, 0, self.wide, max(1, limit)]
        show_verdict(self._verdict, view.verdict)
        verdict = 74.0
        self._verdict.place = [0, -(KEEP + 20 + verdict), self.wide, verdict]
        fit_verdict(self._verdict, view.verdict, verdict, self.wide)
        self._views = [*view.plates, *view.keep]
        self._match_plates()
        top = limit + (12 if limit else 0)
        self._place_answers(view, top, self.high - KEEP - 20 - verdict - 12)
        place_keep(self._plates[len(view.plates) :], self.wide, self.high - KEEP, KEEP)

    def _match_plates(self) -> None:
        while len(self._plates) > len(self._views):
            self.remove_widget(self._plates.pop())
        while len(self._plates) < len(self._views):
            plate = Plate()
            plate.bind(on_touched=self._touched)
            self._plates.append(plate)
            self.add_widget(plate)
        for plate, shown in zip(self._plates, self._views, strict=True):
            show_plate(plate, shown)
            plate.tid = " ".join((shown.name, *shown.details))
            plate.first_size = theme.TASK if shown.kind == "main" else theme.PLATE_FIRST

    def _place_answers(self, view: AnswerBody, top: float, foot: float) -> None:
        if not view.plates:
            return
        rows = -(-len(view.plates) // view.columns)
        wide = (self.wide - theme.GAP * (view.columns - 1)) / view.columns
        high = min(190.0, (foot - top - theme.GAP * (rows - 1)) / rows)
        for at, plate in enumerate(self._plates[: len(view.plates)]):
            left = (at % view.columns) * (wide + theme.GAP)
            plate.place = [left, top + (at // view.columns) * (high + theme.GAP), wide, high]

    def _touched(self, plate: Plate) -> None:
        view = self._views[self._plates.index(plate)]
        self.dispatch("on_touched", view.name, *view.details)
