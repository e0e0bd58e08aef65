"""A TinyDB storage whose tables are what the entries of a journal add up to."""

import gc
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from typing import Any, Never, NoReturn, TypeAlias

from tinydb.storages import Storage

from fieldapp.journal.errors import EntriesAreForEverError, JournalDamagedError
from fieldapp.journal.lines import disk
from fieldapp.journal.lines.chain import Body
from fieldapp.journal.lines.file import Journal

INSERT = "insert"

Rows: TypeAlias = dict[int, dict[str, Any]]


class JournalStorage(Storage):
    """Replays a journal when it is opened, then adds to it."""

    def __init__(
        self,
        path: Path | str,
        *,
        device: str,
        clock: Callable[[], datetime],
        sync: disk.Sync = disk.sync,
        write: disk.Write = disk.write,
    ) -> None:
        self._path = Path(path)
        self._tables: dict[str, Rows] = {}
        with collection_paused():
            self.journal = Journal(
                path, device=device, clock=clock, each=self._replay, sync=sync, write=write
            )

    def rows(self, table: str) -> Rows:
        """The live documents of a table by number; only for looking at."""
        return self._tables.get(table, {})

    def insert(self, table: str, documents: dict[int, dict[str, Any]]) -> None:
        """Adds documents as one entry: all of them are saved, or none."""
        if documents:
            operations = [[INSERT, table, number, body] for number, body in documents.items()]
            saved = self.journal.append(operations)
            rows = self._tables.setdefault(table, {})
            for _, _, number, document in saved.operations:
                rows[number] = document

    def read(self) -> dict[str, dict[str, Any]] | None:
        """All tables, as a copy of their own."""
        with self.journal.lock:
            tables = {
                name: {str(number): copied(document) for number, document in rows.items()}
                for name, rows in self._tables.items()
            }
            return tables or None

    def write(self, data: dict[str, dict[str, Any]]) -> NoReturn:
        """Refused: it would put a whole database in the place of the entries."""
        raise EntriesAreForEverError(self.journal.path, ", ".join(data) or "all", "overwriting")

    def close(self) -> None:
        """Lets go of the journal."""
        self.journal.close()

    def _replay(self, body: Body) -> None:
        try:
            added = self._added(body.operations)
        except (TypeError, ValueError):  # other parts than an operation has
            added = False
        if not added:
            why = "it adds to no table what can be added"
            raise JournalDamagedError(self._path, body.sequence, why)

    def _added(self, operations: list[Any]) -> bool:
        for kind, table, number, document in operations:
            # Compared one by one: a pattern takes six times as long, at each opening.
            if type(table) is not str or type(number) is not int or type(document) is not dict:
                return False
            rows = self._tables.get(table) or self._tables.setdefault(table, {})
            if kind != INSERT or number in rows:
                return False
            rows[number] = document
        return True


@contextmanager
def collection_paused() -> Iterator[None]:
    """Spares the search for circles among thousands of new entries, which hold none."""
    running = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if running:
            gc.enable()


class Additions:
    """A table as the one who changes it sees it: it can only grow."""

    def __init__(self, rows: Rows, refuse: Callable[[str], Never]) -> None:
        self.added: dict[int, dict[str, Any]] = {}
        self._rows = rows
        self._refuse = refuse

    def __contains__(self, number: int) -> bool:
        """TinyDB asks before it puts a document in: no number is given twice."""
        self._refuse_second(number)
        return False

    def __setitem__(self, number: int, document: dict[str, Any]) -> None:
        """Notes a document that is to be saved."""
        self._refuse_second(number)
        self.added[number] = document

    def clear(self) -> None:
        """TinyDB clears a table that is to exist while it is empty."""
        if self._rows:
            self._refuse("clear")

    def _refuse_second(self, number: int) -> None:
        if number in self.added or number in self._rows:
            self._refuse(f"a second document {number}")


def copied(value: Any) -> Any:  # noqa: ANN401 - the parts of a document are of any kind
    """A copy of a document that shares nothing with it."""
    if isinstance(value, dict):
        return {name: copied(part) for name, part in value.items()}
    if isinstance(value, list):
        return [copied(part) for part in value]
    return value
