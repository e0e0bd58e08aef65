"""What the parts of the pages are, for programs that read them aloud or turn them into text.

ISO 32000-1, 14.7 and 14.8. One tag covers a row, not each cell: ten times fewer.
"""

from dataclasses import dataclass

ARTIFACT = ""
"""The kind of what is no content: heads and feet of pages, rules."""


@dataclass(frozen=True, slots=True)
class Tag:
    """A part of a page: what it is, its page, its number there, and words that tell of it."""

    kind: str
    page: int
    number: int
    words: str = ""

    @property
    def opening(self) -> str:
        """Return the operator before it."""
        if self.kind == ARTIFACT:
            return "/Artifact BMC"
        return f"/{self.kind} <</MCID {self.number}>> BDC"

    @property
    def closing(self) -> str:
        """Return the operator after it."""
        return "EMC"


class Tags:
    """The parts of all pages in the order in which they are read."""

    def __init__(self) -> None:
        self.found: list[Tag] = []
        self._counts: dict[int, int] = {}
        self._open: Tag | None = None

    def begin(self, kind: str, page: int, words: str = "") -> list[str]:
        """Return the operators that end the part before and begin another."""
        before = self.end()
        self._open = self.keep(kind, page, words)
        return [*before, self._open.opening]

    def end(self) -> list[str]:
        """Return the operators that end the part before, if there is one."""
        before, self._open = self._open, None
        return [before.closing] if before else []

    def keep(self, kind: str, page: int, words: str = "") -> Tag:
        """Return a new part; what is no content is not listed."""
        if kind == ARTIFACT:
            return Tag(kind, page, -1)
        number = self._counts.get(page, 0)
        self._counts[page] = number + 1
        tag = Tag(kind, page, number, words)
        self.found.append(tag)
        return tag
