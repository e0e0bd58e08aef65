"""The paper of a record: points across from the left margin and down from the top edge.

Every text is measured: one that is wider than its room, or leaves the text width, is noted in
`faults`, which must be empty at the end.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import IO, Any

from reportlab.lib.colors import HexColor
from reportlab.pdfgen.canvas import Canvas

from fieldapp.record.chapters.shapes_of_sources import PaperName
from fieldapp.record.pages.lettering import (
    REGULAR,
    SEMIBOLD,
    printable,
    printed,
    use_fonts,
    width,
)

TEXT_WIDTH = 504.0
INK, SECONDARY = HexColor("#14171A"), HexColor("#4A5056")
RULE, HAIR, TINT = HexColor("#868C92"), HexColor("#CDD1D4"), HexColor("#F1F3F4")
GOOD, BAD, ACCEPTED = HexColor("#085F42"), HexColor("#A8231B"), HexColor("#E3A400")
PAST, ALLOWED, WHITE = HexColor("#5F656B"), HexColor("#E3E7E9"), HexColor("#FFFFFF")
FAILED_ROW, TARGET_ROW = HexColor("#F7F1EF"), HexColor("#E6EFEA")
OIL_PIPE, OIL_TANK, OIL_LINE = HexColor("#C9C2B0"), HexColor("#EDE9DF"), HexColor("#A9A18D")
PEN = HexColor("#1B2A55")
MARGIN_FOR_MARKS = 30.0
HALF_A_POINT = 0.3

Colour = Any
Points = Sequence[tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Sheet:
    """A size of paper and its left margin."""

    name: PaperName
    width: float
    height: float
    left: float


A4 = Sheet("A4", 595.28, 841.89, 49.28)
LETTER = Sheet("Letter", 612.0, 792.0, 60.0)
SHEETS = {sheet.name: sheet for sheet in (A4, LETTER)}


class Paper:
    """Draws on one page after the other."""

    def __init__(self, file: IO[bytes], sheet: Sheet) -> None:
        use_fonts()
        self.sheet = sheet
        self.canvas = Canvas(
            file,
            pagesize=(sheet.width, sheet.height),
            invariant=1,
            initialFontName=REGULAR,
            pageCompression=1,
        )
        self.faults: list[str] = []
        self.number = 1

    @property
    def bottom(self) -> float:
        """Return where the body of a page ends."""
        return self.sheet.height - 55

    def across(self, x: float) -> float:
        """Return a place across in the paper's own measure."""
        return self.sheet.left + x

    def up(self, y: float) -> float:
        """Return a place down in the paper's own measure, which counts from below."""
        return self.sheet.height - y

    def turn(self) -> None:
        """Begin the next page."""
        self.canvas.showPage()
        self.number += 1

    def text(
        self,
        x: float,
        y: float,
        words: str,
        size: float = 7.8,
        font: str = REGULAR,
        colour: Colour = INK,
        align: str = "left",
        room: float | None = None,
    ) -> float:
        """Write words with their baseline at y; return where they end."""
        shown = printable(words)
        wide = width(shown, size, font)
        begin = x - {"left": 0, "right": wide, "middle": wide / 2}[align]
        if room is not None and wide > room + HALF_A_POINT:
            self._fault(f"{wide:.1f} wide in {room:.1f}", shown)
        if begin < -MARGIN_FOR_MARKS or begin + wide > TEXT_WIDTH + 1:
            self._fault("outside the text width", shown)
        self.canvas.setFillColor(colour)
        self.canvas.setFont(font, size)
        self.canvas.drawString(self.across(begin), self.up(y), shown)
        return begin + wide

    def decimal(
        self,
        x: float,
        y: float,
        figure: str,
        size: float = 7.8,
        font: str = REGULAR,
        colour: Colour = INK,
    ) -> None:
        """Write a figure with its decimal mark at x."""
        shown = printed(figure)
        self.text(x - width(_before_the_mark(shown), size, font), y, shown, size, font, colour)

    def number_to(
        self,
        right: float,
        y: float,
        figure: str,
        decimals: int,
        size: float = 7.8,
        font: str = REGULAR,
        colour: Colour = INK,
    ) -> None:
        """Write a figure in a column that ends at `right` and has so many decimals."""
        room = width("." + "0" * decimals, size, font) if decimals else 0.0
        self.decimal(right - room, y, figure, size, font, colour)

    def line(
        self,
        x1: float,
        y1: float,
        x2: float,
        y2: float,
        thick: float = 0.25,
        colour: Colour = HAIR,
        dash: tuple[float, ...] = (),
    ) -> None:
        """Draw a straight line."""
        self._pen(thick, colour, dash)
        self.canvas.setLineCap(0)
        self.canvas.line(self.across(x1), self.up(y1), self.across(x2), self.up(y2))

    def rule(self, y: float, end: float = TEXT_WIDTH, begin: float = 0) -> None:
        """Draw the line above or below a table."""
        self.line(begin, y, end, y, 0.6, INK)

    def box(
        self,
        x: float,
        y: float,
        wide: float,
        high: float,
        fill: Colour = None,
        edge: Colour = None,
        thick: float = 0.5,
        radius: float = 0,
        dash: tuple[float, ...] = (),
    ) -> None:
        """Draw a box whose upper left corner is at x, y."""
        self._fill(fill)
        self._pen(thick, edge, dash)
        low = self.up(y + high)
        stroke, filled = int(edge is not None), int(fill is not None)
        if radius:
            self.canvas.roundRect(
                self.across(x), low, wide, high, radius, stroke=stroke, fill=filled
            )
        else:
            self.canvas.rect(self.across(x), low, wide, high, stroke=stroke, fill=filled)

    def shape(
        self,
        points: Points,
        fill: Colour = None,
        edge: Colour = None,
        thick: float = 0.6,
        dash: tuple[float, ...] = (),
        *,
        closed: bool = True,
    ) -> None:
        """Draw a shape through points, or an open line through them."""
        path = self.canvas.beginPath()
        (x, y), *rest = points
        path.moveTo(self.across(x), self.up(y))
        for x, y in rest:
            path.lineTo(self.across(x), self.up(y))
        if closed:
            path.close()
        self._fill(fill)
        self._pen(thick, edge, dash)
        self.canvas.setLineJoin(1)
        self.canvas.setLineCap(0 if dash else 1)
        self.canvas.drawPath(path, stroke=int(edge is not None), fill=int(fill is not None))

    def disc(
        self,
        x: float,
        y: float,
        radius: float,
        fill: Colour = None,
        edge: Colour = None,
        thick: float = 0.6,
    ) -> None:
        """Draw a disc about x, y."""
        self._fill(fill)
        self._pen(thick, edge, ())
        self.canvas.circle(
            self.across(x), self.up(y), radius,
            stroke=int(edge is not None), fill=int(fill is not None),
        )  # fmt: skip

    def patch(
        self,
        x: float,
        y: float,
        words: str,
        size: float = 7.2,
        font: str = SEMIBOLD,
        colour: Colour = INK,
        align: str = "left",
    ) -> None:
        """Write words on a white patch, for places where lines pass."""
        wide = width(printable(words), size, font)
        begin = x - {"left": 0, "right": wide, "middle": wide / 2}[align]
        self.box(begin - 1.5, y - size * 0.74, wide + 3, size * 0.98, WHITE)
        self.text(x, y, words, size, font, colour, align)

    def _fill(self, colour: Colour) -> None:
        if colour is not None:
            self.canvas.setFillColor(colour)

    def _pen(self, thick: float, colour: Colour, dash: tuple[float, ...]) -> None:
        if colour is not None:
            self.canvas.setStrokeColor(colour)
            self.canvas.setLineWidth(thick)
        self.canvas.setDash(list(dash), 0)

    def _fault(self, what: str, words: str) -> None:
        self.faults.append(f"page {self.number}: {what}: {words}")


def _before_the_mark(figure: str) -> str:
    return figure.replace(",", ".").partition(".")[0]
