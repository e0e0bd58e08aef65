"""Measures, wraps and renders words in the theme's type."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import ceil
from typing import TYPE_CHECKING

from kivy.core.text import Label
from kivy.metrics import dp

from fieldapp.screens import theme

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from kivy.graphics.texture import Texture

# Share of the size above the baseline, from the font's own table (1930 of 2000).
_ASCENT = 0.965


@dataclass(frozen=True, slots=True)
class Written:
    """One line of text as it stands on the window, for the tests that walk the screens."""

    text: str
    size: float
    bold: bool
    ink: str
    ground: str
    box: tuple[int, int, int, int]
    fits: bool


def ascent(size: float) -> float:
    """Dp from the top of a line's texture to its baseline, a whole number of pixels."""
    density = float(dp(1))
    return ceil(size * density * _ASCENT) / density


def width_of(text: str, size: float, *, bold: bool = False) -> float:
    """The width of one line of text, in dp."""
    density = float(dp(1))
    return _extents(text, round(size * density), bold) / density


def wrapped(
    text: str, size: float, room: float, *, bold: bool = False, breaks: bool = False
) -> list[str]:
    """The lines a text takes in a width; its own line breaks are kept.

    A word that is too wide stays whole, unless it `breaks`.
    """
    lines: list[str] = []
    for paragraph in text.split("\n"):
        line = ""
        parts = paragraph.split(" ")
        for word in _broken(parts, size, room, bold=bold) if breaks else parts:
            longer = f"{line} {word}" if line else word
            if line and width_of(longer, size, bold=bold) > room:
                lines.append(line)
                line = word
            else:
                line = longer
        lines.append(line)
    return lines


def _broken(parts: Iterable[str], size: float, room: float, *, bold: bool) -> Iterator[str]:
    for word in parts:
        left = word
        while len(left) > 1 and width_of(left, size, bold=bold) > room:
            longest = range(len(left) - 1, 1, -1)
            end = next((n for n in longest if width_of(left[:n], size, bold=bold) <= room), 1)
            yield left[:end]
            left = left[end:]
        yield left


def cut(name: str, size: float, room: float, *, bold: bool = False) -> str:
    """Return a name without its middle where it is too wide: both of its ends tell it apart."""
    for kept in range(len(name), 1, -1):
        shown = name if kept == len(name) else f"{name[: kept - kept // 2]}…{name[-(kept // 2) :]}"
        if width_of(shown, size, bold=bold) <= room:
            return shown
    return name[:1]


def ended(line: str, size: float, room: float, *, bold: bool = False) -> str:
    """Return a line that does not go on, cut between words where its mark has no room."""
    while " " in line and width_of(f"{line} …", size, bold=bold) > room:
        line = line.rpartition(" ")[0]
    return f"{line} …"


def height_of(count: int, size: float) -> float:
    """The height of a number of lines, in dp."""
    return count * round(size * theme.LINE_HEIGHT)


def first_baseline(size: float) -> float:
    """The baseline of a first line whose lines are a line height each."""
    return round(size * (0.5 * theme.LINE_HEIGHT + 0.36))


@lru_cache(maxsize=1024)
def texture_of(text: str, pixels: int, bold: bool) -> Texture:  # noqa: FBT001
    """White text on nothing, to be drawn in any colour."""
    label = _label(pixels, bold)
    label.text = text
    label.refresh()
    return label.texture


@lru_cache(maxsize=4096)
def _extents(text: str, pixels: int, bold: bool) -> float:  # noqa: FBT001
    return float(_label(pixels, bold).get_extents(text)[0])


def _label(pixels: int, bold: bool) -> Label:  # noqa: FBT001
    return Label(font_name=theme.FONT, font_size=pixels, bold=bold)
