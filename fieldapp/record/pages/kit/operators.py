"""The content of a page as its operators (ISO 32000-1, annex A); a state is set when it changes.

A long record is some hundred thousand texts and lines; writing them here takes a quarter of the
time of one call of the canvas for each. Fonts, pages and files stay ReportLab's.
"""

from collections.abc import Sequence
from math import sqrt
from typing import Any

from reportlab.pdfbase import pdfmetrics

Points = Sequence[tuple[float, float]]
Colour = str
ARC = 4 / 3 * (sqrt(2) - 1)  # a quarter of a circle as one Bézier curve


def colour(code: str) -> Colour:
    """Return a colour as its operands.

    >>> colour("#FFFFFF")
    '1 1 1'
    """
    parts = (int(code[place : place + 2], 16) / 255 for place in (1, 3, 5))
    return " ".join(f"{part:.4g}" for part in parts)


class Operators:
    """Writes the operators of one page after the other; lengths count from the lower left."""

    def __init__(self, canvas: Any) -> None:  # noqa: ANN401 - the library carries no types
        self._canvas = canvas
        self._encoded: dict[tuple[str, str], list[tuple[str, str]]] = {}
        self.begin()

    def begin(self) -> None:
        """Begin a page: nothing is written, and no state is known."""
        self.lines: list[str] = []
        self._state: dict[str, str] = {}

    def _set(self, operator: str, operands: str) -> None:
        if self._state.get(operator) != operands:
            self._state[operator] = operands
            self.lines.append(f"{operands} {operator}")

    def fill(self, operands: Colour) -> None:
        """Set the colour of texts and areas."""
        self._set("rg", operands)

    def pen(self, thick: float, operands: Colour, dash: Sequence[float] = (), cap: int = 0) -> None:
        """Set how lines are drawn."""
        self._set("RG", operands)
        self._set("w", f"{thick:g}")
        self._set("d", f"[{' '.join(f'{part:g}' for part in dash)}] 0")
        self._set("J", str(cap))
        self._set("j", "1")

    def text(self, x: float, y: float, words: str, font: str, size: float) -> None:
        """Write words from x, y."""
        parts = self._encoded.get((font, words))
        if parts is None:
            parts = self._encoded[font, words] = self._encode(font, words)
        shown = []
        for name, escaped in parts:
            selected = f"{name} {size:g}"
            if self._state.get("Tf") != selected:
                self._state["Tf"] = selected
                shown.append(f"{selected} Tf")
            shown.append(f"({escaped}) Tj")
        self.lines.append(f"BT 1 0 0 1 {x:.2f} {y:.2f} Tm {' '.join(shown)} ET")

    def _encode(self, font: str, words: str) -> list[tuple[str, str]]:
        document, found = self._canvas._doc, pdfmetrics.getFont(font)  # noqa: SLF001
        return [
            (found.getSubsetInternalName(subset, document), self._canvas._escape(codes))  # noqa: SLF001
            for subset, codes in found.splitString(words, document)
        ]

    def line(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """Draw a straight line."""
        self.lines.append(f"{x1:.2f} {y1:.2f} m {x2:.2f} {y2:.2f} l S")

    def box(self, x: float, y: float, wide: float, high: float, paint: str) -> None:
        """Draw a box whose lower left corner is at x, y."""
        self.lines.append(f"{x:.2f} {y:.2f} {wide:.2f} {high:.2f} re {paint}")

    def shape(self, points: Points, paint: str, *, closed: bool) -> None:
        """Draw straight lines from point to point."""
        (x, y), *rest = points
        parts = [f"{x:.2f} {y:.2f} m", *(f"{a:.2f} {b:.2f} l" for a, b in rest)]
        self.lines.append(f"{' '.join(parts)} {'h ' if closed else ''}{paint}")

    def smooth(self, points: Points) -> None:
        """Draw a smooth curve through points, as Bézier curves that go on into each other."""
        through = [points[0], *points, points[-1]]
        four = zip(through, through[1:], through[2:], through[3:], strict=False)
        parts = [" ".join(f"{number:.2f}" for number in _bent(*found)) + " c" for found in four]
        x, y = points[0]
        self.lines.append(f"{x:.2f} {y:.2f} m {' '.join(parts)} S")

    def rounded(
        self, x: float, y: float, wide: float, high: float, radius: float, paint: str
    ) -> None:
        """Draw a box with round corners; with half its width and height as radius, a disc."""
        right, top, bent = x + wide, y + high, radius * (1 - ARC)
        a, b = x + radius, right - radius
        low, up = y + radius, top - radius
        self.lines.append(
            f"{a:.2f} {y:.2f} m {b:.2f} {y:.2f} l "
            f"{right - bent:.2f} {y:.2f} {right:.2f} {y + bent:.2f} {right:.2f} {low:.2f} c "
            f"{right:.2f} {up:.2f} l "
            f"{right:.2f} {top - bent:.2f} {right - bent:.2f} {top:.2f} {b:.2f} {top:.2f} c "
            f"{a:.2f} {top:.2f} l "
            f"{x + bent:.2f} {top:.2f} {x:.2f} {top - bent:.2f} {x:.2f} {up:.2f} c "
            f"{x:.2f} {low:.2f} l "
            f"{x:.2f} {y + bent:.2f} {x + bent:.2f} {y:.2f} {a:.2f} {y:.2f} c h {paint}"
        )


def _bent(
    before: tuple[float, float], here: tuple[float, float], there: tuple[float, float],
    after: tuple[float, float],
) -> tuple[float, ...]:  # fmt: skip
    """Return the curve from here to there that goes on smoothly at both ends."""
    return (
        here[0] + (there[0] - before[0]) / 6, here[1] + (there[1] - before[1]) / 6,
        there[0] - (after[0] - here[0]) / 6, there[1] - (after[1] - here[1]) / 6,
        *there,
    )  # fmt: skip
