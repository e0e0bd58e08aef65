"""What a blank is put together from: pieces with a height, that stay whole on a page."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD, lines, shortened
from fieldapp.record.pages.kit.operators import colour
from fieldapp.record.pages.kit.paper import (
    BAD,
    INK,
    RULE,
    SECONDARY,
    TEXT_WIDTH,
    WHITE,
    Paper,
)

TOP = 56.0
FIRST = 5
"""So many pieces of a step are never left alone at the foot of a page."""
SIGNALS = {
    "DANGER": (BAD, WHITE),
    "WARNING": (colour("#E07B00"), INK),
    "CAUTION": (colour("#F2C500"), INK),
    "NOTICE": (colour("#1B4F8A"), WHITE),
}
"""The colours of ANSI Z535.1 and ISO 3864-1, for print; the word says it without them."""


@dataclass(frozen=True, slots=True)
class Piece:
    """Something that stays whole: how high it is, and how it is drawn from its upper edge."""

    height: float
    draw: Callable[[Paper, float], None]


@dataclass
class Stack:
    """Pieces down the pages; `opened` draws the frame of a page."""

    paper: Paper
    opened: Callable[[], None]
    y: float = field(default=TOP)

    def __post_init__(self) -> None:
        """Open the first page."""
        self.opened()

    @property
    def left(self) -> float:
        """Return how much of the page is left."""
        return self.paper.bottom - self.y

    def next_page(self) -> None:
        """Go to the next page."""
        self.paper.turn()
        self.opened()
        self.y = TOP

    def put(self, *pieces: Piece) -> None:
        """Put pieces one below the other, each whole."""
        for piece in pieces:
            if piece.height > self.left:
                self.next_page()
            piece.draw(self.paper, self.y)
            self.y += piece.height

    def together(self, pieces: Iterable[Piece], again: Piece) -> None:
        """Put pieces on one page if they fit; else go on, each further page under `again`."""
        found = tuple(pieces)
        first = sum(piece.height for piece in found[:FIRST])
        whole = sum(piece.height for piece in found)
        if whole > self.left and (whole <= self.paper.bottom - TOP or first > self.left):
            self.next_page()
        for piece in found:
            if piece.height > self.left:
                self.next_page()
                self.put(again)
            self.put(piece)


def space(height: float) -> Piece:
    """Return an empty piece."""
    return Piece(height, lambda paper, y: None)  # noqa: ARG005 - nothing is drawn


def words(
    text: str, size: float = 8.4, font: str = REGULAR, left: float = 0, *, colour: str = INK,
    room: float = TEXT_WIDTH,
) -> Piece:  # fmt: skip
    """Return a text over as many lines as it needs."""
    found = lines(text, room - left, size, font)
    step = size * 1.24

    def draw(paper: Paper, y: float) -> None:
        for place, line in enumerate(found):
            paper.text(left, y + size + step * place, line, size, font, colour)

    return Piece(step * len(found) + 2, draw)


def heading(title: str, note: str = "") -> Piece:
    """Return the head of a phase or of a table."""

    def draw(paper: Paper, y: float) -> None:
        paper.box(0, y + 4, TEXT_WIDTH, 17, INK)
        end = paper.text(6, y + 16, title, 10.5, SEMIBOLD, WHITE)
        paper.text(end + 10, y + 16, shortened(note, TEXT_WIDTH - end - 16, 8), 8, REGULAR, WHITE)

    return Piece(26, draw)


def caution(word: str, text: str) -> Piece:
    """Return a caution: the signal word in its colour, and what can happen."""
    found = lines(text, TEXT_WIDTH - 100, 9, SEMIBOLD)
    height = 11.4 * len(found) + 7
    fill, ink = SIGNALS[word]

    def draw(paper: Paper, y: float) -> None:
        paper.box(22, y + 1, TEXT_WIDTH - 22, height, None, INK, 0.8)
        paper.box(22, y + 1, 66, height, fill, INK, 0.8)
        paper.text(55, y + 1 + height / 2 + 3.4, word, 9, SEMIBOLD, ink, "middle")
        for place, line in enumerate(found):
            paper.text(95, y + 12 + 11.4 * place, line, 9, SEMIBOLD)

    return Piece(height + 5, draw)


def table(heads: tuple[tuple[str, float], ...], rows: Iterable[tuple[str, ...]], high: float,
          left: float = 0) -> Piece:  # fmt: skip
    """Return a ruled table to write in; each head has its width."""
    found = tuple(rows)
    wide = sum(width for _, width in heads)

    def draw(paper: Paper, y: float) -> None:
        x = left
        for place, (head, width) in enumerate(heads):
            paper.text(x + 3, y + 9, shortened(head, width - 4, 7), 7, SEMIBOLD, SECONDARY)
            for down, row in enumerate(found):
                cell = row[place] if place < len(row) else ""
                paper.text(x + 3, y + 12 + high * down + high / 2 + 3,
                           shortened(cell, width - 5, 8), 8)  # fmt: skip
            if place:
                paper.line(x, y + 12, x, y + 12 + high * len(found), 0.5, RULE)
            x += width
        for down in range(len(found) + 1):
            paper.line(left, y + 12 + high * down, left + wide, y + 12 + high * down, 0.5, RULE)
        for side in (left, left + wide):
            paper.line(side, y + 12, side, y + 12 + high * len(found), 0.5, RULE)

    return Piece(12 + high * len(found) + 5, draw)
