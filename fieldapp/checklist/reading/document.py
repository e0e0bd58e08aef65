"""A file being read: where its keys stand, and what was found wrong so far."""

from collections.abc import Collection
from typing import Any

from fieldapp.checklist.problems import FILE, Problem, in_one_line, nearest
from fieldapp.checklist.reading.locate import Lines, Path

MOST_PROBLEMS = 300
MOST_NAMES = 1_000


class Document:
    """The lines of a file's keys, its tables once they are read, and the problems noted."""

    def __init__(self, text: str) -> None:
        self._lines = Lines(text)
        self._problems: set[Problem] = set()
        self.tables: dict[Path, Any] = {}

    def note(self, path: Path, where: str, what: str) -> None:
        """Note a problem on the line of `path`; beyond what anybody reads, no more are kept."""
        if not self._full():
            self._problems.add(Problem(self._lines.line_of(path), where, in_one_line(what)))

    def line_of(self, path: Path) -> int:
        """Return the line on which `path` stands."""
        return self._lines.line_of(path)

    def nearest(self, name: str, known: Collection[str], otherwise: str) -> str:
        """Return the known name most like `name`, where that can be found in no time."""
        if self._full() or len(known) > MOST_NAMES:
            return otherwise
        return nearest(name, known, otherwise)

    def problems(self) -> tuple[Problem, ...]:
        """Return every problem noted, in the order of lines."""
        told = sorted(self._problems)
        if self._full():
            what = f"holds more than these {MOST_PROBLEMS} problems: mend them and look again"
            told.append(Problem(told[-1].line, FILE, what))
        return tuple(told)

    def _full(self) -> bool:
        return len(self._problems) >= MOST_PROBLEMS
