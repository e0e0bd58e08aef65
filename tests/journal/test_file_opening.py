"""Tests of opening and salvaging the file of a journal."""

from threading import Thread

import pytest

from fieldapp.journal.errors import (
    JournalBusyError,
    JournalDamagedError,
    JournalFormatError,
    JournalOfOtherDeviceError,
    JournalUnavailableError,
)
from fieldapp.journal.lines.anchor import anchor_path, heads_at
from fieldapp.journal.lines.file import Journal
from fieldapp.journal.lines.reading import salvage
from tests.journal.conftest import DEVICE, clock
from tests.journal.test_chain import rehashed


def operations(journal):
    return [body.operations for body in journal.scan()]


def test_journal_without_its_anchor_is_damaged(open_journal, path):
    open_journal().append(["first"])
    open_journal().close()
    anchor_path(path).unlink()
    with pytest.raises(JournalDamagedError, match=r"head file.*missing") as caught:
        open_journal()
    assert (caught.value.path, caught.value.entry) == (path, 2)


def test_damaged_place_of_the_anchor_is_reported_and_written_anew(open_journal, path):
    open_journal().append(["first"])
    open_journal().close()
    beside = anchor_path(path)
    raw = beside.read_bytes()
    for place in (10, 522):
        changed = bytearray(raw)
        changed[place] ^= 1
        beside.write_bytes(changed)
        journal = open_journal()
        assert "one of its two places was damaged" in journal.notices[0]
        assert journal.head.sequence == 1
        journal.close()
        assert None not in heads_at(beside)
        assert open_journal().notices == ()


@pytest.mark.parametrize("left", [0, 1, 2])
def test_acknowledged_entries_that_are_missing_are_damage(open_journal, path, left):
    journal = open_journal()
    for number in range(3):
        journal.append([number])
    journal.close()
    path.write_bytes(b"".join(path.read_bytes().splitlines(keepends=True)[:left]))
    with pytest.raises(JournalDamagedError, match=f"{3 - left} saved entr") as caught:
        open_journal()
    assert caught.value.entry == left + 1


def test_journal_that_is_gone_while_its_anchor_is_there_is_damaged(open_journal, path):
    open_journal().append(["first"])
    open_journal().close()
    path.unlink()
    with pytest.raises(JournalDamagedError, match="1 saved entry is missing"):
        open_journal()
    assert not path.exists()


def test_beginning_that_was_interrupted_is_begun_again(open_journal, path):
    open_journal().close()
    path.unlink()
    journal = open_journal()
    journal.append(["first"])
    assert journal.notices == ()


def test_rewritten_chain_is_shown_by_its_anchor(open_journal, path):
    journal = open_journal()
    journal.append(["first"])
    journal.close()
    path.write_bytes(rehashed(path.read_bytes(), 1, operations=["other"]))
    with pytest.raises(JournalDamagedError, match="not the entry that was saved"):
        open_journal()


def test_damaged_journal_is_left_as_it_is_and_not_held(open_journal, path):
    open_journal().append(["first"])
    open_journal().close()
    path.write_bytes(b"x" + path.read_bytes())
    before = {file.name: file.read_bytes() for file in path.parent.iterdir()}
    for _ in range(2):
        with pytest.raises(JournalDamagedError, match="Nothing was changed"):
            open_journal()
    assert {file.name: file.read_bytes() for file in path.parent.iterdir()} == before


def test_change_on_disk_is_seen_by_the_next_scan(open_journal, path):
    journal = open_journal()
    journal.append(["first"])
    journal.scan()
    path.write_bytes(path.read_bytes().replace(b"first", b"frost"))
    with pytest.raises(JournalDamagedError):
        journal.scan()


def test_newer_format_is_left_alone(open_journal, path):
    open_journal().append(["first"])
    open_journal().close()
    path.write_bytes(rehashed(path.read_bytes(), 1, format=2))
    for reading in (open_journal, lambda: salvage(path)):
        with pytest.raises(JournalFormatError, match="kept in format 2") as caught:
            reading()
        assert (caught.value.written, caught.value.known) == (2, 1)


def test_journal_of_another_device_is_not_added_to(open_journal):
    open_journal().append(["first"])
    with pytest.raises(JournalOfOtherDeviceError, match="belongs to tablet-7") as caught:
        open_journal(device="tablet-8")
    assert (caught.value.device, caught.value.written_by) == ("tablet-8", DEVICE)


def test_second_opening_is_told_that_it_is_busy(open_journal, path):
    journal = open_journal()
    for _ in range(2):
        with pytest.raises(JournalBusyError, match="Close it there") as caught:
            Journal(path, device=DEVICE, clock=clock)
    assert caught.value.path == path
    journal.append(["first"])
    journal.close()
    assert operations(open_journal()) == [["first"]]


@pytest.mark.parametrize("name", ["missing/job.journal", "."])
def test_place_that_cannot_be_opened_is_named(tmp_path, name):
    with pytest.raises(JournalUnavailableError) as caught:
        Journal(tmp_path / name, device=DEVICE, clock=clock)
    assert caught.value.path == tmp_path / name


def test_journal_may_be_closed_in_another_thread(open_journal):
    journal = open_journal()
    thread = Thread(target=journal.close)
    thread.start()
    thread.join()
    assert operations(open_journal()) == []


def test_salvage_of_a_sound_journal_finds_nothing_wrong(open_journal, path):
    journal = open_journal()
    journal.append(["first"])
    assert salvage(path) == (journal.scan(), "")


def test_salvage_reads_up_to_the_damage_and_changes_nothing(open_journal, path):
    journal = open_journal()
    for number in range(5):
        journal.append([number])
    journal.close()
    path.write_bytes(path.read_bytes().replace(b"[3]", b"[8]"))
    before = {file.name: file.read_bytes() for file in path.parent.iterdir()}
    bodies, wrong = salvage(path)
    assert [body.operations for body in bodies] == [[0], [1], [2]]
    assert wrong == f"{path}, entry 4: it is not as it was written"
    assert {file.name: file.read_bytes() for file in path.parent.iterdir()} == before


def test_salvage_reports_a_torn_line(open_journal, path):
    open_journal().append(["first"])
    path.write_bytes(path.read_bytes() + b"torn")
    bodies, wrong = salvage(path)
    assert [body.operations for body in bodies] == [["first"]]
    assert "last 4 bytes" in wrong


def test_salvage_of_nothing_says_so(path):
    with pytest.raises(JournalUnavailableError):
        salvage(path)
