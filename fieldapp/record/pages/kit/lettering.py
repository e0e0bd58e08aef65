"""The type of a record: its fonts, how wide words stand in them, and where lines break."""

from functools import cache, lru_cache

from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from fieldapp.places import assets

REGULAR, SEMIBOLD, BOLD = "SourceSans3-Regular", "SourceSans3-Semibold", "SourceSans3-Bold"
SPACE, NARROW, MINUS = "\u00a0", "\u202f", "\u2212"
ELLIPSIS = "…"
FROM_FIVE_DIGITS = 5
KEPT = 1 << 15
"""How many texts are measured once and kept: most words of a record stand in it often."""


@cache
def use_fonts() -> None:
    """Make the fonts of the record known to ReportLab, once, and let it write streams as bytes."""
    rl_config.useA85 = 0
    for name in (REGULAR, SEMIBOLD, BOLD):
        pdfmetrics.registerFont(TTFont(name, str(assets() / "fonts" / f"{name}.ttf")))


@cache
def _signs() -> frozenset[int]:
    use_fonts()
    maps = [pdfmetrics.getFont(name).face.charToGlyph for name in (REGULAR, SEMIBOLD, BOLD)]
    return frozenset(set(maps[0]) & set(maps[1]) & set(maps[2]))


@lru_cache(maxsize=KEPT)
def printable(text: str) -> str:
    """Return text on one line; a sign that the fonts lack is printed as its code."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(
        sign if (ord(sign) in _signs() and sign.isprintable()) or sign in (SPACE, NARROW)
        else f"[U+{ord(sign):04X}]"
        for sign in text.replace("\n", " ").replace("\t", " ")
    )  # fmt: skip


@cache
def _widths(font: str) -> tuple[dict[int, float], float]:
    """Return the width of each sign of a font, and of one that it lacks, for size 1000."""
    use_fonts()
    face = pdfmetrics.getFont(font).face
    return face.charWidths, face.defaultWidth


@lru_cache(maxsize=KEPT)
def _units(text: str, font: str) -> float:
    widths, other = _widths(font)
    return sum(widths.get(sign, other) for sign in map(ord, text))


def width(text: str, size: float, font: str = REGULAR) -> float:
    """Return how wide a text stands, in points."""
    return _units(text, font) * size / 1000


@lru_cache(maxsize=KEPT)
def lines(text: str, room: float, size: float, font: str = REGULAR) -> tuple[str, ...]:
    """Return the lines of a text in a room so wide; a word that is wider is broken."""
    whole = printable(text)
    if width(whole, size, font) <= room:
        return (whole,)
    found: list[str] = []
    line = ""
    for word in whole.split(" "):
        longer = f"{line} {word}" if line else word
        if width(longer, size, font) <= room:
            line = longer
            continue
        if line:
            found.append(line)
        *full, line = _broken(word, room, size, font)
        found += full
    return (*found, line)


def _broken(word: str, room: float, size: float, font: str) -> list[str]:
    parts, part = [], ""
    for sign in word:
        if part and width(part + sign, size, font) > room:
            parts.append(part)
            part = sign
        else:
            part += sign
    return [*parts, part]


def shortened(text: str, room: float, size: float, font: str = REGULAR) -> str:
    """Return as much of a text as fits, with an ellipsis where some is left out."""
    whole = printable(text)
    if width(whole, size, font) <= room:
        return whole
    first = lines(text, room - width(f"{SPACE}{ELLIPSIS}", size, font), size, font)[0]
    return f"{first}{SPACE}{ELLIPSIS}"


def printed(figure: str) -> str:
    """Return a figure as it is printed: a true minus.

    >>> printed("-3.40")
    '−3.40'
    """
    return MINUS + figure[1:] if figure[:1] == "-" and figure[1:2].isdigit() else figure


def grouped(text: str) -> str:
    """Return text whose whole numbers of five digits and more stand in groups of three.

    >>> grouped("19300 L").replace("\u202f", "_")
    '19_300 L'
    """
    return " ".join(_grouped(word) for word in text.split(" "))


def _grouped(word: str) -> str:
    if not (word.isascii() and word.isdigit()) or len(word) < FROM_FIVE_DIGITS:
        return word
    head = len(word) % 3
    groups = [word[:head]] if head else []
    groups += [word[place : place + 3] for place in range(head, len(word), 3)]
    return NARROW.join(groups)
