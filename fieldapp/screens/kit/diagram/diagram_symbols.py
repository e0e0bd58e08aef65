"""The symbols of the line diagram, after ISO 14617 and ISA-5.1, drawn with a pen."""

from __future__ import annotations

from collections.abc import Sequence

from fieldapp.screens import theme
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.kit.stroke import Point

_WALL = 3.0


def pipe(pen: Pen, points: Sequence[Point], content: str, bore: float) -> None:
    """Draw a run of pipe with square corners, upright and level pieces only."""
    for wall in (0.0, _WALL):
        for at in range(len(points) - 1):
            left, top, wide, high = _piece(points, at, bore / 2 - wall)
            if not wall:
                pen.rect(left, top, wide, high, "ink")
            else:
                fill(pen, content, left, top, wide, high)


def fill(pen: Pen, content: str, left: float, top: float, wide: float, high: float) -> None:
    """Fill an upright box with the pattern of what it holds; unknown stays empty."""
    if content == "unknown":
        pen.rect(left, top, wide, high, "paper")
    else:
        pen.pattern(content, left, top, wide, high)


def missing_pipe(pen: Pen, start: Point, end: Point, bore: float) -> None:
    """Draw the outline of a level piece that is not there yet."""
    (left, y), (right, _) = start, end
    for aside in (-bore / 2, bore / 2):
        pen.line([(left, y + aside), (right, y + aside)], "rule", 3, theme.WAITING_DASH)


def valve(
    pen: Pen, x: float, y: float, half: tuple[float, float], state: str, *, upright: bool = False
) -> None:
    """Draw a valve: filled is closed, hollow is open, a bar across is not known."""
    long, high = half
    _clear(pen, x, y, long + 3, high + 5, upright=upright)
    ground = "ink" if state == "closed" else "paper"
    for side in (-long, long):
        corners = [(side, -high), (0.0, 0.0), (side, high)]
        pen.poly([_turned(x, y, point, upright=upright) for point in corners], ground, "ink", 3)
    if state == "unknown":
        ends = [(-long * 0.6, 0.0), (long * 0.6, 0.0)]
        pen.line([_turned(x, y, point, upright=upright) for point in ends], "ink", 3)


def driver(pen: Pen, x: float, y: float, half_height: float, box: tuple[float, ...]) -> None:
    """Draw the stem and the driver above a valve that closes by itself."""
    stem, wide, high = box
    foot = y - half_height - stem
    pen.line([(x, y - 2), (x, foot)], "ink", 3)
    pen.rect(x - wide / 2, foot - high, wide, high, "paper", "ink", 3)


def oil_pump(pen: Pen, x: float, y: float, radius: float, *, runs: bool) -> None:
    """Draw a pump that pushes to the right."""
    pen.circle(x, y, radius, "ink" if runs else "paper", "ink", 3)
    tip = [(-0.45, -0.75), (0.85, 0.0), (-0.45, 0.75)]
    pen.poly(_around(x, y, radius, tip), "paper" if runs else "ink")


def vacuum_pump(pen: Pen, x: float, y: float, radius: float, side: int, *, runs: bool) -> None:
    """Draw a vacuum pump; its lines meet towards the outlet: side 1 is right, -1 is left."""
    pen.circle(x, y, radius, "ink" if runs else "paper", "ink", 3)
    for way in (-1, 1):
        ends = [(-0.55 * side, 0.8 * way), (0.93 * side, 0.3 * way)]
        pen.line(_around(x, y, radius, ends), "paper" if runs else "ink", 3)


def arrow(pen: Pen, x: float, y: float, side: int, size: float) -> None:
    """Draw an arrow head with its tip at a point."""
    back = x - side * size * 1.4
    pen.poly([(x, y), (back, y - size), (back, y + size)], "ink")


def blank(pen: Pen, x: float, y: float, half: float) -> None:
    """Draw the blank flange that ends a pipe."""
    for aside in (-4, 5):
        pen.rect(x + aside - 2.5, y - half, 5, 2 * half, "ink")


def instrument(pen: Pen, x: float, y: float, radius: float, letters: str) -> None:
    """Draw an instrument: a circle with its letters after ISA-5.1."""
    pen.circle(x, y, radius, "paper", "ink", 3)
    pen.text(x, y + 8, letters, theme.LABEL, bold=True, anchor="middle")


def supply(pen: Pen, x: float, y: float, radius: float, *, runs: bool) -> None:
    """Draw the electrical supply: a circle with a wave; filled is on."""
    pen.circle(x, y, radius, "ink" if runs else "paper", "ink", 3)
    wave = [(-0.6, 0.05), (-0.45, -0.3), (-0.3, -0.38), (-0.15, -0.3), (0.15, 0.3)]
    wave += [(0.3, 0.38), (0.45, 0.3), (0.6, -0.05)]
    pen.curve(_around(x, y, radius, wave), "paper" if runs else "ink", 3)


def earth(pen: Pen, x: float, y: float) -> None:
    """Draw the sign of earth below a point."""
    pen.line([(x, y), (x, y + 8)], "ink", 4)
    for at, half in enumerate((15, 10, 5)):
        pen.rect(x - half, y + 8 + at * 6, 2 * half, 3, "ink")


def _piece(points: Sequence[Point], at: int, half: float) -> tuple[float, float, float, float]:
    (x1, y1), (x2, y2) = points[at], points[at + 1]
    before = half if at else 0.0
    after = half if at + 2 < len(points) else 0.0
    level = y1 == y2
    start, end = (x1, x2) if level else (y1, y2)
    way = 1 if end >= start else -1
    start, end = sorted((start - way * before, end + way * after))
    if level:
        return start, y1 - half, end - start, 2 * half
    return x1 - half, start, 2 * half, end - start


def _clear(
    pen: Pen, x: float, y: float, half_long: float, half_high: float, *, upright: bool
) -> None:
    across, down = (half_high, half_long) if upright else (half_long, half_high)
    pen.rect(x - across, y - down, 2 * across, 2 * down, "paper")


def _turned(x: float, y: float, point: Point, *, upright: bool) -> Point:
    along, aside = point
    return (x + aside, y + along) if upright else (x + along, y + aside)


def _around(x: float, y: float, radius: float, points: Sequence[Point]) -> list[Point]:
    return [(x + radius * across, y + radius * down) for across, down in points]
