"""Tests of the replay of entries into tables."""

import json
from typing import Any

import pytest
import rfc8785
from tinydb.table import Table

from fieldapp.journal.errors import EntriesAreForEverError, JournalBusyError, JournalDamagedError
from fieldapp.journal.lines.chain import framed
from fieldapp.journal.storage import JournalStorage, copied
from tests.journal.conftest import DEVICE, clock

DOCUMENT: dict[str, Any] = {
    "reading": "0.50",
    "by": {"name": "A. Ample"},
    "photos": ["one", {"two": 2}],
}


@pytest.fixture
def open_storage(path):
    opened: list[JournalStorage] = []

    def opening():
        while opened:
            opened.pop().close()
        opened.append(JournalStorage(path, device=DEVICE, clock=clock))
        return opened[-1]

    yield opening
    while opened:
        opened.pop().close()


def test_new_storage_is_empty_as_tinydb_wants_it(open_storage):
    assert open_storage().read() is None


def test_replay_gives_the_tables_that_were_there(open_storage):
    storage = open_storage()
    storage.insert("events", {1: DOCUMENT, 2: {"b": 1}})
    storage.insert("photos", {1: {}})
    tables = storage.read()
    assert tables == {"events": {"1": DOCUMENT, "2": {"b": 1}}, "photos": {"1": {}}}
    assert open_storage().read() == tables


def test_order_of_keys_is_the_same_before_and_after_a_replay(open_storage):
    storage = open_storage()
    storage.insert("events", {1: {"b": 1, "a": {"d": 1, "c": 2}}})
    assert json.dumps(storage.read()) == json.dumps(open_storage().read())


def test_several_documents_are_one_line_and_none_is_no_line(open_storage, path):
    storage = open_storage()
    storage.insert("events", dict.fromkeys(range(5), DOCUMENT))
    storage.insert("events", {})
    assert len(path.read_bytes().splitlines()) == 1


def test_what_is_read_is_a_copy(open_storage):
    storage = open_storage()
    storage.insert("events", {1: DOCUMENT})
    storage.read()["events"]["1"]["by"]["name"] = "B. Bold"
    assert storage.read() == {"events": {"1": DOCUMENT}}


def test_stock_table_cannot_rewrite_the_journal(open_storage, path):
    storage = open_storage()
    storage.insert("events", {1: DOCUMENT})
    before = path.read_bytes()
    with pytest.raises(EntriesAreForEverError, match="overwriting"):
        Table(storage, "events").insert({"a": 1})
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    "operation",
    [
        ["insert", "events", 1, {"a": 2}],
        ["remove", "events", 1],
        ["insert", "events", "2", {}],
        ["insert", "events", 2, []],
        ["insert", 5, 2, {}],
        "insert",
    ],
    ids=["number twice", "unknown", "number as text", "no document", "no table", "no list"],
)
def test_entry_that_no_version_wrote_is_damage_and_the_journal_is_let_go(
    open_storage, path, operation
):
    open_storage().insert("events", {1: {"a": 1}})
    open_storage().close()
    digest, body = json.loads(path.read_bytes())
    body |= {"operations": [operation], "previous": digest, "sequence": 2}
    with path.open("ab") as file:
        file.write(framed(rfc8785.dumps(body))[1])
    for _ in range(2):
        with pytest.raises(JournalDamagedError, match="entry 2: it adds to no table") as caught:
            open_storage()
        assert not isinstance(caught.value, JournalBusyError)


def test_copy_shares_nothing():
    copy = copied(DOCUMENT)
    assert copy == DOCUMENT
    assert copy is not DOCUMENT
    assert copy["by"] is not DOCUMENT["by"]
    assert copy["photos"] is not DOCUMENT["photos"]
    assert copy["photos"][1] is not DOCUMENT["photos"][1]
