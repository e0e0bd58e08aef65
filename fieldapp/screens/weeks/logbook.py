"""The screen of the logbook: answers above, the chart at the left or above, the ledger beside."""

from __future__ import annotations

from kivy.lang import Builder
from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.frame import TALL, header_height
from fieldapp.screens.kit import words
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.weeks.ledger_table import lines_in
from fieldapp.screens.weeks.logbook_view import LogbookView

Builder.load_file(__file__.replace(".py", ".kv"))

_LARGE, _ANSWERS, _ANSWERS_ON_TALL, _SENTENCE = 44, 100, 126, 28
_CHART_WIDE, _CHART_ON_TALL, _PAGER = 430, 280, 94
_MOST_SENTENCES = 4


class LogbookScreen(Drawn):
    """Shows a `LogbookView`; says what was touched."""

    __events__ = ("on_touched",)
    DRAWN_FROM = ("view",)

    view = ObjectProperty(None, allownone=True)

    def __init__(self, **kwargs: object) -> None:
        """Listen to the parts."""
        super().__init__(**kwargs)
        ids = self.ids
        ids.frame.bind(on_touched=lambda _, *what: self.dispatch("on_touched", *what))
        ids.pager.bind(on_up=lambda *_: self._page(-1), on_down=lambda *_: self._page(1))
        self.fbind("size", self._show)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: LogbookView) -> None:
        """Show a logbook."""
        self.view = view
        self._show()

    def draw(self, pen: Pen) -> None:
        """Draw the three answers and the sentences below them."""
        view: LogbookView | None = self.view
        if view is None:
            return
        top = header_height(self.wide)
        each = (self.wide - 2 * theme.MARGIN) / len(view.answers)
        for at, answer in enumerate(view.answers):
            left = theme.MARGIN + at * each
            pen.text(
                left, top + 54, answer.large, self._letters(answer.large, each - 24), bold=True
            )
            under = words.wrapped(answer.under, theme.LABEL, each - 24)
            pen.lines(left, top + 86, under, theme.LABEL, ink="ink2", room=each - 24, lead=26)
            if at:
                pen.line([(left - 18, top + 14), (left - 18, top + self._answers() - 8)], "rule", 2)
        below = top + self._answers()
        pen.line([(24, below), (self.wide - 24, below)], "ink", 3)
        for at, line in enumerate(self._sentence_lines(view)):
            pen.text(24, below + 26 + at * _SENTENCE, line, theme.LABEL)

    def _answers(self) -> float:
        return _ANSWERS if self.wide >= TALL else _ANSWERS_ON_TALL

    def _letters(self, text: str, room: float) -> float:
        sizes = (_LARGE, 36.0, theme.UNIT, theme.BODY)
        fits = (size for size in sizes if words.width_of(text, size, bold=True) <= room)
        return float(next(fits, theme.LEAST_TEXT))

    def _sentence_lines(self, view: LogbookView) -> list[str]:
        room = self.wide - 2 * theme.MARGIN
        most = _MOST_SENTENCES if self.wide >= TALL else 2 * _MOST_SENTENCES
        lines: list[str] = []
        for sentence in view.sentences:
            more = words.wrapped(sentence, theme.LABEL, room)
            if len(lines) + len(more) <= most:
                lines += more
        return lines

    def _show(self, *_: object) -> None:
        view: LogbookView | None = self.view
        if view is None:
            return
        ids = self.ids
        ids.frame.view = view.frame
        self._arrange_parts(view)
        ids.chart.opacity = 1 if view.chart else 0
        if view.chart is not None:
            ids.chart.chart = view.chart
        ledger, pager = ids.ledger, ids.pager
        ledger.heads, ledger.lines = list(view.heads), [list(row) for row in view.rows]
        ledger.start = min(view.start, max(0, len(view.rows) - 1))
        pager.count, pager.start, pager.shown = len(view.rows), int(ledger.start), ledger.shown
        paged = len(view.rows) > ledger.shown
        pager.opacity, pager.disabled = (1, False) if paged else (0, True)

    def _arrange_parts(self, view: LogbookView) -> None:
        ids, tall = self.ids, self.wide < TALL
        lines = len(self._sentence_lines(view))
        top = header_height(self.wide) + self._answers() + 16 + lines * _SENTENCE + 10
        foot = self.high - (238 if tall else 124)
        if tall:
            ids.chart.place = [24, top, -24, _CHART_ON_TALL]
            below = top + (_CHART_ON_TALL + 20 if view.chart else 0)
            ids.pager.place = [24, foot - _PAGER, -24, _PAGER]
            self._place_ledger(24, below, foot - _PAGER - 20 - below)
            return
        left = 24 + _CHART_WIDE + 28 if view.chart else 24
        ids.pager.place = [24, foot - _PAGER, _CHART_WIDE, _PAGER]
        paged = len(view.rows) > lines_in(foot - top)
        ids.chart.place = [24, top, _CHART_WIDE, foot - top - (_PAGER + 14 if paged else 0)]
        self._place_ledger(left, top, foot - top)

    def _place_ledger(self, left: float, top: float, high: float) -> None:
        ledger = self.ids.ledger
        ledger.place, ledger.shown = [left, top, -24, high], lines_in(high)

    def _page(self, pages: int) -> None:
        ledger = self.ids.ledger
        start = int(ledger.start) + pages * ledger.shown
        last = max(0, (len(ledger.lines) - 1) // ledger.shown * ledger.shown)
        self.dispatch("on_touched", "page", min(max(0, start), last))
