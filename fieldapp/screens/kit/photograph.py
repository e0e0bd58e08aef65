"""A picture from a file, made smaller once, drawn as large as its place allows."""

from __future__ import annotations

from functools import lru_cache
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from kivy.core.image import Image as CoreImage
from kivy.metrics import dp
from kivy.properties import StringProperty

from fieldapp.journal.pictures import PictureRefusedError, scaled
from fieldapp.screens import theme
from fieldapp.screens.kit import words
from fieldapp.screens.kit.drawn import Drawn

if TYPE_CHECKING:
    from kivy.graphics.texture import Texture

    from fieldapp.screens.kit.pen import Pen

_STEP = 160
"""Sizes are made in steps, so that one picture serves places of nearly one size."""


class Photograph(Drawn):
    """Shows the picture at `path` with a thin frame; says so where it cannot be shown."""

    DRAWN_FROM = ("path",)

    path = StringProperty("")

    def draw(self, pen: Pen) -> None:
        """Draw the picture in the middle of its place."""
        if not self.path:
            return
        texture = texture_of(self.path, max(self.width, self.height))
        if texture is None:
            self._draw_none(pen)
            return
        share = min(self.wide / texture.width, self.high / texture.height)
        wide, high = texture.width * share, texture.height * share
        left, top = (self.wide - wide) / 2, (self.high - high) / 2
        pen.image(left, top, wide, high, texture)
        pen.rect(left, top, wide, high, None, "rule", theme.THIN)

    def _draw_none(self, pen: Pen) -> None:
        pen.rect(1, 1, self.wide - 2, self.high - 2, "wash", "rule", theme.THIN)
        lines = words.wrapped("no picture", theme.LEAST_TEXT, self.wide - 8)
        first = self.high / 2 - 12 * (len(lines) - 1) + 8
        pen.lines(self.wide / 2, first, lines, theme.LEAST_TEXT, anchor="middle", ground="wash",
                  room=self.wide - 8)  # fmt: skip


def texture_of(path: str, points: float) -> Texture | None:
    """Return the picture with at most so many points a side; None if it cannot be read."""
    try:
        changed = Path(path).stat().st_mtime_ns
    except OSError:
        return None
    steps = -(-round(points) // round(_STEP * dp(1)))
    return _texture(path, changed, steps * round(_STEP * dp(1)))


@lru_cache(maxsize=32)
def _texture(path: str, changed: int, points: int) -> Texture | None:  # noqa: ARG001 - part of the key
    try:
        return CoreImage(BytesIO(scaled(Path(path), points)), ext="jpg").texture
    except PictureRefusedError:
        return None
