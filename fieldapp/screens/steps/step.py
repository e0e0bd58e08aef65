"""The screen of one step: what to do at the left, what it asks for at the right."""

from __future__ import annotations

from kivy.lang import Builder
from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.frame import TALL
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.paging import PagedRows
from fieldapp.screens.rows import fill
from fieldapp.screens.steps.step_view import StepView

Builder.load_file(__file__.replace(".py", ".kv"))

_HIGH, _HIGH_TALL = 101, 130


class StepScreen(Drawn):
    """Shows a `StepView`; says what was touched."""

    __events__ = ("on_touched",)

    view = ObjectProperty(None, allownone=True)

    def __init__(self, **kwargs: object) -> None:
        """Listen to the parts."""
        super().__init__(**kwargs)
        ids = self.ids
        ids.frame.bind(on_touched=lambda _, *what: self.dispatch("on_touched", *what))
        ids.asking.bind(on_part=lambda *_: self.dispatch("on_touched", "hookup"))
        ids.pager.bind(
            on_up=lambda *_: self.ids.rows.page(-1), on_down=lambda *_: self.ids.rows.page(1)
        )
        ids.rows.bind(start=self._started, shown=self._show_pager)
        self.fbind("size", self._show)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: StepView) -> None:
        """Show a step."""
        self.view = view
        self._show()

    def _show(self, *_: object) -> None:
        view: StepView | None = self.view
        if view is None:
            return
        ids = self.ids
        ids.frame.view = view.frame
        ids.asking.view, ids.asking.diagram = view.asking, view.diagram
        self._place_parts(len(view.rows))
        fill(ids.rows, view.rows, view.start, lambda _, *what: self.dispatch("on_touched", *what))
        self._show_pager()

    def _show_pager(self, *_: object) -> None:
        pager, rows = self.ids.pager, self.ids.rows
        pager.count, pager.start, pager.shown = len(rows.rows), rows.start, rows.shown

    def _place_parts(self, count: int) -> None:
        ids = self.ids
        tall = self.wide < TALL
        if tall:
            ids.asking.place = [24, 140, -24, 330]
            left, top, wide, high = 24.0, 490.0, self.wide - 48, 1040.0 - 490
        else:
            ids.asking.place = [24, 90, self.wide - 782, self.high - 214]
            left, top, wide, high = self.wide - 734, 90.0, 710.0, self.high - 214
        ids.rows.row_height = _HIGH_TALL if tall else _HIGH
        paged = count * (ids.rows.row_height + theme.GAP) - theme.GAP > high
        ids.rows.place = [left, top, wide, high - (114 if paged else 0)]
        ids.pager.place = [left, top + high - 94, wide, 94]
        ids.pager.opacity, ids.pager.disabled = (1, False) if paged else (0, True)

    def _started(self, rows: PagedRows, _: float) -> None:
        # what the rows settled on, not what was asked for: that may lie past the last page
        if self.view is not None and int(rows.start) != self.view.start:
            self.dispatch("on_touched", "page", int(rows.start))
