"""The screen of the line diagram: the hookup whole, and beside it the part that was touched."""

from __future__ import annotations

from kivy.lang import Builder
from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.frame import TALL, header_height, show_plate
from fieldapp.screens.hookup_view import HookupView
from fieldapp.screens.kit import words
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.paging import PagedRows
from fieldapp.screens.rows import fill

Builder.load_file(__file__.replace(".py", ".kv"))

_BESIDE = 440


class HookupScreen(Drawn):
    """Shows a `HookupView`; says what was touched."""

    __events__ = ("on_touched",)

    view = ObjectProperty(None, allownone=True)

    def __init__(self, **kwargs: object) -> None:
        """Listen to the parts."""
        super().__init__(**kwargs)
        ids = self.ids
        ids.frame.bind(on_touched=lambda _, *what: self.dispatch("on_touched", *what))
        ids.diagram.bind(on_part=lambda _, part: self.dispatch("on_touched", "ask", part))
        ids.shut.bind(on_touched=self._closed)
        ids.pager.bind(
            on_up=lambda *_: self.ids.rows.page(-1), on_down=lambda *_: self.ids.rows.page(1)
        )
        ids.rows.bind(start=self._started)
        self.fbind("size", self._show)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: HookupView) -> None:
        """Show the hookup."""
        self.view = view
        self._show()

    def _show(self, *_: object) -> None:
        view: HookupView | None = self.view
        if view is None:
            return
        ids, tall = self.ids, self.wide < TALL
        ids.frame.view, ids.diagram.diagram = view.frame, view.diagram
        ids.title.text, ids.under.text = view.title, view.under
        top, foot = header_height(self.wide) + 12, self.high - (238 if tall else 124)
        if tall:
            ids.diagram.place = [24, top, -24, 400]
            self._place_part(24, top + 410, self.wide - 48, foot)
        else:
            left = self.wide - 24 - _BESIDE
            ids.diagram.place = [24, top, left - 48, foot - top]
            self._place_part(left, top, _BESIDE, foot)
        fill(ids.rows, view.rows, view.start, lambda _, *what: self.dispatch("on_touched", *what))
        ids.pager.count, ids.pager.start = len(view.rows), ids.rows.start
        ids.pager.shown = ids.rows.shown

    def _place_part(self, left: float, top: float, wide: float, foot: float) -> None:
        ids, view = self.ids, self.view
        lines = words.wrapped(view.title, theme.TASK, wide, bold=True)
        high = words.height_of(len(lines), theme.TASK)
        ids.title.place = [left, top, wide, high]
        under = words.height_of(len(words.wrapped(view.under, theme.NOTE, wide)), theme.NOTE)
        ids.under.place = [left, top + high, wide, under]
        y = top + high + under + 14
        ids.shut.opacity, ids.shut.disabled = (1, False) if view.close else (0, True)
        ids.shut.place = [left, y, wide, theme.TARGET]
        if view.close:
            show_plate(ids.shut, view.close)
            y += theme.TARGET + theme.GAP
        paged = len(view.rows) * 132 - 20 > foot - y
        ids.rows.place = [left, y, wide, max(94, foot - y - (114 if paged else 0))]
        ids.pager.place = [left, foot - 94, wide, 94]
        ids.pager.opacity, ids.pager.disabled = (1, False) if paged else (0, True)

    def _closed(self, *_: object) -> None:
        if self.view is not None and self.view.close is not None:
            self.dispatch("on_touched", "close valve", *self.view.close.details)

    def _started(self, rows: PagedRows, _: float) -> None:
        # what the rows settled on, not what was asked for: that may lie past the last page
        if self.view is not None and int(rows.start) != self.view.start:
            self.dispatch("on_touched", "page", int(rows.start))
