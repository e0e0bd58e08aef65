"""The paper of a record: points across from the left margin and down from the top edge.

Every text is measured: one that is wider than its room, or leaves the text width, is noted in
`faults`, which must be empty at the end.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from io import BytesIO
from itertools import groupby
from typing import IO

from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from fieldapp.record.chapters.shapes.shapes_of_sources import PaperName
from fieldapp.record.pages.kit.lettering import (
    REGULAR,
    SEMIBOLD,
    printable,
    printed,
    use_fonts,
    width,
)
from fieldapp.record.pages.kit.operators import Colour, Operators, Points, colour
from fieldapp.record.pages.kit.tags import Tag, Tags

TEXT_WIDTH = 504.0
INK, SECONDARY = colour("#14171A"), colour("#4A5056")
RULE, HAIR, TINT = colour("#868C92"), colour("#CDD1D4"), colour("#F1F3F4")
GOOD, BAD, ACCEPTED = colour("#085F42"), colour("#A8231B"), colour("#E3A400")
PAST, ALLOWED, WHITE = colour("#5F656B"), colour("#E3E7E9"), colour("#FFFFFF")
FAILED_ROW, TARGET_ROW = colour("#F7F1EF"), colour("#E6EFEA")
OIL_PIPE, OIL_TANK, OIL_LINE = colour("#C9C2B0"), colour("#EDE9DF"), colour("#A9A18D")
PEN = colour("#1B2A55")
MARGIN_FOR_MARKS = 30.0
HALF_A_POINT = 0.3


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
    """Draws on one page after the other; `finish` ends the document."""

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
        self.tags = Tags()
        self._ink = Operators(self.canvas)
        self._waiting: list[tuple[int, Tag, Callable[[], None]]] = []

    @property
    def pages(self) -> int:
        """Return how many pages were turned."""
        return len(self.canvas._doc.Pages.pages)  # noqa: SLF001 - there is no other way to them

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

    def tag(self, kind: str, words: str = "") -> None:
        """Say what is drawn from here on: "H1", "P", "Figure" (`words` tell of it) and so on."""
        self._ink.lines += self.tags.begin(kind, self.number, words)

    def turn(self) -> None:
        """Begin the next page."""
        self._ink.lines += self.tags.end()
        self.canvas._code += self._ink.lines  # noqa: SLF001 - what the canvas would write there
        self.canvas.showPage()
        self._ink.begin()
        self.number += 1

    def later(self, draw: Callable[[], None], kind: str = "") -> None:
        """Draw something on this page once all pages are known; its place in reading is here."""
        self._waiting.append((self.number, self.tags.keep(kind, self.number), draw))

    def finish(self) -> None:
        """Draw what has waited, and write the document."""
        pages = self.canvas._doc.Pages.pages  # noqa: SLF001 - there is no other way to them
        waiting = sorted(self._waiting, key=lambda one: one[0])
        for number, group in groupby(waiting, key=lambda one: one[0]):
            self.number = number
            self._ink.begin()
            for _, tag, draw in group:
                self._ink.lines.append(tag.opening)
                draw()
                self._ink.lines.append(tag.closing)
            pages[number - 1].stream += "\n".join(self._ink.lines) + "\n"
        self.canvas.save()

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
        self._ink.fill(colour)
        self._ink.text(self.across(begin), self.up(y), shown, font, size)
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
        self._ink.pen(thick, colour, dash)
        self._ink.line(self.across(x1), self.up(y1), self.across(x2), self.up(y2))

    def rule(self, y: float, end: float = TEXT_WIDTH, begin: float = 0) -> None:
        """Draw the line above or below a table."""
        self.line(begin, y, end, y, 0.6, INK)

    def box(
        self,
        x: float,
        y: float,
        wide: float,
        high: float,
        fill: Colour | None = None,
        edge: Colour | None = None,
        thick: float = 0.5,
        radius: float = 0,
        dash: tuple[float, ...] = (),
    ) -> None:
        """Draw a box whose upper left corner is at x, y."""
        paint = self._paint(fill, edge, thick, dash)
        place = (self.across(x), self.up(y + high), wide, high)
        if radius:
            self._ink.rounded(*place, radius, paint)
        else:
            self._ink.box(*place, paint)

    def shape(
        self,
        points: Points,
        fill: Colour | None = None,
        edge: Colour | None = None,
        thick: float = 0.6,
        dash: tuple[float, ...] = (),
        *,
        closed: bool = True,
    ) -> None:
        """Draw a shape through points, or an open line through them."""
        paint = self._paint(fill, edge, thick, dash, 0 if dash else 1)
        placed = [(self.across(x), self.up(y)) for x, y in points]
        self._ink.shape(placed, paint, closed=closed)

    def smooth(self, points: Points, colour: Colour, thick: float) -> None:
        """Draw a smooth curve through three points or more."""
        self._ink.pen(thick, colour, (), 1)
        self._ink.smooth([(self.across(x), self.up(y)) for x, y in points])

    def picture(self, x: float, y: float, wide: float, high: float, jpeg: bytes) -> None:
        """Draw a JPEG as large as it fits into a box whose upper left corner is at x, y."""
        image = ImageReader(BytesIO(jpeg))
        across, down = image.getSize()
        scale = min(wide / across, high / down)
        size = (across * scale, down * scale)
        self.canvas._code += self._ink.lines  # noqa: SLF001 - what comes before it on the page
        self._ink.lines = []
        self.canvas.drawImage(image, self.across(x), self.up(y + size[1]), *size)

    def disc(
        self,
        x: float,
        y: float,
        radius: float,
        fill: Colour | None = None,
        edge: Colour | None = None,
        thick: float = 0.6,
    ) -> None:
        """Draw a disc about x, y."""
        paint = self._paint(fill, edge, thick, ())
        left, low = self.across(x) - radius, self.up(y) - radius
        self._ink.rounded(left, low, 2 * radius, 2 * radius, radius, paint)

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

    def _paint(
        self, fill: Colour | None, edge: Colour | None, thick: float, dash: Sequence[float],
        cap: int = 0,
    ) -> str:  # fmt: skip
        """Set colours and pen; return the operator that paints with them."""
        if fill is not None:
            self._ink.fill(fill)
        if edge is not None:
            self._ink.pen(thick, edge, dash, cap)
        return {(True, True): "B", (True, False): "f", (False, True): "S"}.get(
            (fill is not None, edge is not None), "n"
        )

    def _fault(self, what: str, words: str) -> None:
        self.faults.append(f"page {self.number}: {what}: {words}")


def _before_the_mark(figure: str) -> str:
    return figure.replace(",", ".").partition(".")[0]
