"""TinyDB over a journal: ordinary queries, and documents that are for ever."""

from collections.abc import Callable, Iterable, Mapping
from gc import is_tracked
from typing import Any, Never, cast

from tinydb import TinyDB
from tinydb.queries import QueryLike
from tinydb.storages import Storage
from tinydb.table import Document, Table
from tinydb.utils import LRUCache

from fieldapp.journal.errors import EntriesAreForEverError
from fieldapp.journal.lines.chain import Head
from fieldapp.journal.storage import Additions, JournalStorage, collection_paused, copied

_PARTED = frozenset({dict, list})


class Detached(Document):
    """A document handed out; it shares nothing with the one that is kept."""

    __slots__ = ("doc_id",)

    def __init__(self, value: Mapping[str, Any], doc_id: int) -> None:
        dict.__init__(self, value)  # straight: a whole job is handed out at each opening
        self.doc_id = doc_id
        # A dictionary that the collector need not follow holds no parts: known without a look.
        if is_tracked(value) and not _PARTED.isdisjoint(map(type, value.values())):
            self.update(copied(dict(value)))


class NoQueryCache(LRUCache[QueryLike, list[Document]]):
    """Remembers nothing, so that two who ask never share what they find."""

    def set(self, key: QueryLike, value: list[Document]) -> None:
        """Forgets it."""


class JournalTable(Table):
    """A table of documents that are inserted and never changed."""

    _storage: JournalStorage
    document_class = Detached
    query_cache_class = NoQueryCache  # type: ignore[assignment]

    def insert(self, document: Mapping[str, Any]) -> int:
        """The number of the document, once it is on the disk."""
        with self._storage.journal.lock:
            if type(document) is dict:
                return self._added([document])[0]
            return super().insert(_with_own_number(document))

    def insert_multiple(self, documents: Iterable[Mapping[str, Any]]) -> list[int]:
        """The numbers of the documents, once all of them are on the disk as one entry."""
        with self._storage.journal.lock:
            given = list(documents)
            plain = [document for document in given if type(document) is dict]
            if len(plain) == len(given):
                return self._added(plain)
            return super().insert_multiple(map(_with_own_number, given))

    def all(self) -> list[Document]:
        """Every document, oldest first."""
        with collection_paused(), self._storage.journal.lock:
            rows = self._storage.rows(self.name)
            return [Detached(document, number) for number, document in rows.items()]

    def update(self, *_: object, **__: object) -> Never:
        """Refused."""
        self._refuse("update")

    def update_multiple(self, *_: object, **__: object) -> Never:
        """Refused."""
        self._refuse("update")

    def upsert(self, *_: object, **__: object) -> Never:
        """Refused."""
        self._refuse("upsert")

    def remove(self, *_: object, **__: object) -> Never:
        """Refused."""
        self._refuse("remove")

    def truncate(self) -> Never:
        """Refused."""
        self._refuse("truncate")

    def _added(self, documents: list[dict[str, Any]]) -> list[int]:
        """Plain documents, as most are, go straight to the journal: half the way of TinyDB's."""
        numbers = [self._get_next_id() for _ in documents]  # type: ignore[no-untyped-call]
        try:
            self._storage.insert(self.name, dict(zip(numbers, documents, strict=True)))
        except BaseException:
            self._next_id = None  # numbers given out in vain are given out again
            raise
        return numbers

    def _read_table(self) -> dict[str, Mapping[str, Any]]:
        with self._storage.journal.lock:
            rows = self._storage.rows(self.name)
            return {str(number): document for number, document in rows.items()}

    def _update_table(self, updater: Callable[[dict[int, Mapping[str, Any]]], None]) -> None:
        with self._storage.journal.lock:
            additions = Additions(self._storage.rows(self.name), self._refuse)
            try:
                updater(cast("dict[int, Mapping[str, Any]]", additions))
                self._storage.insert(self.name, additions.added)
            except BaseException:
                self._next_id = None
                raise

    def _refuse(self, act: str) -> Never:
        raise EntriesAreForEverError(self._storage.journal.path, self.name, act)


class JobDB(TinyDB):
    """The documents of one job on one device.

    >>> from datetime import UTC, datetime
    >>> from tempfile import TemporaryDirectory
    >>> def clock():
    ...     return datetime(2031, 5, 4, 8, 30, tzinfo=UTC)
    >>> with TemporaryDirectory() as folder:
    ...     with JobDB(f"{folder}/job.journal", device="tablet-7", clock=clock) as db:
    ...         number = db.table("events").insert({"reading": "0.50"})
    ...         print(number, db.table("events").all(), db.head.sequence)
    1 [{'reading': '0.50'}] 1
    """

    _storage: JournalStorage
    table_class = JournalTable
    default_storage_class: type[Storage] = JournalStorage  # type: ignore[assignment]

    @property
    def head(self) -> Head:
        """The last acknowledged entry: its number and its hash."""
        return self._storage.journal.head

    @property
    def notices(self) -> tuple[str, ...]:
        """What was found while opening and writing, and was no loss."""
        return self._storage.journal.notices

    def table(self, name: str, **options: Any) -> Table:  # noqa: ANN401 - as TinyDB has it
        """The table of this name; the same one for every thread."""
        with self._storage.journal.lock:
            return super().table(name, **options)

    def drop_table(self, name: str) -> Never:
        """Refused."""
        raise EntriesAreForEverError(self._storage.journal.path, name, "drop")

    def drop_tables(self) -> Never:
        """Refused."""
        raise EntriesAreForEverError(self._storage.journal.path, "all", "drop")


def _with_own_number(document: Mapping[str, Any]) -> Mapping[str, Any]:
    """A plain TinyDB document keeps the number it was given."""
    return Detached(document, document.doc_id) if isinstance(document, Document) else document
