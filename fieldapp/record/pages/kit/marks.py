"""The marks of a record: the shape carries the verdict, colour only helps.

Solid = stands now, outline = history.
"""

from fieldapp.record.pages.kit.lettering import BOLD, REGULAR, SEMIBOLD
from fieldapp.record.pages.kit.operators import Colour
from fieldapp.record.pages.kit.paper import (
    ACCEPTED,
    BAD,
    GOOD,
    INK,
    RULE,
    SECONDARY,
    WHITE,
    Paper,
)

INSIDE, OUTSIDE, SETTLED, TICK, DASH = "inside", "outside", "settled", "tick", "dash"
PAST_INSIDE, PAST_OUTSIDE, OPEN = "past inside", "past outside", "open"
COLOURS = {INSIDE: GOOD, OUTSIDE: BAD, PAST_OUTSIDE: BAD, SETTLED: INK}
STRONG = (INSIDE, OUTSIDE, SETTLED, PAST_OUTSIDE)


def mark_of(place: str, *, standing: bool = True, settled: bool = False) -> str:
    """Return the mark of a place against the limits."""
    if place in {"outside", "too near"}:
        if not standing:
            return PAST_OUTSIDE
        return SETTLED if settled else OUTSIDE
    if place == "inside":
        return INSIDE if standing else PAST_INSIDE
    return {"done": TICK, "missing": OPEN}.get(place, DASH)


def mark(paper: Paper, kind: str, x: float, y: float, size: float = 7) -> None:
    """Draw a mark about x, y."""
    half = size / 2
    match kind:
        case "inside":
            paper.disc(x, y, half, GOOD)
            _tick(paper, x, y, half, WHITE)
        case "past inside":
            paper.disc(x, y, half - 0.4, WHITE, GOOD, 0.8)
            _tick(paper, x, y, half * 0.88, GOOD)
        case "outside":
            paper.box(x - half * 0.9, y - half * 0.9, half * 1.8, half * 1.8, BAD)
            _cross(paper, x, y, half, WHITE)
        case "past outside":
            edge = half * 0.9 - 0.35
            paper.box(x - edge, y - edge, 2 * edge, 2 * edge, WHITE, BAD, 0.8)
            _cross(paper, x, y, half, BAD)
        case "settled":
            _diamond(paper, x, y, half * 1.12)
        case "tick":
            points = [(-0.7, 0.05), (-0.18, 0.62), (0.8, -0.62)]
            paper.shape([(x + half * a, y + half * b) for a, b in points], None, GOOD,
                        size * 0.17, closed=False)  # fmt: skip
        case "open":
            paper.box(x - half * 0.8, y - half * 0.8, half * 1.6, half * 1.6, None, RULE, 0.7)
        case _:
            paper.line(x - half * 0.7, y, x + half * 0.7, y, 0.8, RULE)


def _tick(paper: Paper, x: float, y: float, half: float, colour: Colour) -> None:
    points = [(-0.48, 0.04), (-0.12, 0.42), (0.52, -0.4)]
    paper.shape([(x + half * a, y + half * b) for a, b in points], None, colour, half * 0.26,
                closed=False)  # fmt: skip


def _cross(paper: Paper, x: float, y: float, half: float, colour: Colour) -> None:
    arm = 0.45 * half
    for slope in (-1, 1):
        paper.shape([(x - arm, y - arm * slope), (x + arm, y + arm * slope)], None, colour,
                    half * 0.26, closed=False)  # fmt: skip


def _diamond(paper: Paper, x: float, y: float, half: float) -> None:
    top, bottom = (x, y - half), (x, y + half)
    paper.shape([top, (x + half, y), bottom, (x - half, y)], WHITE, INK, 0.7)
    paper.shape([top, bottom, (x - half, y)], ACCEPTED, INK, 0.7)


def verdict(
    paper: Paper,
    kind: str,
    x: float,
    y: float,
    words: str,
    size: float = 7.8,
    mark_size: float = 7,
    room: float | None = None,
) -> float:
    """Draw a mark and write words after it with their baseline at y; return where they end."""
    mark(paper, kind, x + mark_size / 2, y - size * 0.325, mark_size)
    font = SEMIBOLD if kind in STRONG else REGULAR
    colour = COLOURS.get(kind, SECONDARY)
    return paper.text(x + mark_size + 3.5, y, words, size, font, colour, room=room)


def numbered(paper: Paper, number: str, x: float, y: float, state: str) -> None:
    """Draw the number of a shutdown: a disc if proven, a square if failed, outline if not yet."""
    if state == "proven":
        paper.disc(x, y, 5.4, GOOD)
    elif state == "failed":
        paper.box(x - 5, y - 5, 10, 10, BAD)
    else:
        paper.disc(x, y, 5.1, WHITE, RULE, 0.8)
    colour = INK if state == "open" else WHITE
    paper.text(x, y + 2.5, number, 7.2, BOLD, colour, "middle")
