"""Charts beside their tables: axes from zero, points measured, lines fitted, limits hatched."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import ceil, floor, log10

from fieldapp.record.pages.kit.lettering import MINUS, REGULAR, SEMIBOLD
from fieldapp.record.pages.kit.operators import Colour, Points
from fieldapp.record.pages.kit.paper import (
    ALLOWED,
    BAD,
    HAIR,
    INK,
    RULE,
    SECONDARY,
    WHITE,
    Paper,
)

LABEL_SPACE = 22.0
MOST_STEPS = 6
ABOVE, BELOW = -1, 1


@dataclass(frozen=True, slots=True)
class Chart:
    """A field of a page with its two axes; `spans` are (least, most) across and up."""

    paper: Paper
    left: float
    top: float
    wide: float
    high: float
    across: tuple[float, float]
    up: tuple[float, float]

    def x(self, value: float) -> float:
        """Return where a value stands across."""
        least, most = self.across
        return self.left + (value - least) / (most - least) * self.wide

    def y(self, value: float) -> float:
        """Return where a value stands down the page."""
        least, most = self.up
        return self.top + self.high - (value - least) / (most - least) * self.high

    def axes(
        self,
        title: str,
        below: str,
        ticks_across: Sequence[float],
        ticks_up: Sequence[float],
        worded: Callable[[float], str] = "{:g}".format,
    ) -> None:
        """Draw the axes with their ticks, the title above and the words below."""
        paper, foot, end = self.paper, self.top + self.high, self.left + self.wide
        for value in ticks_up:
            paper.line(self.left, self.y(value), end, self.y(value), 0.25, HAIR)
            paper.text(self.left - 4, self.y(value) + 2.3, worded(value), 6.8, REGULAR,
                       SECONDARY, "right")  # fmt: skip
        paper.line(self.left, foot, end, foot, 0.5, INK)
        for value in ticks_across:
            paper.line(self.x(value), foot, self.x(value), foot + 2.5, 0.5, INK)
            paper.text(self.x(value), foot + 9.5, worded(value), 6.8, REGULAR, SECONDARY,
                       "middle")  # fmt: skip
        paper.text(self.left - LABEL_SPACE, self.top - 6, title, 7.2, SEMIBOLD)
        paper.text(end, foot + 19, below, 6.8, REGULAR, SECONDARY, "right")

    def curve(
        self, points: Points, colour: Colour = INK, thick: float = 1, dash: tuple[float, ...] = ()
    ) -> None:
        """Draw a line through points."""
        placed = [(self.x(x), self.y(y)) for x, y in points]
        self.paper.shape(placed, None, colour, thick, dash, closed=False)

    def dots(self, points: Points, colour: Colour = INK, radius: float = 1.8) -> None:
        """Draw measured points."""
        for x, y in points:
            self.paper.disc(self.x(x), self.y(y), radius, colour)

    def rings(self, points: Points, colour: Colour, radius: float = 1.9) -> None:
        """Draw points of what no longer stands."""
        for x, y in points:
            self.paper.disc(self.x(x), self.y(y), radius, WHITE, colour, 0.7)

    def limit(self, value: float, words: str, side: int = ABOVE) -> None:
        """Draw a limit; short ticks slant to the side that is not allowed."""
        y, end = self.y(value), self.left + self.wide
        self.paper.line(self.left, y, end, y, 0.8, BAD)
        place = self.left
        while place <= end - 3:
            self.paper.line(place, y, place + 2.6, y + 2.6 * side, 0.4, BAD)
            place += 5
        self.paper.patch(self.left + 4, y - 4.6, words, 7, SEMIBOLD, BAD)


def number(text: str) -> float:
    """Return what a typed figure means, for a chart.

    >>> number("12,5")
    12.5
    """
    return float(text.replace(",", ".").replace(MINUS, "-"))


def ticks_to(most: float) -> tuple[float, ...]:
    """Return round values from zero that reach `most`.

    >>> ticks_to(843)
    (0.0, 200.0, 400.0, 600.0, 800.0, 1000.0)
    """
    if most <= 0:
        return (0.0, 1.0)
    power = 10.0 ** floor(log10(most))
    for part in (0.1, 0.2, 0.25, 0.5, 1.0, 2.0, 2.5, 5.0):
        step = power * part
        steps = ceil(most / step - 1e-9)
        if steps <= MOST_STEPS:
            break
    return tuple(round(step * place, 9) for place in range(steps + 1))


def track(
    paper: Paper,
    x: float,
    y: float,
    value: float,
    spread: float,
    low: float | None,
    high: float | None,
    wide: float = 76,
) -> None:
    """Draw one value against its limits: the bar is allowed, the thick line is ± uncertainty."""
    least, most = _ends(value, spread, low, high)

    def at(number: float) -> float:
        return x + (number - least) / (most - least) * wide

    middle = y - 2.6
    begin = x if low is None else at(low)
    end = x + wide if high is None else at(high)
    paper.box(begin, middle - 2, max(0.0, end - begin), 4, ALLOWED)
    paper.line(x, middle, x + wide, middle, 0.4, RULE)
    for bound, side in ((low, -1), (high, 1)):
        if bound is not None:
            _bound(paper, at(bound), middle, side)
    inside = (low is None or value >= low) and (high is None or value <= high)
    colour = INK if inside else BAD
    if spread:
        paper.line(max(x, at(value - spread)), middle, min(x + wide, at(value + spread)), middle,
                   1.6, colour)  # fmt: skip
    if inside:
        paper.disc(at(value), middle, 2.3, colour)
    else:
        paper.box(at(value) - 2.2, middle - 2.2, 4.4, 4.4, colour)


def _ends(
    value: float, spread: float, low: float | None, high: float | None
) -> tuple[float, float]:
    """Return the ends of a track: room on the side that is not allowed, and round the value."""
    known = [value - spread, value + spread, *(b for b in (low, high) if b is not None)]
    least, most = min(known), max(known)
    room = (most - least) * 0.22 or abs(most) * 0.22 or 1.0
    least = least - room
    if min(value, value - spread, low if low is not None else 0) >= 0 and low is None:
        least = 0.0
    return least, most + room


def _bound(paper: Paper, x: float, middle: float, side: int) -> None:
    paper.line(x, middle - 4.2, x, middle + 4.2, 1, INK)
    for place in range(3):
        down = middle - 3.6 + place * 3
        paper.line(x, down, x + side * 3, down + 1.4, 0.4, INK)
