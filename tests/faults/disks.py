"""Disks that are full or do not confirm, and clocks that jump back."""

import errno
import random
import subprocess
import sys
from datetime import UTC, datetime, timedelta
from io import FileIO
from pathlib import Path

from fieldapp.errors import FieldAppError
from fieldapp.journal.lines import disk
from fieldapp.journal.store import JobDB
from tests.faults.kills import ROOT
from tests.faults.outcome import Outcome
from tests.journal.conftest import DEVICE, clock
from tests.journal.writer import document


def full(folder: Path, times: int) -> Outcome:
    """A file that may not grow beyond a size (RLIMIT_FSIZE), another each time."""
    chance = random.Random(11)
    acknowledged = lost = 0
    wrong: list[str] = []
    for number in range(times):
        path = folder / f"{number}.journal"
        command = [sys.executable, "-m", "tests.journal.writer", str(path)]
        done = subprocess.run(
            [*command, str(chance.randint(3000, 40000))], cwd=ROOT, capture_output=True, check=False
        )
        said = [int(line) for line in done.stdout.splitlines()]
        acknowledged += len(said)
        lost += _missing(path, said)
        if b"NOT SAVED, the disk has no space left" not in done.stderr:
            wrong.append(f"disk {number}: no word of it")
    return Outcome("disk full", times, acknowledged, lost=lost, wrong=tuple(wrong))


def unconfirmed(folder: Path, times: int) -> Outcome:
    """A sync that fails once: the journal must stop, and say so again."""
    acknowledged = lost = 0
    wrong: list[str] = []
    for number in range(times):
        path = folder / f"{number}.journal"
        said, refused = _insert_until_refused(path, FailingOnce(number % 17 + 1))
        acknowledged += len(said)
        lost += _missing(path, said)
        if refused < 2:
            wrong.append(f"journal {number} went on after a failed sync")
    return Outcome("sync failed", times, acknowledged, lost=lost, wrong=tuple(wrong))


def clock_back(folder: Path, times: int) -> Outcome:
    """A clock that jumps to and fro by days: the order is that of the entries all the same."""
    chance = random.Random(5)

    def jumping() -> datetime:
        return datetime(2031, 5, 4, tzinfo=UTC) - timedelta(hours=chance.randint(-99, 99))

    path = folder / "clock.journal"
    said = []
    for start in range(1, times + 1, 10):
        with JobDB(path, device=DEVICE, clock=jumping) as job:
            for number in range(start, min(start + 10, times + 1)):
                job.table("events").insert(document(number))
                said.append(number)
    return Outcome("clock jumping back", times, len(said), lost=_missing(path, said))


class FailingOnce:
    """A sync that fails the n-th time only, as a disk does that then lies."""

    def __init__(self, failing: int) -> None:
        self._left = failing

    def __call__(self, file: FileIO) -> None:
        """Syncs, or fails."""
        self._left -= 1
        if self._left == 0:
            raise OSError(errno.EIO, "as told")
        disk.sync(file)


def _insert_until_refused(path: Path, sync: disk.Sync) -> tuple[list[int], int]:
    said: list[int] = []
    refused = 0
    with JobDB(path, device=DEVICE, clock=clock, sync=sync) as job:
        for number in range(1, 21):
            try:
                job.table("events").insert(document(number))
                said.append(number)
            except FieldAppError:
                refused += 1
    return said, refused


def _missing(path: Path, said: list[int]) -> int:
    with JobDB(path, device=DEVICE, clock=clock) as job:
        kept = job.table("events").all()
    return sum(kept[number - 1 : number] != [document(number)] for number in said)
