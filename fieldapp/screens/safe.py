"""The emergency card: nine plates, each stamps when it was done; nothing holds it up."""

from __future__ import annotations

from kivy.lang import Builder
from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.frame import TALL
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.plate import Plate
from fieldapp.screens.kit.strip import height_for
from fieldapp.screens.safe_view import SafeRow, SafeView

Builder.load_file(__file__.replace(".py", ".kv"))

_FOOT = 114
_NOTE = 110


class SafeScreen(Drawn):
    """Shows a `SafeView`; says what was touched."""

    __events__ = ("on_touched",)

    view = ObjectProperty(None, allownone=True)

    def __init__(self, **kwargs: object) -> None:
        """Take the plates as they come with the view."""
        self._plates: list[tuple[Plate, str, str]] = []
        super().__init__(**kwargs)
        for name in ("back", "people"):
            self.ids[name].bind(on_touched=lambda *_, name=name: self.dispatch("on_touched", name))
        self.fbind("size", self._show)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: SafeView) -> None:
        """Show the card."""
        if view != self.view:
            self.view = view
            self._show()

    def _show(self, *_: object) -> None:
        view: SafeView | None = self.view
        if view is None:
            return
        ids = self.ids
        ids.where.text, ids.local.text = f"{view.title}, {view.clock}", view.local
        ids.told.text = f"NOT SAVED. {view.told}" if view.not_saved else view.told
        ids.told.stopped = view.not_saved
        ids.strip.text = view.caution
        ids.people.first, ids.people.second = view.who, "at the tablet"
        self._place_head(view)
        self._show_rows(view)

    def _place_head(self, view: SafeView) -> None:
        ids = self.ids
        ids.title.opacity = ids.where.opacity = 0 if view.told else 1
        ids.title.place = [24, 14, 420, 44]
        ids.where.place = [460, 18, -24, 40] if self.wide >= TALL else [24, 58, -24, 36]
        ids.told.place = [0, 0, 0, 70]
        strip = height_for("DANGER", view.caution, self.wide - 48)
        ids.strip.place = [24, 76 if self.wide >= TALL else 104, -24, strip]
        ids.back.place = [24, -104, 180, 94]
        ids.people.place = [-324, -104, 300, 94]
        tall = self.wide < TALL
        ids.local.letter = theme.LABEL if tall else theme.NOTE
        ids.local.place = [224, -102 if tall else -78, -344, 94 if tall else 70]

    def _show_rows(self, view: SafeView) -> None:
        wanted = [("done", row.id) for row in view.rows]
        wanted += [("note", row.id) for row in view.rows if row.note and row.stamped]
        if [(what, row) for _, what, row in self._plates] != wanted:
            for plate, _, _ in self._plates:
                self.remove_widget(plate)
            self._plates = [(self._new(what, row), what, row) for what, row in wanted]
        columns = 3 if self.wide >= TALL else 2
        top = self.ids.strip.place[1] + self.ids.strip.place[3] + 20
        rows = -(-len(view.rows) // columns)
        wide = (self.wide - 48 - theme.GAP * (columns - 1)) / columns
        high = (self.high - _FOOT - 10 - top - theme.GAP * (rows - 1)) / rows
        for at, row in enumerate(view.rows):
            left = 24 + (at % columns) * (wide + theme.GAP)
            self._show_row(row, left, top + (at // columns) * (high + theme.GAP), wide, high)

    def _show_row(self, row: SafeRow, left: float, top: float, wide: float, high: float) -> None:
        plates = {what: plate for plate, what, name in self._plates if name == row.id}
        done = plates["done"]
        done.first, done.second = row.words, row.stamped or "touch when done"
        done.kind = "held" if row.stamped else "plain"
        note = _NOTE + theme.GAP if "note" in plates else 0
        done.place = [left, top, wide - note, high]
        if "note" in plates:
            plates["note"].first = row.note
            plates["note"].first_size = theme.LABEL
            plates["note"].place = [left + wide - _NOTE, top, _NOTE, high]

    def _new(self, what: str, row: str) -> Plate:
        plate = Plate(tid=f"{what} {row}")
        plate.bind(on_touched=lambda *_: self.dispatch("on_touched", what, row))
        self.add_widget(plate)
        return plate
