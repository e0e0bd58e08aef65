"""The ledger drawn as a table: one line a list, the newest first, by pages."""

from __future__ import annotations

from kivy.properties import ListProperty, NumericProperty

from fieldapp.screens import theme
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.pen import Pen

LINE, HEAD = 44, 40
# Where each column ends (figures) or begins (words), as a share of a wide table's width.
_COLUMNS = (
    ("right", 0.065), ("left", 0.085), ("left", 0.188), ("right", 0.545), ("right", 0.622),
    ("right", 0.695), ("right", 0.77), ("right", 0.86), ("right", 1.0),
)  # fmt: skip


class Ledger(Drawn):
    """Shows heads and lines from `start` on, as many as `shown`."""

    DRAWN_FROM = ("heads", "lines", "start", "shown")

    heads = ListProperty([])
    lines = ListProperty([])
    start = NumericProperty(0)
    shown = NumericProperty(1)

    def draw(self, pen: Pen) -> None:
        """Draw the heads, a line below them, and the lines of the page."""
        self._row(pen, HEAD - 14, tuple(self.heads), "ink2", bold=False)
        pen.line([(0, HEAD), (self.wide, HEAD)], "ink", 3)
        start = int(self.start)
        for at, row in enumerate(self.lines[start : start + int(self.shown)]):
            base = HEAD + at * LINE + 31
            self._row(pen, base, tuple(row), "ink", bold=True)
            pen.line([(0, HEAD + (at + 1) * LINE), (self.wide, HEAD + (at + 1) * LINE)], "rule", 2)

    def _row(self, pen: Pen, base: float, words: tuple[str, ...], ink: str, *, bold: bool) -> None:
        for at, (word, (anchor, share)) in enumerate(zip(words, _COLUMNS, strict=False)):
            heavy = bold and at == len(_COLUMNS) - 1
            pen.text(self.wide * share, base, word, theme.LABEL, anchor=anchor, ink=ink, bold=heavy)


def lines_in(high: float) -> int:
    """Return how many lines fit into a height.

    >>> lines_in(300)
    5
    """
    return max(1, int((high - HEAD) // LINE))
