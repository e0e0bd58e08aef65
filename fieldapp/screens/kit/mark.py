"""The marks of state: squares are work, discs proof, diamonds judgement, an octagon stop."""

from __future__ import annotations

from collections.abc import Callable

from kivy.properties import NumericProperty, OptionProperty

from fieldapp.screens import theme
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.pen import Pen

# Each kind of mark and the word that stands beside it.
WORDS = {
    "todo": "to do",
    "now": "now",
    "done": "done",
    "unneeded": "not needed",
    "corrected": "corrected",
    "unproven": "unproven",
    "proven": "proven",
    "failed": "failed",
    "deviation": "deviation",
    "near": "too near",
    "accepted": "accepted",
    "notyet": "not yet",
    "hazard": "hazard",
    "energised": "energised",
}
RADIUS = 13
_DIAMOND = 1.18
_OCTAGON = 0.4142
_TRIANGLE = 1.2


class Mark(Drawn):
    """One mark of state in the middle of the widget; its word stands beside it, not in it."""

    DRAWN_FROM = ("kind", "radius")

    kind = OptionProperty("todo", options=list(WORDS))
    radius = NumericProperty(RADIUS)

    def draw(self, pen: Pen) -> None:
        """Draw the mark."""
        draw_mark(pen, self.kind, self.wide / 2, self.high / 2, self.radius)


def draw_mark(pen: Pen, kind: str, x: float, y: float, radius: float = RADIUS) -> None:
    """Draw a mark about a point, in dp."""
    _DRAWINGS[kind](pen, x, y, radius)


def draw_tick(pen: Pen, x: float, y: float, radius: float, ink: str, line: float) -> None:
    """Draw a tick about a point."""
    corners = ((-0.5, 0.02), (-0.12, 0.42), (0.55, -0.42))
    pen.line([(x + radius * across, y + radius * down) for across, down in corners], ink, line)


def draw_deviation_on_pipe(pen: Pen, x: float, y: float, radius: float) -> None:
    """Draw the mark of a deviation with an edge of paper, so that it shows on a full pipe."""
    pen.poly(_diamond(x, y, radius + 4), "paper")
    draw_mark(pen, "deviation", x, y, radius)


def draw_number(pen: Pen, x: float, y: float, number: int) -> None:
    """Draw the disc with a number that says which touch comes first."""
    pen.circle(x, y, 14, "ink")
    pen.text(
        x, y + 8, str(number), theme.LABEL, bold=True, ink="paper", anchor="middle", ground="ink"
    )


def draw_here(
    pen: Pen,
    x: float,
    y: float,
    width: float,
    height: float,
    arm: float = 22,
    line: float = theme.HERE_LINE,
) -> None:
    """Draw the four corner angles around the part in question."""
    for corner_x, corner_y, across, down in (
        (x, y, 1, 1),
        (x + width, y, -1, 1),
        (x, y + height, 1, -1),
        (x + width, y + height, -1, -1),
    ):
        pen.line(
            [
                (corner_x + across * arm, corner_y),
                (corner_x, corner_y),
                (corner_x, corner_y + down * arm),
            ],
            "here",
            line,
        )


def _square(pen: Pen, x: float, y: float, radius: float) -> None:
    pen.rect(x - radius + 1.5, y - radius + 1.5, 2 * radius - 3, 2 * radius - 3, "paper", "ink")


def _now(pen: Pen, x: float, y: float, radius: float) -> None:
    _square(pen, x, y, radius)
    pen.rect(x - radius, y - radius, radius, 2 * radius, "ink")


def _done(pen: Pen, x: float, y: float, radius: float) -> None:
    pen.rect(x - radius, y - radius, 2 * radius, 2 * radius, "ink")
    draw_tick(pen, x, y, radius, "paper", max(3, radius * 0.24))


def _unneeded(pen: Pen, x: float, y: float, radius: float) -> None:
    _square(pen, x, y, radius)
    pen.line([(x - radius * 0.5, y), (x + radius * 0.5, y)])


def _corrected(pen: Pen, x: float, y: float, radius: float) -> None:
    side = radius * 1.3
    pen.rect(x - radius + 1.5, y - radius + 1.5, side, side, "paper", "ink")
    pen.rect(x - radius * 0.3, y - radius * 0.3, side, side, "ink")


def _unproven(pen: Pen, x: float, y: float, radius: float) -> None:
    pen.circle(x, y, radius - 1.5, "paper", "ink")


def _proven(pen: Pen, x: float, y: float, radius: float) -> None:
    pen.circle(x, y, radius, "good")
    draw_tick(pen, x, y, radius, "goodink", max(3, radius * 0.24))


def _failed(pen: Pen, x: float, y: float, radius: float) -> None:
    near = _OCTAGON * radius
    corners = ((near, radius), (radius, near))
    pen.poly(
        [
            (x - corners[0][0], y - corners[0][1]),
            (x + corners[0][0], y - corners[0][1]),
            (x + corners[1][0], y - corners[1][1]),
            (x + corners[1][0], y + corners[1][1]),
            (x + corners[0][0], y + corners[0][1]),
            (x - corners[0][0], y + corners[0][1]),
            (x - corners[1][0], y + corners[1][1]),
            (x - corners[1][0], y - corners[1][1]),
        ],
        "stop",
    )
    pen.rect(x - radius * 0.6, y - radius * 0.17, radius * 1.2, radius * 0.34, "stopink")


def _diamond(x: float, y: float, radius: float) -> list[tuple[float, float]]:
    reach = radius * _DIAMOND
    return [(x, y - reach), (x + reach, y), (x, y + reach), (x - reach, y)]


def _deviation(pen: Pen, x: float, y: float, radius: float) -> None:
    edge = "ink" if theme.look() is theme.SUN else "caution"
    pen.poly(_diamond(x, y, radius), "caution", edge)


def _near(pen: Pen, x: float, y: float, radius: float) -> None:
    sun = theme.look() is theme.SUN
    top, _, bottom, left = _diamond(x, y, radius)
    _deviation(pen, x, y, radius)
    pen.poly([top, bottom, left], "ink" if sun else "cautionink")
    if not sun:
        pen.poly(_diamond(x, y, radius), None, "caution")


def _accepted(pen: Pen, x: float, y: float, radius: float) -> None:
    pen.poly(_diamond(x, y, radius), "ink")
    draw_tick(pen, x, y, radius * 0.85, "paper", max(3, radius * 0.22))


def _not_yet(pen: Pen, x: float, y: float, radius: float) -> None:
    pen.circle(x, y, radius - 1.5, "paper", "ink")
    pen.line([(x, y - radius * 0.62), (x, y), (x + radius * 0.5, y)])


def _triangle(pen: Pen, x: float, y: float, radius: float) -> None:
    reach = radius * _TRIANGLE
    corners = [
        (x, y - reach),
        (x + reach * 1.1, y + reach * 0.8),
        (x - reach * 1.1, y + reach * 0.8),
    ]
    pen.poly(corners, "caution", "cautionink")
    for corner in corners:
        pen.circle(*corner, 1.5, "cautionink")


def _hazard(pen: Pen, x: float, y: float, radius: float) -> None:
    _triangle(pen, x, y, radius)
    reach, half = radius * _TRIANGLE, 1.9 * radius / 13
    pen.rect(x - half, y - reach * 0.42, 2 * half, reach * 0.62, "cautionink")
    pen.rect(x - half, y + reach * 0.36, 2 * half, reach * 0.2, "cautionink")


def _energised(pen: Pen, x: float, y: float, radius: float) -> None:
    _triangle(pen, x, y, radius)
    for part in (
        ((0.12, -0.55), (-0.36, 0.22), (0.05, 0.1)),
        ((0.4, -0.08), (-0.14, 0.72), (-0.1, 0.0)),
    ):
        pen.poly([(x + across * radius, y + down * radius) for across, down in part], "cautionink")


_DRAWINGS: dict[str, Callable[[Pen, float, float, float], None]] = {
    "todo": _square,
    "now": _now,
    "done": _done,
    "unneeded": _unneeded,
    "corrected": _corrected,
    "unproven": _unproven,
    "proven": _proven,
    "failed": _failed,
    "deviation": _deviation,
    "near": _near,
    "accepted": _accepted,
    "notyet": _not_yet,
    "hazard": _hazard,
    "energised": _energised,
}
