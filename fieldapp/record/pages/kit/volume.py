"""The whole of the pages: heads and feet, references between pages, and tables that flow.

A record is laid out once: what names a page, or counts them, is drawn when all are known.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime

from fieldapp.record.chapters.shapes.shapes_of_sources import Content
from fieldapp.record.chapters.words import offset_words
from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD, lines, shortened, width
from fieldapp.record.pages.kit.paper import INK, RULE, SECONDARY, TEXT_WIDTH, TINT, Paper
from fieldapp.record.pages.kit.tags import ARTIFACT
from fieldapp.record.structure import Box

GROUP = 4
FIRST_STRONG, LAST_STRONG = 8, 56
TOP = 82.0
CHAPTER_NEEDS = 190.0


@dataclass
class Volume:
    """A record being drawn: its paper, its content, and where its chapters were found to stand."""

    paper: Paper
    content: Content
    fingerprint: str
    found: dict[str, int] = field(default_factory=dict)
    boxes: dict[str, Box] = field(default_factory=dict)

    @property
    def pages(self) -> int:
        """Return how many pages there are, once the last one is turned."""
        return self.paper.pages

    @property
    def initials(self) -> Mapping[str, str]:
        """Return the initials of everybody by name."""
        return {person.name: person.initials for person in self.content.people}

    def open_page(self, title: str, note: str = "", name: str = "") -> float:
        """Draw the frame of a page with its title; return where its body begins.

        A title without a name is one that was read on an earlier page.
        """
        self.paper.later(lambda: frame(self))
        self.mark(title or "Front page", name)
        if not title:
            return 0.0
        self.paper.tag("H1" if name else ARTIFACT)
        end = self.paper.text(0, 66, title, 14, SEMIBOLD)
        room = TEXT_WIDTH - end - 10
        self.paper.text(end + 10, 66, shortened(note, room, 8.6), 8.6, REGULAR, SECONDARY)
        return TOP

    def mark(self, title: str, name: str) -> None:
        """Note where a chapter begins, for other pages and for the reader's outline."""
        if name and name not in self.found:
            self.found[name] = self.paper.number
            self.paper.canvas.bookmarkPage(name)
            self.paper.canvas.addOutlineEntry(title, name, 0)

    def close_page(self) -> None:
        """End a page."""
        self.paper.turn()

    def page_of(self, name: str) -> str:
        """Return where a chapter stands, in words."""
        number = self.found.get(name)
        return f"page\u00a0{number}" if number else ""


def frame(volume: Volume) -> None:
    """Draw head and foot of a page, once it is known how many there are."""
    paper, heading = volume.paper, volume.content.heading
    number = paper.number
    title = f"{heading.kind.capitalize()} {heading.number}"
    end = paper.text(0, 34, title, 7.4, SEMIBOLD)
    page = f"Page {number} of {volume.pages}"
    subtitle = (
        f"revision {heading.revision}  ·  {heading.unit}, {heading.site}  ·  {heading.issued[:10]}"
    )
    room = TEXT_WIDTH - end - 10 - width(page, 7.4, SEMIBOLD) - 10
    paper.text(end + 6, 34, shortened(subtitle, room, 7.4), 7.4, REGULAR, SECONDARY)
    paper.text(TEXT_WIDTH, 34, page, 7.4, SEMIBOLD, INK, "right")
    paper.rule(41)
    _foot(volume, number)


def _foot(volume: Volume, number: int) -> None:
    paper, heading = volume.paper, volume.content.heading
    top = paper.sheet.height - 41
    paper.line(0, top, TEXT_WIDTH, top, 0.4, RULE)
    x = paper.text(0, top + 11, "Fingerprint", 6.4, SEMIBOLD) + 5
    step = width("0000", 6.4, SEMIBOLD) + 2.2
    for place in range(0, len(volume.fingerprint), GROUP):
        strong = place < FIRST_STRONG or place >= LAST_STRONG
        group = volume.fingerprint[place : place + GROUP]
        paper.text(x, top + 11, group, 6.4, SEMIBOLD if strong else REGULAR)
        x += step
    last = number == volume.pages
    words = "End of record" if last else f"continues on page {number + 1}"
    paper.text(TEXT_WIDTH, top + 11, words, 6.4, SEMIBOLD if last else REGULAR,
               INK if last else SECONDARY, "right")  # fmt: skip
    issued = heading.issued[:16].replace("T", " ")
    paper.text(
        0, top + 19.5,
        "SHA-256 of the attached file record.json. Printed figures are copies of that file. "
        f"Issued {issued}.",
        6.2, REGULAR, SECONDARY, room=380,
    )  # fmt: skip
    zone = offset_words(datetime.fromisoformat(heading.issued))
    clock = f"Times by the tablet’s clock, {zone}"
    paper.text(TEXT_WIDTH, top + 19.5, clock, 6.2, REGULAR, SECONDARY, "right")


def section(
    paper: Paper, y: float, title: str, note: str = "", end: float = TEXT_WIDTH, begin: float = 0
) -> None:
    """Draw the head of a section: baseline at y, its rule 5 below."""
    after = paper.text(begin, y, title, 10, SEMIBOLD)
    if note:
        shown = shortened(note, end - after - 8, 7.2)
        paper.text(after + 8, y, shown, 7.2, REGULAR, SECONDARY)
    paper.rule(y + 5, end, begin)


class Flow:
    """A run of tables over as many pages as they need; `y` is where the next thing begins."""

    def __init__(self, volume: Volume, y: float) -> None:
        self.volume, self.y = volume, y
        self.title, self.note = "", ""
        self._heads: Callable[[float], float] | None = None
        self._section = ""

    @property
    def paper(self) -> Paper:
        """Return the paper."""
        return self.volume.paper

    @property
    def left(self) -> float:
        """Return how much of the page is left."""
        return self.paper.bottom - self.y

    def heads(self, draw: Callable[[float], float] | None) -> None:
        """Draw the heads of a table's columns now, and again on each page it runs on to."""
        self._heads = draw
        if draw is not None:
            self.paper.tag("P")
            self.y = draw(self.y)

    def need(self, height: float) -> None:
        """Go to the next page if so much does not fit on this one."""
        if height > self.left:
            self.next_page()

    def next_page(self) -> None:
        """Go to the next page, and repeat the title and the heads of the table."""
        self.volume.close_page()
        self.y = self.volume.open_page(f"{self.title}, continued", self.note)
        if self._heads is not None:
            self.paper.tag(ARTIFACT)
        if self._heads is not None and self._section:
            section(self.paper, self.y + 4, f"{self._section}, continued")
            self.y += 9
        if self._heads is not None:
            self.y = self._heads(self.y)

    def chapter(
        self, title: str, note: str, name: str, gap: float = 16, needs: float = CHAPTER_NEEDS
    ) -> None:
        """Begin a chapter on this page if a good part of it is left, else on the next."""
        self._heads, self._section = None, ""
        self.title, self.note = title, note
        if self.left < needs:
            self.volume.close_page()
            self.y = self.volume.open_page(title, note, name)
            return
        self.y += 34
        self.paper.tag("H1")
        end = self.paper.text(0, self.y, title, 14, SEMIBOLD)
        shown = shortened(note, TEXT_WIDTH - end - 10, 8.6)
        self.paper.text(end + 10, self.y, shown, 8.6, REGULAR, SECONDARY)
        self.volume.mark(title, name)
        self.y += gap

    def section(self, title: str, note: str = "", rows: float = 36, name: str = "") -> None:
        """Begin a section, on the next page if its head and first rows do not fit."""
        self._heads, self._section = None, title
        self.y += 20 if self.y > TOP else 4
        if 24 + rows > self.left:
            self.next_page()
            self.y += 4
        self.paper.tag("H2")
        section(self.paper, self.y, title, note)
        self.volume.mark(title, name)
        self.y += 5

    def row(self, height: float, kind: str = "P") -> float:
        """Return the top of the next row, which is read as a whole."""
        self.need(height)
        self.paper.tag(kind)
        return self._down(height)

    def more(self, height: float) -> float:
        """Return the top of a further line of a row, on the next page if it must be."""
        if height > self.left:
            self.next_page()
            self.paper.tag("P")
        return self._down(height)

    def _down(self, height: float) -> float:
        top = self.y
        self.y += height
        return top

    def close(self) -> None:
        """End the last page of the run."""
        self.volume.close_page()


def words_in(paper: Paper, x: float, y: float, room: float, text: str, size: float = 7.8,
             step: float = 10, font: str = REGULAR, colour: str = INK) -> float:  # fmt: skip
    """Write a text over as many lines as it needs; return the baseline below the last."""
    for line in lines(text, room, size, font):
        paper.text(x, y, line, size, font, colour)
        y += step
    return y


def band(paper: Paper, y: float, high: float) -> None:
    """Draw a tinted band over the text width."""
    paper.box(0, y, TEXT_WIDTH, high, TINT)
