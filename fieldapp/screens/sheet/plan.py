"""The screen of the plan: the oil's chart at the left or above, the answers by pages."""

from __future__ import annotations

from kivy.lang import Builder
from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.frame import TALL, header_height
from fieldapp.screens.kit import words
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.paging import PagedRows
from fieldapp.screens.rows import fill
from fieldapp.screens.sheet.plan_view import PlanView

Builder.load_file(__file__.replace(".py", ".kv"))

_BESIDE, _TITLE, _PAGER = 440, 44, 94
_CHART_ON_TALL = 330


class PlanScreen(Drawn):
    """Shows a `PlanView`; says what was touched."""

    __events__ = ("on_touched",)

    view = ObjectProperty(None, allownone=True)

    def __init__(self, **kwargs: object) -> None:
        """Listen to the parts."""
        super().__init__(**kwargs)
        ids = self.ids
        ids.frame.bind(on_touched=lambda _, *what: self.dispatch("on_touched", *what))
        ids.pager.bind(on_up=lambda *_: ids.rows.page(-1), on_down=lambda *_: ids.rows.page(1))
        ids.rows.bind(start=self._started, shown=self._show_pager)
        self.fbind("size", self._show)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: PlanView) -> None:
        """Show a plan."""
        self.view = view
        self._show()

    def _show(self, *_: object) -> None:
        view: PlanView | None = self.view
        if view is None:
            return
        ids = self.ids
        ids.frame.view = view.frame
        ids.title.text, ids.under.text = view.title, view.under
        if view.chart is not None:
            ids.chart.chart = view.chart
        ids.chart.opacity = 0 if view.chart is None else 1
        self._arrange_parts(view)
        fill(ids.rows, view.rows, view.start, lambda _, *what: self.dispatch("on_touched", *what))
        self._show_pager()

    def _arrange_parts(self, view: PlanView) -> None:
        ids, tall = self.ids, self.wide < TALL
        top, foot = header_height(self.wide) + 12, self.high - 124
        wide = self.wide - 48 if tall else _BESIDE
        ids.title.place = [24, top, wide, _TITLE]
        lines = len(words.wrapped(view.under, theme.LABEL, wide))
        under = words.height_of(lines, theme.LABEL)
        ids.under.place = [24, top + _TITLE, wide, under]
        below = top + _TITLE + under + 14
        ids.pager.place = [24, foot - _PAGER, wide, _PAGER]
        if not tall:
            ids.chart.place = [24, below, wide, foot - _PAGER - 20 - below]
            ids.rows.place = [48 + _BESIDE, top, -24, foot - top]
            return
        ids.chart.place = [24, below, wide, _CHART_ON_TALL]
        start = below + (_CHART_ON_TALL + 20 if view.chart else 0)
        ids.rows.place = [24, start, wide, foot - _PAGER - 20 - start]

    def _show_pager(self, *_: object) -> None:
        pager, rows = self.ids.pager, self.ids.rows
        pager.count, pager.start, pager.shown = len(rows.rows), rows.start, rows.shown
        paged = len(rows.rows) > rows.shown
        pager.opacity, pager.disabled = (1, False) if paged else (0, True)

    def _started(self, rows: PagedRows, _: float) -> None:
        # what the rows settled on, not what was asked for: that may lie past the last page
        if self.view is not None and int(rows.start) != self.view.start:
            self.dispatch("on_touched", "page", int(rows.start))
