"""A list by pages: rows that fit, and plates "Up" and "Down" besides swiping."""

from __future__ import annotations

from kivy.input.motionevent import MotionEvent
from kivy.metrics import dp
from kivy.properties import ListProperty, NumericProperty, OptionProperty

from fieldapp.screens import theme
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.plate import Plate

_SWIPE = 60


class PagedRows(Drawn):
    """Shows the rows that fit from `start` on; rows are widgets, all of one height."""

    rows = ListProperty([])
    row_height = NumericProperty(108)
    row_gap = NumericProperty(theme.GAP)
    start = NumericProperty(0)
    shown = NumericProperty(0)

    def __init__(self, **kwargs: object) -> None:
        """Show the first page."""
        super().__init__(**kwargs)
        for name in ("rows", "start", "row_height", "row_gap", "size"):
            self.fbind(name, self._show)
        self._show()

    def page(self, pages: int) -> None:
        """Go some pages down, or up if negative; the ends stop it."""
        self.start = page_start(int(self.start), pages, len(self.rows), int(self.shown))

    def on_touch_move(self, touch: MotionEvent) -> bool:
        """Turn a page when a finger has swiped over the rows; the row under it is not touched."""
        moved = touch.y - touch.oy
        inside = self.collide_point(*touch.opos)
        if inside and not touch.ud.get("swiped") and abs(moved) > dp(_SWIPE):
            touch.ud["swiped"] = True
            self.page(1 if moved > 0 else -1)
            return True
        return bool(super().on_touch_move(touch))

    def _show(self, *_: object) -> None:
        pitch = self.row_height + self.row_gap
        self.shown = max(1, int((self.high + self.row_gap) // pitch))
        self.start = page_start(int(self.start), 0, len(self.rows), int(self.shown))
        self.clear_widgets()
        for at, row in enumerate(self.rows[self.start : self.start + self.shown]):
            row.place = [0, at * pitch, self.wide, self.row_height]
            self.add_widget(row)


class Pager(Drawn):
    """The plates "Up" and "Down"; a plate with nothing beyond it waits."""

    __events__ = ("on_up", "on_down")

    count = NumericProperty(0)
    start = NumericProperty(0)
    shown = NumericProperty(1)
    direction = OptionProperty("column", options=("column", "row"))

    def __init__(self, **kwargs: object) -> None:
        """Build the two plates."""
        self._up = Plate(tid="up", first="Up")
        self._down = Plate(tid="down", first="Down")
        super().__init__(**kwargs)
        self._up.bind(on_touched=lambda *_: self.dispatch("on_up"))
        self._down.bind(on_touched=lambda *_: self.dispatch("on_down"))
        for plate in (self._up, self._down):
            self.add_widget(plate)
        for name in ("count", "start", "shown", "direction", "size"):
            self.fbind(name, self._show)
        self._show()

    def on_up(self) -> None:
        """Ask for the page before; for those who listen."""

    def on_down(self) -> None:
        """Ask for the page after; for those who listen."""

    def _show(self, *_: object) -> None:
        above, below = int(self.start), max(0, int(self.count - self.start - self.shown))
        for plate, more, none in ((self._up, above, "the first"), (self._down, below, "the last")):
            plate.kind = "plain" if more else "waiting"
            plate.second = f"{more} more" if more else none
        half_high, half_wide = (self.high - theme.GAP) / 2, (self.wide - theme.GAP) / 2
        if self.direction == "column":
            self._up.place = [0, 0, self.wide, half_high]
            self._down.place = [0, half_high + theme.GAP, self.wide, half_high]
        else:
            self._up.place = [0, 0, half_wide, self.high]
            self._down.place = [half_wide + theme.GAP, 0, half_wide, self.high]


def page_start(start: int, pages: int, count: int, shown: int) -> int:
    """The first row after turning pages: never before the first, never past the last page.

    >>> page_start(0, 1, 8, 6), page_start(2, -1, 8, 6), page_start(0, 1, 4, 6)
    (2, 0, 0)
    """
    return max(0, min(start + pages * shown, count - shown))
