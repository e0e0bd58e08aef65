"""Draws flat shapes in dp from a widget's upper left corner, y downward, in the theme's colours."""

from __future__ import annotations

from itertools import pairwise
from math import floor, hypot
from typing import TYPE_CHECKING

from kivy.graphics import Color, Mesh, Rectangle, SmoothEllipse, SmoothLine
from kivy.metrics import dp

from fieldapp.screens import theme
from fieldapp.screens.kit import pattern, words
from fieldapp.screens.kit.stroke import Point, dashes, reach

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from kivy.graphics import InstructionGroup
    from kivy.graphics.texture import Texture

_LINE_POINTS = 1000
_EDGE = 0.55


class Pen:
    """Adds shapes to one group of instructions."""

    def __init__(self, group: InstructionGroup, left: float, top: float) -> None:
        """Draw into a group; left and top are window pixels of the sheet's corner."""
        self._group = group
        self._left = left
        self._top = top
        self._density = dp(1)
        self.texts: list[words.Written] = []

    def rect(
        self,
        x: float,
        y: float,
        width: float,
        height: float,
        fill: str | None = None,
        stroke: str | None = None,
        line: float = theme.LINE,
        dash: Sequence[float] = (),
    ) -> None:
        """Draw an upright rectangle; its frame lies half inside and half outside, as on paper."""
        if fill:
            self._colour(fill)
            self._box(x, y, width, height)
        if stroke:
            corners = [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]
            self.line([*corners, corners[0]], stroke, line, dash)

    def pattern(self, name: str, x: float, y: float, width: float, height: float) -> None:
        """Fill an upright rectangle with a volume's pattern, aligned to the sheet's corner."""
        if width <= 0 or height <= 0:
            return
        across, down = pattern.TILES[name]
        left, right = x / across, (x + width) / across
        bottom, top = -(y + height) / down, -y / down
        self._group.add(Color(1, 1, 1, 1))
        self._box(
            x,
            y,
            width,
            height,
            texture=pattern.texture_of(name, self._density),
            tex_coords=(left, bottom, right, bottom, right, top, left, top),
        )

    def poly(
        self,
        points: Sequence[Point],
        fill: str | None = None,
        stroke: str | None = None,
        line: float = theme.LINE,
        dash: Sequence[float] = (),
    ) -> None:
        """Draw a closed shape; a filled one is seen whole from its first point."""
        if fill:
            self._colour(fill)
            self._mesh(points)
        if stroke:
            self.line([*points, points[0]], stroke, line, dash)

    def line(
        self,
        points: Sequence[Point],
        stroke: str = "ink",
        line: float = theme.LINE,
        dash: Sequence[float] = (),
    ) -> None:
        """Draw a broken line with mitred joints; two equal ends close it."""
        self._colour(stroke)
        if dash:
            for start, end in dashes(points, dash):
                self._segment(start, end, line, 0, 0)
            return
        last = len(points) - 2
        closed = points[0] == points[-1]
        for at, (start, end) in enumerate(pairwise(points)):
            before = points[at - 1] if at else (points[-2] if closed else None)
            after = points[at + 2] if at < last else (points[1] if closed else None)
            self._segment(start, end, line, reach(before, start, end), reach(after, end, start))

    def curve(self, points: Sequence[Point], stroke: str = "ink", line: float = theme.LINE) -> None:
        """Draw a smooth line of many points, in pieces that the graphics can hold."""
        self._colour(stroke)
        for at in range(0, max(1, len(points) - 1), _LINE_POINTS - 1):
            piece = points[at : at + _LINE_POINTS]
            flat = [part for point in piece for part in self._at(*point)]
            self._group.add(SmoothLine(points=flat, width=line * self._density / 2))

    def circle(
        self,
        x: float,
        y: float,
        radius: float,
        fill: str | None = None,
        stroke: str | None = None,
        line: float = theme.LINE,
    ) -> None:
        """Draw a disc, a ring on a ground, or both; a ring without fill is a line."""
        if stroke and fill:
            self._disc(x, y, radius + line / 2, stroke)
            self._disc(x, y, radius - line / 2, fill)
        elif fill:
            self._disc(x, y, radius, fill)
        elif stroke:
            self._colour(stroke)
            left, bottom = self._at(x, y)
            self._group.add(
                SmoothLine(
                    circle=(left, bottom, radius * self._density),
                    width=line * self._density / 2,
                )
            )

    def text(
        self,
        x: float,
        baseline: float,
        text: str,
        size: float = theme.BODY,
        *,
        bold: bool = False,
        ink: str = "ink",
        anchor: str = "left",
        ground: str = "paper",
        room: float | None = None,
    ) -> float:
        """Write one line and return its right end; room is the width it may take."""
        if not text:
            return x
        texture = words.texture_of(text, round(size * self._density), bold)
        width = texture.width / self._density
        left = x - {"left": 0.0, "middle": width / 2, "right": width}[anchor]
        top = baseline - words.ascent(size)
        self._colour(ink)
        pixel_left, pixel_top = self._at(left, top)
        self._group.add(
            Rectangle(
                texture=texture,
                pos=(round(pixel_left), round(pixel_top) - texture.height),
                size=texture.size,
            )
        )
        box = (round(pixel_left), round(pixel_top) - texture.height, texture.width, texture.height)
        self.texts.append(words.Written(text, size, bold, ink, ground, box, _fits(width, room)))
        return float(left + width)

    def lines(
        self,
        x: float,
        baseline: float,
        lines: Iterable[str],
        size: float = theme.BODY,
        *,
        bold: bool = False,
        ink: str = "ink",
        anchor: str = "left",
        ground: str = "paper",
        room: float | None = None,
        lead: float | None = None,
    ) -> float:
        """Write lines below each other and return the baseline of the last."""
        step = lead or round(size * theme.LINE_HEIGHT)
        for at, text in enumerate(lines):
            self.text(
                x,
                baseline + at * step,
                text,
                size,
                bold=bold,
                ink=ink,
                anchor=anchor,
                ground=ground,
                room=room,
            )
            last = baseline + at * step
        return last

    def image(self, x: float, y: float, width: float, height: float, texture: Texture) -> None:
        """Draw a picture in its own colours."""
        self._group.add(Color(1, 1, 1, 1))
        self._box(x, y, width, height, texture=texture)

    def _colour(self, role: str) -> None:
        self._group.add(Color(*theme.colour(role)))

    def _at(self, x: float, y: float) -> Point:
        return (self._left + x * self._density, self._top - y * self._density)

    def _box(self, x: float, y: float, width: float, height: float, **kwargs: object) -> None:
        left, bottom = self._at(x, y + height)
        right, top = self._at(x + width, y)
        left, bottom, right, top = (floor(edge + 0.5) for edge in (left, bottom, right, top))
        self._group.add(Rectangle(pos=(left, bottom), size=(right - left, top - bottom), **kwargs))

    def _disc(self, x: float, y: float, radius: float, role: str) -> None:
        self._colour(role)
        left, bottom = self._at(x - radius, y + radius)
        side = 2 * radius * self._density
        self._group.add(SmoothEllipse(pos=(left, bottom), size=(side, side)))

    def _mesh(self, points: Sequence[Point]) -> None:
        placed = [self._at(*point) for point in points]
        vertices = [part for x, y in placed for part in (x, y, 0, 0)]
        self._group.add(
            Mesh(vertices=vertices, indices=list(range(len(placed))), mode="triangle_fan")
        )
        for (x1, y1), (x2, y2) in zip(placed, [*placed[1:], placed[0]], strict=True):
            if x1 != x2 and y1 != y2:
                self._group.add(SmoothLine(points=[x1, y1, x2, y2], width=_EDGE))

    def _segment(self, start: Point, end: Point, line: float, before: float, after: float) -> None:
        (x1, y1), (x2, y2) = start, end
        length = hypot(x2 - x1, y2 - y1)
        if not length:
            return
        along = ((x2 - x1) / length, (y2 - y1) / length)
        half = line / 2
        x1, y1 = x1 - along[0] * half * before, y1 - along[1] * half * before
        x2, y2 = x2 + along[0] * half * after, y2 + along[1] * half * after
        if 0 not in along:
            half -= _EDGE
        aside = (-along[1] * half, along[0] * half)
        if 0 in along:
            left, top = min(x1, x2) - abs(aside[0]), min(y1, y2) - abs(aside[1])
            self._box(left, top, abs(x2 - x1) + 2 * abs(aside[0]), abs(y2 - y1) + 2 * abs(aside[1]))
            return
        self._mesh(
            [
                (x1 + aside[0], y1 + aside[1]),
                (x2 + aside[0], y2 + aside[1]),
                (x2 - aside[0], y2 - aside[1]),
                (x1 - aside[0], y1 - aside[1]),
            ]
        )


def _fits(width: float, room: float | None) -> bool:
    return room is None or width <= room + 1
