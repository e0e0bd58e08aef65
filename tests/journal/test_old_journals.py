"""Journals of every released format are kept for ever and must still replay."""

import json
import shutil
from pathlib import Path

import pytest

from fieldapp.journal.lines.reading import salvage
from fieldapp.journal.store import JobDB
from tests.journal.conftest import clock

OLD = Path(__file__).with_name("old")
FORMATS = sorted(folder.name for folder in OLD.glob("format-*"))


@pytest.fixture(params=FORMATS)
def folder(request, tmp_path):
    return shutil.copytree(OLD / request.param, tmp_path / request.param)


def test_there_is_a_journal_of_the_first_format():
    assert "format-1" in FORMATS


def test_old_journal_still_replays(folder):
    expected = json.loads((folder / "expected.json").read_text(encoding="utf-8"))
    before = (folder / "job.journal").read_bytes()
    with JobDB(folder / "job.journal", device="tablet-7", clock=clock) as db:
        assert db.storage.read() == expected["tables"]
        assert db.head.sequence == expected["head"]["sequence"]
        assert db.head.hash == expected["head"]["hash"]
        assert db.notices == ()
        assert (folder / "job.journal").read_bytes() == before


def test_old_journal_can_be_gone_on_with(folder):
    expected = json.loads((folder / "expected.json").read_text(encoding="utf-8"))
    with JobDB(folder / "job.journal", device="tablet-7", clock=clock) as db:
        number = db.table("events").insert({"kind": "more"})
    assert number == len(expected["tables"]["events"]) + 1
    bodies, wrong = salvage(folder / "job.journal")
    assert wrong == ""
    assert len(bodies) == expected["head"]["sequence"] + 1
