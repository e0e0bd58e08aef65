"""The side of a screen with pictures: the newest to choose from, or one of them large."""

from __future__ import annotations

from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.body_view import PicturesBody
from fieldapp.screens.entry.body_parts import KEEP, lines_high, place_keep, show_verdict
from fieldapp.screens.frame import show_plate
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.photograph import Photograph
from fieldapp.screens.kit.plate import Plate
from fieldapp.screens.kit.text import Verdict, Words

_COLUMNS, _ROW = 2, 106
_THUMB = 130
_VERDICT = 74


class PictureBody(Drawn):
    """Shows a `PicturesBody`: 586 high, 710 wide."""

    __events__ = ("on_touched",)

    view = ObjectProperty(PicturesBody())

    def __init__(self, **kwargs: object) -> None:
        """Take plates and pictures as they come with the view."""
        self._limit = Words()
        self._large = Photograph()
        self._beside = Words(ink="ink2")
        self._verdict = Verdict(radius=16)
        self._plates: list[Plate] = []
        self._thumbs: list[Photograph] = []
        self._views: list[PlateView] = []
        super().__init__(**kwargs)
        for part in (self._limit, self._large, self._beside, self._verdict):
            self.add_widget(part)
        for name in ("view", "size"):
            self.fbind(name, self._show)
        self._show()

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def _show(self, *_: object) -> None:
        view: PicturesBody = self.view
        high = lines_high(view.limit, self.wide)
        self._limit.text = view.limit
        self._limit.place = [0, 0, self.wide, max(1, high)]
        self._show_large(view)
        show_verdict(self._verdict, view.verdict)
        self._verdict.place = [0, -(KEEP + 20 + _VERDICT), self.wide, _VERDICT]
        chosen = [PlateView("picture", one.first, one.second, details=(one.path,))
                  for one in view.pictures]  # fmt: skip
        self._views = [*chosen, *view.pages, *view.keep]
        self._match()
        self._place_cells(len(chosen), len(chosen) + len(view.pages), high + (12 if high else 0))
        kept = self._plates[len(self._views) - len(view.keep) :]
        place_keep(kept, self.wide, self.high - KEEP, KEEP)

    def _show_large(self, view: PicturesBody) -> None:
        """The picture takes two thirds; on its right stands what is known of it."""
        foot = self.high - KEEP - 20 - _VERDICT - 16
        wide = self.wide * 0.66
        self._large.path = view.large.path if view.large else ""
        self._large.place = [0, 0, max(1, wide), max(1, foot)]
        self._beside.text = "\n".join(view.words)
        left = wide + 18 if view.large else 0
        self._beside.place = [left, 0, max(1, self.wide - left), max(1, foot)]

    def _match(self) -> None:
        while len(self._plates) > len(self._views):
            self.remove_widget(self._plates.pop())
        while len(self._plates) < len(self._views):
            plate = Plate()
            plate.bind(on_touched=self._touched)
            self._plates.append(plate)
            self.add_widget(plate)
        for at, (plate, shown) in enumerate(zip(self._plates, self._views, strict=True)):
            show_plate(plate, shown)
            plate.tid = f"picture {at}" if shown.name == "picture" else shown.name
            plate.indent = _THUMB + 12 if shown.name == "picture" else 0

    def _place_cells(self, pictures: int, cells: int, top: float) -> None:
        while len(self._thumbs) < pictures:
            self._thumbs.append(Photograph())
        for thumb in self._thumbs:
            self.remove_widget(thumb)
        wide = (self.wide - theme.GAP) / _COLUMNS
        for at in range(cells):
            left = (at % _COLUMNS) * (wide + theme.GAP)
            below = top + (at // _COLUMNS) * (_ROW + theme.GAP)
            self._plates[at].place = [left, below, wide, _ROW]
            if at < pictures:
                thumb = self._thumbs[at]
                thumb.path = self._views[at].details[0]
                thumb.place = [left + 5, below + 5, _THUMB, _ROW - 10]
                self.add_widget(thumb)

    def _touched(self, plate: Plate) -> None:
        view = self._views[self._plates.index(plate)]
        self.dispatch("on_touched", view.name, *view.details)
