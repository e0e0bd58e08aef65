"""The same steps as on Windows, played on this system through fakes.

What is played: a lock that nobody holds twice, not even the same program (filelock calls the
system's own there); no fdatasync; folders that cannot be synced; no file replaced while it is open.
What cannot be tried here is the system itself: its disks, virus scanners and network shares.
"""

import os
from pathlib import Path
from types import SimpleNamespace
from typing import ClassVar

import pytest
from filelock import Timeout

from fieldapp.actions.entering import enter
from fieldapp.actions.rules import Act
from fieldapp.handover.backup import copy_all
from fieldapp.handover.receiving import receive
from fieldapp.handover.sending import hand_over
from fieldapp.journal.errors import JournalBusyError, JournalDamagedError
from fieldapp.journal.jobs import Jobs, KeptJob
from fieldapp.journal.lines import disk
from fieldapp.journal.lines.chain import Head
from fieldapp.journal.lines.file import Journal
from fieldapp.journal.tablets.gap import state_gap
from tests.actions.play import BEGIN, CHECKLIST, LEAD, SHEET, TECHNICIAN
from tests.journal.conftest import DEVICE, clock

NUMBER = "KM-2031.04"


class OneHolderLock:
    """A lock as Windows gives it: a second holder is refused at once, whoever it is."""

    held: ClassVar[set[str]] = set()

    def __init__(self, path, **_):
        self.path = str(path)
        self.mine = False

    def acquire(self):
        if self.path in self.held:
            raise Timeout(self.path)
        self.held.add(self.path)
        self.mine = True

    def release(self):
        if self.mine:
            self.held.discard(self.path)


def open_files():
    """The files that this program has open."""
    found = set()
    for descriptor in Path("/proc/self/fd").iterdir():
        try:
            found.add(str(descriptor.readlink()))
        except FileNotFoundError:  # the listing's own
            continue
    return found


@pytest.fixture(autouse=True)
def windows(monkeypatch):
    """Returns the names of the files that were synced."""
    synced = []
    replace = Path.replace

    def sync(descriptor):
        synced.append(Path(f"/proc/self/fd/{descriptor}").readlink().name)
        os.fsync(descriptor)

    def replaced(source, target):
        in_use = open_files() & {str(source), str(target)}
        if in_use:
            raise PermissionError(13, f"in use: {in_use}")
        return replace(source, target)

    monkeypatch.setattr(OneHolderLock, "held", set())
    monkeypatch.setattr(disk, "FileLock", OneHolderLock)
    monkeypatch.setattr(disk, "os", SimpleNamespace(name="nt", fsync=sync))
    monkeypatch.setattr(disk, "_sync_content", sync)
    monkeypatch.setattr(Path, "replace", replaced)
    return synced


def test_entries_are_synced_and_read_again(open_journal, windows):
    journal = open_journal()
    windows.clear()
    journal.append(["one"])
    assert windows == ["job.journal"]
    assert [body.operations for body in open_journal().scan()] == [["one"]]


def test_second_window_is_told_and_the_first_goes_on(open_journal, path):
    journal = open_journal()
    for _ in range(2):
        with pytest.raises(JournalBusyError, match="open in another window"):
            Journal(path, device=DEVICE, clock=clock)
    journal.append(["one"])
    assert journal.head.sequence == 1
    journal.close()
    assert OneHolderLock.held == set()


def test_lock_is_let_go_when_a_damaged_journal_is_refused(open_journal, path):
    open_journal().append(["one"])
    open_journal().close()
    path.write_bytes(b"")
    for _ in range(2):
        with pytest.raises(JournalDamagedError):
            open_journal()
    assert OneHolderLock.held == set()


def test_torn_end_is_set_aside_though_no_open_file_can_be_replaced(open_journal, path):
    open_journal().append(["one"])
    open_journal().close()
    path.write_bytes(path.read_bytes() + b'["torn')
    assert "6 bytes" in open_journal().notices[0]
    assert open_journal().head != Head(0, "")


def test_job_is_begun_copied_handed_over_and_gone_on_with(tmp_path):
    home, card, other = tmp_path / "one", tmp_path / "card", tmp_path / "two"
    jobs = Jobs(home, lambda: BEGIN)
    assert isinstance(jobs.begin(CHECKLIST, SHEET, TECHNICIAN), KeptJob)
    assert [each.refused for each in copy_all(home, card)] == [""]  # while the job is open
    jobs.close()
    assert [each.refused for each in copy_all(home, card)] == [""]
    receive(hand_over(home, NUMBER, BEGIN), other, "two", None)
    there = Jobs(other, lambda: BEGIN)
    assert there.open(NUMBER).job.state.next_sequence == 1
    there.close()


def test_gap_is_stated_with_the_journal_replaced_as_a_whole(tmp_path):
    jobs = Jobs(tmp_path, lambda: BEGIN)
    kept = jobs.begin(CHECKLIST, SHEET, TECHNICIAN)
    assert isinstance(kept, KeptJob)
    outcome = enter(kept.job, "permit_ends", {"value": "18:00"}, Act(TECHNICIAN, BEGIN))
    assert kept.keep(outcome) is None
    jobs.close()
    journal = next(tmp_path.glob("jobs/*/*.journal"))
    journal.write_bytes(journal.read_bytes().splitlines(keepends=True)[0])
    stated = state_gap(
        journal, device=jobs.device, who=LEAD, reason="power went", clock=lambda: BEGIN
    )
    assert stated.missing == 1
    assert jobs.open(NUMBER).job.state.next_sequence == 2
    jobs.close()
