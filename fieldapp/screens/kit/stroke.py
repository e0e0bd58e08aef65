"""The geometry of strokes: full corners and dashes."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import hypot

Point = tuple[float, float]


def reach(beyond: Point | None, joint: Point, other: Point) -> float:
    """How many half widths a segment goes past a joint, so that the corner is full."""
    if beyond is None or beyond == joint:
        return 0.0
    ax, ay = joint[0] - other[0], joint[1] - other[1]
    bx, by = beyond[0] - joint[0], beyond[1] - joint[1]
    lengths = hypot(ax, ay) * hypot(bx, by)
    if not lengths:
        return 0.0
    cosine = (ax * bx + ay * by) / lengths
    sine = abs(ax * by - ay * bx) / lengths
    return float(min(1.0, sine / (1 + cosine))) if cosine > -1 else 0.0


def dashes(points: Sequence[Point], dash: Sequence[float]) -> list[tuple[Point, Point]]:
    """The drawn pieces of a dashed line; the pattern runs on round corners."""
    pieces: list[tuple[Point, Point]] = []
    on, left = True, dash[0]
    for (x1, y1), (x2, y2) in pairwise(points):
        length, done = hypot(x2 - x1, y2 - y1), 0.0
        while done < length:
            step = min(left, length - done)
            if on:
                a, b = done / length, (done + step) / length
                pieces.append(
                    (
                        (x1 + (x2 - x1) * a, y1 + (y2 - y1) * a),
                        (x1 + (x2 - x1) * b, y1 + (y2 - y1) * b),
                    )
                )
            done += step
            left -= step
            if left <= 0:
                on = not on
                left = dash[0] if on else dash[1]
    return pieces
