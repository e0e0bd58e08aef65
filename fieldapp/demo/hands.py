"""Drawn signatures of the demo's invented people, made by rule from their names."""

from math import cos, pi, sin

from fieldapp.job.events import Stroke

POINTS = 14


def strokes_of(name: str) -> tuple[Stroke, ...]:
    """Return pen strokes for a name: a loop for each letter, and a line below."""
    words = name.split()
    letters = [letter for word in words for letter in word]
    width = 0.86 / max(1, len(letters))
    strokes: list[Stroke] = []
    left = 0.05
    for word in words:
        points: list[tuple[str, str]] = []
        for place, letter in enumerate(word):
            points += _letter(letter, left, width, large=place == 0)
            left += width
        strokes.append(tuple(points))
        left += width * 0.4
    line = tuple((_text(0.04 + 0.9 * i / 20), _text(0.86 - 0.05 * i / 20)) for i in range(21))
    return (*strokes, line)


def _letter(letter: str, left: float, width: float, *, large: bool) -> list[tuple[str, str]]:
    """Return one loop whose height and lean follow the letter."""
    code = ord(letter.casefold())
    height = 0.3 if large else 0.07 + 0.05 * (code % 3) + (0.12 if letter in "bdfhklt" else 0)
    lean = 0.25 + 0.05 * (code % 4)
    points = []
    for step in range(POINTS + 1):
        turn = 2 * pi * step / POINTS
        across = left + width * (step / POINTS + lean * sin(turn))
        up = height * (1 - cos(turn)) / 2 + 0.015 * sin(2 * turn + code)
        points.append((_text(across), _text(0.7 - up)))
    return points


def _text(number: float) -> str:
    return f"{min(max(number, 0.0), 1.0):.4f}"
