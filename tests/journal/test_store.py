"""Tests of the documents over a journal."""

import errno
import json
from threading import Barrier, Thread

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tinydb import TinyDB, where
from tinydb.storages import MemoryStorage
from tinydb.table import Document

from fieldapp.journal.errors import (
    DocumentRefusedError,
    EntriesAreForEverError,
    JournalPoisonedError,
    NoSpaceError,
)
from fieldapp.journal.lines import disk
from fieldapp.journal.store import JobDB
from tests.journal.conftest import DEVICE, clock
from tests.journal.documents import documents

DOCUMENT = {"reading": "0.50", "by": {"name": "A. Ample"}, "photos": ["one", {"two": 2}]}


class Full:
    """A disk that is full when told."""

    full = False

    def __call__(self, file, part):
        if self.full:
            raise OSError(errno.ENOSPC, "as told")
        return disk.write(file, part)


def test_documents_are_there_when_opened_again(open_store):
    events = open_store().table("events")
    assert [events.insert({"reading": text}) for text in ("0.50", "12.5")] == [1, 2]
    events = open_store().table("events")
    assert events.all() == [{"reading": "0.50"}, {"reading": "12.5"}]
    assert [event.doc_id for event in events.all()] == [1, 2]
    assert events.insert({"reading": "3"}) == 3


def test_store_answers_as_a_stock_tinydb_does(open_store):
    stock = TinyDB(storage=MemoryStorage)
    ours = open_store()
    many = [{"step": f"s{number % 3}", "number": number, "in": [number]} for number in range(20)]
    for db in (stock, ours):
        db.table("events").insert_multiple(many)
        db.insert({"default": True})
        db.table("photos").insert(Document({"a": 1}, doc_id=7))
        db.table("photos").insert({"a": 2})
    for db in (ours, open_store()):
        for name in ("events", "photos", "_default", "nothing"):
            mine, other = db.table(name), stock.table(name)
            assert mine.all() == other.all()
            assert [each.doc_id for each in mine] == [each.doc_id for each in other]
            assert len(mine) == len(other)
        events, other = db.table("events"), stock.table("events")
        for query in (where("step") == "s1", where("number") > 100, where("in").any([3])):
            assert events.search(query) == other.search(query)
            assert events.get(query) == other.get(query)
            assert events.count(query) == other.count(query)
            assert events.contains(query) == other.contains(query)
        assert events.get(doc_id=3) == other.get(doc_id=3)
        assert events.get(doc_id=99) is None
        assert events.get(doc_ids=[2, 99, 4]) == other.get(doc_ids=[2, 99, 4])
        assert db.tables() == stock.tables()
        assert len(db) == len(stock)


def test_insert_is_one_line_and_so_is_insert_multiple(open_store, path):
    db = open_store()
    db.table("events").insert(DOCUMENT)
    db.table("events").insert_multiple(DOCUMENT for _ in range(50))
    db.table("events").insert_multiple([])
    assert len(path.read_bytes().splitlines()) == 2
    assert db.head.sequence == 2
    assert json.loads(path.read_bytes().splitlines()[1])[0] == db.head.hash


@pytest.mark.parametrize(
    "act",
    [
        lambda db: db.table("events").update({"reading": "1"}),
        lambda db: db.table("events").update({"reading": "1"}, where("reading") == "0.50"),
        lambda db: db.table("events").update_multiple([({"a": 1}, where("a") == 2)]),
        lambda db: db.table("events").upsert({"reading": "1"}, where("reading") == "0.50"),
        lambda db: db.table("events").remove(where("reading") == "0.50"),
        lambda db: db.table("events").remove(doc_ids=[1]),
        lambda db: db.table("events").truncate(),
        lambda db: db.table("events").insert(Document({"reading": "1"}, doc_id=1)),
        lambda db: db.table("events").insert(db.table("events").get(doc_id=1)),
        lambda db: db.table("events").insert_multiple([{}, Document({}, doc_id=1)]),
        lambda db: db.table("events").insert_multiple([Document({}, 5), Document({}, 5)]),
        lambda db: db.table("events").insert_multiple([Document({}, 2), {}, {}]),
        lambda db: db.update({"a": 1}),
        lambda db: db.truncate(),
        lambda db: db.drop_table("events"),
        lambda db: db.drop_table("nothing"),
        lambda db: db.drop_tables(),
    ],
)
def test_entries_are_for_ever(open_store, path, act):
    db = open_store()
    db.table("events").insert(DOCUMENT)
    before = path.read_bytes()
    with pytest.raises(EntriesAreForEverError, match="Insert a further document") as caught:
        act(db)
    assert caught.value.path == path
    assert path.read_bytes() == before
    assert db.table("events").all() == [DOCUMENT]
    assert db.table("events").insert({}) == 2


def test_documents_handed_out_and_in_share_nothing_with_those_kept(open_store):
    db = open_store()
    events = db.table("events")
    given_in = json.loads(json.dumps(DOCUMENT))
    events.insert(given_in)
    query = where("reading") == "0.50"
    ways = [
        lambda: events.all()[0],
        lambda: events.search(query)[0],
        lambda: events.search(query)[0],
        lambda: events.get(query),
        lambda: events.get(doc_id=1),
        lambda: events.get(doc_ids=[1])[0],
        lambda: next(iter(events)),
        lambda: given_in,
    ]
    for way in ways:
        document = way()
        document["photos"][1]["two"] = 3
        document["by"].clear()
        document["reading"] = "9"
    assert events.all() == [DOCUMENT]
    assert open_store().table("events").all() == [DOCUMENT]


def test_refused_document_changes_nothing_and_wastes_no_number(open_store, path):
    events = open_store().table("events")
    events.insert(DOCUMENT)
    before = path.read_bytes()
    with pytest.raises(DocumentRefusedError, match=r"reading: 0\.5 is a float"):
        events.insert({"reading": 0.5})
    with pytest.raises(DocumentRefusedError):
        events.insert_multiple([{"reading": "0.5"}, {"reading": 0.5}])
    assert path.read_bytes() == before
    assert events.all() == [DOCUMENT]
    assert events.insert({}) == 2


def test_memory_changes_only_when_the_entry_is_saved(open_store):
    disk_of_store = Full()
    db = open_store(write=disk_of_store)
    db.table("events").insert(DOCUMENT)
    disk_of_store.full = True
    for _ in range(3):
        with pytest.raises(NoSpaceError):
            db.table("events").insert({"reading": "1"})
        with pytest.raises(NoSpaceError):
            db.table("events").insert_multiple([{}, {}])
        assert db.table("events").all() == [DOCUMENT]
        assert db.head.sequence == 1
    disk_of_store.full = False
    assert db.table("events").insert({"reading": "2"}) == 2
    assert open_store().table("events").all() == [DOCUMENT, {"reading": "2"}]


def test_failed_sync_leaves_memory_as_it_was_and_reading_possible(open_store):
    def failing(file):
        raise OSError(errno.EIO, "as told")

    open_store().table("events").insert(DOCUMENT)
    db = open_store(sync=failing)
    for _ in range(2):
        with pytest.raises(JournalPoisonedError):
            db.table("events").insert({"reading": "1"})
        assert db.table("events").all() == [DOCUMENT]


def test_empty_table_that_is_to_exist_writes_nothing(open_store, path):
    db = open_store()
    db.table("events", persist_empty=True)
    assert path.read_bytes() == b""
    db.table("events").insert({})
    with pytest.raises(EntriesAreForEverError, match="clear"):
        open_store().table("events", persist_empty=True)


def test_notices_of_the_journal_are_those_of_the_store(open_store, path):
    open_store().table("events").insert(DOCUMENT)
    open_store().close()
    path.write_bytes(path.read_bytes() + b"torn")
    assert "last 4 bytes" in open_store().notices[0]
    assert open_store().notices == ()


def test_eight_threads_lose_nothing_and_share_no_number(open_store):
    db = open_store()
    start = Barrier(8)
    numbers = []
    failures = []

    def work(name):
        try:
            start.wait()
            for count in range(25):
                table = db.table("events")
                numbers.append(table.insert({"by": name, "count": count}))
                table.insert_multiple([{"by": name, "pair": count}, {"by": name, "pair": count}])
                assert table.search(where("by") == name)[-1]["pair"] == count
                assert len(table.all()) >= 3 * (count + 1)
        except BaseException as problem:
            failures.append(problem)
            raise

    threads = [Thread(target=work, args=(name,)) for name in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert failures == []
    assert len(set(numbers)) == len(numbers) == 200
    kept = open_store().table("events").all()
    assert len(kept) == 600
    for name in range(8):
        singles = [event["count"] for event in kept if event["by"] == name and "count" in event]
        assert singles == [*range(25)]


@given(batches=st.lists(documents | st.lists(documents, max_size=4), max_size=6))
def test_any_documents_are_read_back_identically_after_reopening(tmp_path_factory, batches):
    path = tmp_path_factory.mktemp("store") / "job.journal"
    expected = []
    with JobDB(path, device=DEVICE, clock=clock) as db:
        for batch in batches:
            if isinstance(batch, list):
                db.table("events").insert_multiple(batch)
                expected += batch
            else:
                db.table("events").insert(batch)
                expected.append(batch)
        assert db.table("events").all() == expected
        before = json.dumps(db.table("events").all())
        head = db.head
    with JobDB(path, device=DEVICE, clock=clock) as db:
        assert json.dumps(db.table("events").all()) == before
        assert (db.head, db.notices) == (head, ())
