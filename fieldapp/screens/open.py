"""The screen of what is open: groups and counts above, the steps by pages."""

from __future__ import annotations

from kivy.lang import Builder
from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.frame import TALL, header_height
from fieldapp.screens.kit import mark, words
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.paging import PagedRows
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.open_view import OpenView
from fieldapp.screens.rows import fill

Builder.load_file(__file__.replace(".py", ".kv"))

_PAGER = 166


class OpenScreen(Drawn):
    """Shows an `OpenView`; says what was touched."""

    __events__ = ("on_touched",)
    DRAWN_FROM = ("view",)

    view = ObjectProperty(None, allownone=True)

    def __init__(self, **kwargs: object) -> None:
        """Listen to the parts."""
        super().__init__(**kwargs)
        ids = self.ids
        ids.frame.bind(on_touched=lambda _, *what: self.dispatch("on_touched", *what))
        ids.pager.bind(
            on_up=lambda *_: self.ids.rows.page(-1), on_down=lambda *_: self.ids.rows.page(1)
        )
        ids.rows.bind(start=self._started)
        self.fbind("size", self._show)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: OpenView) -> None:
        """Show what is open."""
        self.view = view
        self._show()

    def draw(self, pen: Pen) -> None:
        """Draw the counts of the groups."""
        view: OpenView | None = self.view
        if view is None:
            return
        x, y = 44.0, self._top() + (64 if self.wide < TALL else 62)
        for group in view.groups:
            mark.draw_mark(pen, group.mark, x, y - 8, 13)
            x = pen.text(x + 24, y, group.words, theme.BODY, bold=True) + 44

    def _top(self) -> float:
        return header_height(self.wide) + 10

    def _show(self, *_: object) -> None:
        view: OpenView | None = self.view
        if view is None:
            return
        ids, tall, top = self.ids, self.wide < TALL, self._top()
        ids.frame.view = view.frame
        ids.title.text, ids.phases.text = view.title, view.phases
        ids.title.place = [24, top - 4, self.wide - 48, 40]
        lines = words.wrapped(view.phases, theme.LABEL, self.wide - 48)
        high = words.height_of(len(lines), theme.LABEL)
        ids.phases.place = [24, top + 74, self.wide - 48, max(1, high)]
        start = top + 84 + high
        foot = 238 if tall else 124
        if tall:
            ids.rows.place = [24, start, -24, -(foot + 114)]
            ids.pager.place, ids.pager.direction = [24, -(foot + 94), -24, 94], "row"
        else:
            ids.rows.place = [24, start, self.wide - 68 - _PAGER, self.high - start - foot]
            ids.pager.place = [self.wide - 24 - _PAGER, -(foot + 208), _PAGER, 208]
            ids.pager.direction = "column"
        fill(ids.rows, view.rows, view.start, lambda _, *what: self.dispatch("on_touched", *what))
        ids.pager.count, ids.pager.start = len(view.rows), ids.rows.start
        ids.pager.shown = ids.rows.shown
        paged = len(view.rows) > ids.rows.shown
        ids.pager.opacity, ids.pager.disabled = (1, False) if paged else (0, True)

    def _started(self, rows: PagedRows, _: float) -> None:
        # what the rows settled on, not what was asked for: that may lie past the last page
        if self.view is not None and int(rows.start) != self.view.start:
            self.dispatch("on_touched", "page", int(rows.start))
