"""The screen of a list: rows by pages, plates in a rail at the left, a frame if it has one."""

from __future__ import annotations

from kivy.lang import Builder
from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.frame import TALL, header_height, show_plate
from fieldapp.screens.kit import words
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.paging import PagedRows
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.kit.plate import Plate
from fieldapp.screens.kit.strip import height_for
from fieldapp.screens.row import Row
from fieldapp.screens.row_view import ListView
from fieldapp.screens.rows import fill

RAIL = 166
_LINE = 206
_ROWS = 232
_HIGH = 101
_JOB_HIGH = 108
_TALL_HIGH = 130
_MANY = 4
_FOOT, _PAGER, _TOLD = 124, 208, 98

Builder.load_file(__file__.replace(".py", ".kv"))


class ListScreen(Drawn):
    """Shows a `ListView`; says what was touched."""

    __events__ = ("on_touched",)
    DRAWN_FROM = ("view",)

    view = ObjectProperty(None, allownone=True)

    def __init__(self, **kwargs: object) -> None:
        """Take the plates of the rail as they come with the view."""
        self._rail: list[Plate] = []
        super().__init__(**kwargs)
        self.ids.frame.bind(on_touched=lambda _, *what: self.dispatch("on_touched", *what))
        self.ids.pager.bind(on_up=lambda *_: self._page(-1), on_down=lambda *_: self._page(1))
        self.ids.rows.bind(start=self._started, shown=self._show_pager)
        self.fbind("size", self._show)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: ListView) -> None:
        """Show a list."""
        self.view = view
        self._show()

    def draw(self, pen: Pen) -> None:
        """Draw the line beside the rail."""
        if self.view is not None and self.wide >= TALL:
            top = header_height(self.wide) if self.view.frame else 0
            foot = self.high - (114 if self.view.frame else 0)
            pen.rect(_LINE, top, 4, foot - top, "ink")

    def _show(self, *_: object) -> None:
        view: ListView | None = self.view
        if view is None:
            return
        ids = self.ids
        ids.frame.opacity = 1 if view.frame else 0
        if view.frame:
            ids.frame.view = view.frame
        told, stopped = view.told
        ids.told.text = f"NOT SAVED. {told}" if stopped else told
        ids.told.stopped = stopped
        ids.title.text, ids.under.text = view.title, "\n".join(view.under)
        ids.title.letter = _letter(view.title)
        ids.empty.text = "" if view.rows else view.empty
        self._arrange_parts(view)
        self._show_rail(view)
        fill(ids.rows, view.rows, view.start, self._told_of)
        self._show_pager()

    def _show_pager(self, *_: object) -> None:
        pager, rows = self.ids.pager, self.ids.rows
        pager.count, pager.start, pager.shown = len(rows.rows), rows.start, rows.shown
        paged = len(rows.rows) > rows.shown
        pager.opacity, pager.disabled = (1, False) if paged else (0, True)

    def _arrange_parts(self, view: ListView) -> None:
        ids, tall = self.ids, self.wide < TALL
        top = header_height(self.wide) + 10 if view.frame else 26
        ids.rows.row_height = _TALL_HIGH if tall else _HIGH if view.frame else _JOB_HIGH
        foot = (_FOOT if not tall else 238) if view.frame else 26
        told = _TOLD if view.told[0] and not view.frame else 0
        if tall:
            ids.title.place = [24, top, -24, 44]
            ids.under.place = [24, top + 44, -24, 34 * max(1, len(view.under))]
            start = top + 50 + 34 * len(view.under) + 114 * _rail_lines(view)
            foot += told
            ids.rows.place = [24, start, -24, -(foot + 114)]
            ids.pager.place = [24, -(foot + 94), -24, 94]
            ids.pager.direction = "row"
        else:
            high = _high(view.title, ids.title.letter, bold=True)
            ids.title.place = [24, top - 6, RAIL + 12, high]
            ids.under.place = [24, top + high, RAIL + 12, _high(ids.under.text, theme.NOTE)]
            self._place_pager(top, foot, told, full=self._rail_is_full(view))
        ids.told.place = [24 if tall else _ROWS, -100, -24, 78]
        self._place_strip(view)
        ids.empty.place = ids.rows.place

    def _rail_is_full(self, view: ListView) -> bool:
        """Say whether the rail's plates leave no room for those that turn pages."""
        foot = self.high - (_FOOT if view.frame else 26)
        return self._rail_top(view) + 114 * len(view.rail) + _PAGER > foot

    def _place_pager(self, top: float, foot: float, told: float, *, full: bool) -> None:
        """Turn pages at the foot of the rail, or below the rows where the rail is full."""
        ids = self.ids
        if full:
            ids.rows.place = [_ROWS, top, -24, -(foot + told + 114)]
            ids.pager.place = [_ROWS, -(foot + told + 94), -24, 94]
        else:
            ids.rows.place = [_ROWS, top, -24, -(foot + told)]
            ids.pager.place = [24, -(foot + _PAGER), RAIL, _PAGER]
        ids.pager.direction = "row" if full else "column"

    def _place_strip(self, view: ListView) -> None:
        """Place the caution above the rows, which make room for it."""
        strip, rows = self.ids.strip, self.ids.rows
        word, text = view.caution
        strip.word, strip.text = word or strip.word, text
        left, top, right, foot = rows.place
        high = height_for(strip.word, text, self.wide - left + right) if text else 0
        strip.place = [left, top, right, high]
        if text:
            rows.place = [left, top + high + 20, right, foot]

    def _show_rail(self, view: ListView) -> None:
        while len(self._rail) > len(view.rail):
            self.remove_widget(self._rail.pop())
        while len(self._rail) < len(view.rail):
            plate = Plate()
            plate.bind(on_touched=self._rail_touched)
            self._rail.append(plate)
            self.add_widget(plate)
        tall = self.wide < TALL
        lines = _rail_lines(view)
        top = self.ids.strip.place[1] - 114 * lines if tall else self._rail_top(view)
        across = -(-len(view.rail) // max(1, lines))
        each = (self.wide - 48 - 20 * (across - 1)) / max(1, across)
        for at, (plate, shown) in enumerate(zip(self._rail, view.rail, strict=True)):
            show_plate(plate, shown)
            plate.tid = shown.name
            if tall:
                down, left = divmod(at, across)
                plate.place = [24 + left * (each + 20), top + down * 114, each, 94]
            else:
                plate.place = [24, top + at * 114, RAIL, 94]

    def _rail_top(self, view: ListView) -> float:
        _, top, _, high = self.ids.under.place
        least = 156.0 if not view.frame and len(view.rail) < _MANY else 0.0
        return float(max(top + high + 16, least))

    def _rail_touched(self, plate: Plate) -> None:
        view = self.view.rail[self._rail.index(plate)]
        self.dispatch("on_touched", view.name, *view.details)

    def _told_of(self, _: Row, *what: object) -> None:
        self.dispatch("on_touched", *what)

    def _page(self, pages: int) -> None:
        self.ids.rows.page(pages)

    def _started(self, rows: PagedRows, _: float) -> None:
        # what the rows settled on, not what was asked for: that may lie past the last page
        if self.view is not None and int(rows.start) != self.view.start:
            self.dispatch("on_touched", "page", int(rows.start))


def _rail_lines(view: ListView) -> int:
    """How many lines the plates of the rail take on a tall sheet."""
    return -(-len(view.rail) // _MANY)


def _letter(title: str) -> float:
    """The largest letters in which no word of a title is wider than the rail."""
    sizes = (theme.TASK, theme.BODY, theme.NOTE, theme.LEAST_TEXT)
    fits = (
        size
        for size in sizes
        if all(words.width_of(word, size, bold=True) <= RAIL + 12 for word in title.split())
    )
    return float(next(fits, theme.LEAST_TEXT))


def _high(text: str, size: float, *, bold: bool = False) -> float:
    return max(
        1.0,
        words.height_of(len(words.wrapped(text, size, RAIL + 12, bold=bold, breaks=True)), size),
    )
