"""The geometry of strokes: full corners, dashes, and a pen that turns back."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import hypot

Point = tuple[float, float]
GENTLE = 0.5  # the cosine of a turn of 60 degrees


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


def smooth_parts(points: Sequence[Point]) -> list[list[Point]]:
    """The parts of a drawn line that turn gently; a sharp turn would grow a spike."""
    parts: list[list[Point]] = [[points[0]]]
    for point in points[1:]:
        part = parts[-1]
        if point == part[-1]:
            continue
        if len(part) > 1 and _turns_sharply(part[-2], part[-1], point):
            part = [part[-1]]
            parts.append(part)
        part.append(point)
    return [part for part in parts if len(part) > 1]


def _turns_sharply(before: Point, corner: Point, after: Point) -> bool:
    ax, ay = corner[0] - before[0], corner[1] - before[1]
    bx, by = after[0] - corner[0], after[1] - corner[1]
    return ax * bx + ay * by < GENTLE * hypot(ax, ay) * hypot(bx, by)


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
