"""Tests of adding to the file of a journal, also on a failing disk."""

import errno
import json
from datetime import datetime

import pytest

from fieldapp.errors import FieldAppError
from fieldapp.journal.errors import (
    JournalPoisonedError,
    JournalUnavailableError,
    NoSpaceError,
)
from fieldapp.journal.lines import disk
from fieldapp.journal.lines.anchor import anchor_path, heads_at, newest
from fieldapp.journal.lines.chain import Body, Head
from tests.journal.conftest import DEVICE


class Disk:
    """A disk that works until it is told to fail."""

    def __init__(self):
        self.failing = None
        self.takes = 0
        self.done: list[str] = []

    @property
    def error(self):
        return errno.EIO if self.failing == errno.EIO else errno.ENOSPC

    def write(self, file, part):
        self.done.append(f"write {'head' if str(file.name).endswith('.head') else 'entry'}")
        if self.failing not in (None, "sync"):
            if self.takes == 0:
                raise OSError(self.error, "as told")
            taken, self.takes = self.takes, 0
            return file.write(part[:taken])
        return file.write(part)

    def sync(self, file):
        self.done.append("sync")
        if self.failing in ("sync", "full and failing"):
            raise OSError(errno.EIO, "as told")
        disk.sync(file)


@pytest.fixture
def failing():
    return Disk()


@pytest.fixture
def journal(open_journal, failing):
    opened = open_journal(sync=failing.sync, write=failing.write)
    opened.append(["first"])
    failing.done.clear()
    return opened


def operations(journal):
    return [body.operations for body in journal.scan()]


def test_new_journal_is_empty(open_journal):
    journal = open_journal()
    assert (journal.scan(), journal.head, journal.notices) == ((), Head(0, "0" * 64), ())


def test_entry_says_who_when_what_and_which(open_journal):
    assert open_journal().append([["insert", "events", 1, {"b": "0.50"}]]) == Body(
        device=DEVICE,
        format=1,
        operations=[["insert", "events", 1, {"b": "0.50"}]],
        previous="0" * 64,
        sequence=1,
        time="2031-05-04T08:30:00.000+02:00",
    )


def test_entries_are_there_when_opened_again(open_journal):
    journal = open_journal()
    written = tuple(journal.append([number]) for number in range(5))
    head = journal.head
    journal = open_journal()
    assert (journal.scan(), journal.head, journal.notices) == (written, head, ())
    journal.append(["more"])
    assert operations(journal) == [[0], [1], [2], [3], [4], ["more"]]


def test_entry_is_written_then_synced_then_remembered_then_acknowledged(journal, failing):
    journal.append(["second"])
    assert failing.done == ["write entry", "sync", "write head"]


def test_head_is_the_hash_of_the_last_line(open_journal, path):
    journal = open_journal()
    for number in range(3):
        journal.append([number])
    last = path.read_bytes().splitlines()[-1]
    assert journal.head == Head(3, json.loads(last)[0])
    assert newest(heads_at(anchor_path(path))) == journal.head


@pytest.mark.parametrize("takes", [0, 1, 30, 150])
def test_entry_without_space_is_not_saved_and_the_next_one_is(
    journal, failing, open_journal, path, takes
):
    before = path.read_bytes()
    failing.failing, failing.takes = errno.ENOSPC, takes
    with pytest.raises(NoSpaceError, match="NOT SAVED") as caught:
        journal.append(["second"])
    assert caught.value.path == path
    assert path.read_bytes() == before
    failing.failing = None
    journal.append(["third"])
    assert operations(journal) == [["first"], ["third"]]
    assert operations(open_journal()) == [["first"], ["third"]]


def test_disk_that_takes_a_part_and_fails_stops_the_journal(journal, failing, open_journal, path):
    before = path.read_bytes()
    failing.failing, failing.takes = errno.EIO, 30
    with pytest.raises(JournalPoisonedError, match="NOT SAVED"):
        journal.append(["second"])
    failing.failing = None
    with pytest.raises(JournalPoisonedError, match="did not take the last entry"):
        journal.append(["third"])
    assert path.read_bytes() == before
    assert operations(open_journal()) == [["first"]]


def test_part_that_cannot_be_cut_off_stops_the_journal(path, open_journal, failing):
    journal = open_journal()
    journal.append(["first"])
    journal.close()
    before = path.read_bytes()
    journal = open_journal(sync=failing.sync, write=failing.write)
    failing.failing, failing.takes = "full and failing", 30
    with pytest.raises(JournalPoisonedError, match="could not be removed"):
        journal.append(["second"])
    assert path.read_bytes() == before
    failing.failing = None
    with pytest.raises(JournalPoisonedError):
        journal.append(["third"])
    assert operations(open_journal()) == [["first"]]


def test_failed_sync_stops_the_journal_and_is_never_tried_again(journal, failing, open_journal):
    failing.failing = "sync"
    with pytest.raises(JournalPoisonedError, match=r"NOT SAVED.*open it again") as caught:
        journal.append(["second"])
    assert "did not confirm" in caught.value.why
    failing.failing = None
    failing.done.clear()
    for _ in range(3):
        with pytest.raises(JournalPoisonedError):
            journal.append(["third"])
    assert failing.done == []
    assert journal.head.sequence == 1
    assert operations(open_journal())[0] == ["first"]


def test_entry_of_a_failed_sync_is_written_once_more_before_it_counts(
    journal, failing, open_journal, path
):
    failing.failing = "sync"
    with pytest.raises(JournalPoisonedError):
        journal.append(["second"])
    after = path.read_bytes()
    again = Disk()
    reopened = open_journal(sync=again.sync, write=again.write)
    assert again.done == ["write entry", "sync", "write head", "sync"]
    assert path.read_bytes() == after
    assert operations(reopened) == [["first"], ["second"]]
    assert newest(heads_at(anchor_path(path))) == reopened.head
    assert reopened.head.sequence == 2


def test_interrupted_writing_stops_the_journal(path, open_journal):
    def interrupted(file, part):
        file.write(part[:50])
        raise KeyboardInterrupt

    journal = open_journal(write=interrupted)
    with pytest.raises(KeyboardInterrupt):
        journal.append(["first"])
    with pytest.raises(JournalPoisonedError, match="interrupted"):
        journal.append(["second"])
    journal = open_journal()
    assert operations(journal) == []
    assert len(journal.notices) == 1


def test_torn_line_is_set_aside_and_reported(open_journal, path):
    journal = open_journal()
    journal.append(["first"])
    journal.close()
    whole = path.read_bytes()
    for number in (1, 2):
        path.write_bytes(whole + b'["torn')
        journal = open_journal()
        assert operations(journal) == [["first"]]
        (notice,) = journal.notices
        assert "last 6 bytes were not a whole entry" in notice
        assert f"job.journal.torn-{number}" in notice
        assert path.with_name(f"job.journal.torn-{number}").read_bytes() == b'["torn'
        assert path.read_bytes() == whole
        journal.close()


def test_without_space_for_the_torn_line_the_journal_can_be_read(open_journal, path):
    open_journal().append(["first"])
    journal = open_journal()
    journal.close()
    whole = path.read_bytes()
    path.write_bytes(whole + b'["torn')

    def full(file):
        raise OSError(errno.ENOSPC, "as told")

    journal = open_journal(sync=full)
    assert operations(journal) == [["first"]]
    assert "make space" in journal.notices[0]
    with pytest.raises(JournalPoisonedError, match="no space to set the torn end"):
        journal.append(["second"])
    journal = open_journal()
    journal.append(["second"])
    assert operations(open_journal()) == [["first"], ["second"]]


def test_torn_line_that_a_failing_disk_does_not_let_go_stops_the_opening(open_journal, path):
    open_journal().append(["first"])
    open_journal().close()
    torn = path.read_bytes() + b'["torn'
    path.write_bytes(torn)

    def failing(file):
        raise OSError(errno.EIO, "as told")

    with pytest.raises(JournalUnavailableError, match="as told"):
        open_journal(sync=failing)
    assert path.with_name("job.journal.torn-1").read_bytes() == b'["torn'
    assert operations(open_journal()) == [["first"]]


def test_head_that_cannot_be_written_is_reported_once_and_loses_nothing(
    path, open_journal, failing
):
    def write(file, part):
        if str(file.name) == str(anchor_path(path)) and failing.failing:
            raise OSError(errno.EIO, "as told")
        return file.write(part)

    journal = open_journal(write=write)
    failing.failing = "head"
    journal.append(["first"])
    journal.append(["second"])
    assert len(journal.notices) == 1
    assert "job.journal.head: could not be written (as told)" in journal.notices[0]
    journal = open_journal()
    assert operations(journal) == [["first"], ["second"]]
    assert newest(heads_at(anchor_path(path))) == journal.head


def test_closed_journal_takes_nothing(open_journal):
    journal = open_journal()
    journal.close()
    with pytest.raises(JournalPoisonedError, match="was closed"):
        journal.append(["first"])


def test_clock_without_zone_is_a_mistake_of_ours(open_journal):
    journal = open_journal(clock=lambda: datetime(2031, 5, 4))  # noqa: DTZ001 - on purpose
    with pytest.raises(ValueError, match="zone"):
        journal.append(["first"])


def test_document_that_is_refused_leaves_the_journal_usable(open_journal):
    journal = open_journal()
    with pytest.raises(FieldAppError, match=r"NOT SAVED, operations\.0\.a: 0\.5 is a float"):
        journal.append([{"a": 0.5}])
    journal.append(["first"])
    assert operations(open_journal()) == [["first"]]
