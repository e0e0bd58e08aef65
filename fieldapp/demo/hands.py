"""Drawn signatures of the demo's invented people, made by rule from their names."""

from math import cos, pi, sin

from fieldapp.job.events import Stroke

TALL, DEEP = "bdfhklt", "gjpqyz"
STEPS = 12

Point = tuple[float, float]


def strokes_of(name: str) -> tuple[Stroke, ...]:
    """Return pen strokes for a name: one for each word, leaning and flowing as its letters ask."""
    words = name.split()
    letters = sum(map(len, words))
    lean = 0.12 + 0.03 * (sum(map(ord, name)) % 7)
    width = 0.84 / (letters + 1.2 * len(words))
    left = 0.06
    strokes: list[Stroke] = []
    for word in words:
        points = _capital(word[0], left, width * 2.2)
        left += width * 2.0
        for letter in word[1:]:
            points += _letter(letter, left, width)
            left += width
        strokes.append(tuple(_leaning(point, lean) for point in points))
        left += width * 0.2
    strokes.append(tuple(_leaning(point, 0) for point in _flourish(left)))
    return tuple(strokes)


def _capital(letter: str, left: float, width: float) -> list[Point]:
    """Return an upright, a bow back over it, and a loop whose turns follow the letter."""
    turns = 1.2 + 0.25 * (ord(letter) % 4)
    points = [(left + 0.02 * width, 0.2 + 0.5 * step / STEPS) for step in range(STEPS)]
    for step in range(2 * STEPS):
        share = step / (2 * STEPS)
        turn = pi + turns * 2 * pi * share
        reach = 1 - 0.55 * share
        across = left + width * (0.45 + 0.42 * reach * cos(turn))
        points.append((across, 0.44 + 0.26 * reach * sin(turn) + 0.14 * share))
    return points


def _letter(letter: str, left: float, width: float) -> list[Point]:
    """Return one running loop; tall letters rise, deep ones fall, and no two are quite alike."""
    code = ord(letter.casefold())
    up = 0.36 if letter in TALL else 0.09 + 0.02 * (code % 4)
    down = 0.16 if letter in DEEP else 0.0
    fat = 0.25 + 0.1 * (code % 5)
    points = []
    for step in range(STEPS):
        turn = 2 * pi * step / STEPS
        across = left + width * (step / STEPS + fat * sin(turn))
        height = up * (1 - cos(turn)) / 2 - down * max(0.0, sin(turn + pi))
        points.append((across, 0.64 - height))
    return points


def _flourish(left: float) -> list[Point]:
    return [(0.1 + (left - 0.1) * s / 16, 0.8 + 0.03 * sin(pi * s / 16)) for s in range(17)]


def _leaning(point: Point, lean: float) -> tuple[str, str]:
    across, down = point
    return _text(across + lean * (0.64 - down) * 0.25), _text(down)


def _text(number: float) -> str:
    return f"{min(max(number, 0.0), 1.0):.4f}"
