"""Bits flipped, ends cut off and lines torn, at one offset after another."""

import random
from collections.abc import Callable, Iterable
from itertools import cycle, islice
from pathlib import Path

from fieldapp.journal.errors import JournalDamagedError, JournalFormatError
from fieldapp.journal.lines.anchor import anchor_path, begin
from fieldapp.journal.lines.chain import walk
from fieldapp.journal.store import JobDB
from tests.faults.outcome import Outcome
from tests.journal.conftest import DEVICE, clock
from tests.journal.writer import document

ENTRIES = 30

Change = Callable[[bytes, int], bytes]


def flipped(folder: Path, times: int) -> Outcome:
    """One bit turned over; the offsets and the eight bits by turns."""
    return _changed(folder, "one bit flipped", times, _flip, forget=False)


def cut_off(folder: Path, times: int) -> Outcome:
    """The end gone from an offset on."""
    return _changed(folder, "end cut off", times, lambda raw, at: raw[:at], forget=False)


def flipped_unanchored(folder: Path, times: int) -> Outcome:
    """The same flips while the head lags behind, as it does after a power cut."""
    return _changed(folder, "one bit flipped, head lags behind", times, _flip, forget=True)


def torn(folder: Path, times: int) -> Outcome:
    """The last line written in part, and what an old sector held after it."""
    chance = random.Random(3)

    def tear(raw: bytes, at: int) -> bytes:
        last = raw.rindex(b"\n", 0, len(raw) - 1) + 1
        end = last + 1 + at % (len(raw) - last - 1)  # without a byte of it there is no torn line
        rest = len(raw) - end
        old = chance.choice((b"", bytes(rest), chance.randbytes(rest).replace(b"\n", b" ")))
        return raw[:end] + old

    return _changed(folder, "last line torn, then nothing, zeros or rubbish", times, tear,
                    forget=True)  # fmt: skip


def _changed(folder: Path, fault: str, times: int, change: Change, *, forget: bool) -> Outcome:
    path = folder / "job.journal"
    given = [document(number) for number in range(1, ENTRIES + 1)]
    with JobDB(path, device=DEVICE, clock=clock) as job:
        for each in given:
            job.table("events").insert(each)
    raw, head = path.read_bytes(), anchor_path(path).read_bytes()
    silent = 0
    for place in islice(cycle(range(len(raw))), times):
        _restore(path, change(raw, place), head, forget=forget)
        silent += _is_silent(path, given)
    return Outcome(fault, times, ENTRIES, silent=silent)


def _restore(path: Path, raw: bytes, head: bytes, *, forget: bool) -> None:
    path.write_bytes(raw)
    anchor_path(path).write_bytes(head)
    if forget:
        anchor_path(path).unlink()
        begin(anchor_path(path))


def _is_silent(path: Path, given: list[dict[str, object]]) -> bool:
    """Whether a journal opens without a word though what it holds is not what was given."""
    before = path.read_bytes()
    try:
        with JobDB(path, device=DEVICE, clock=clock) as job:
            kept, notices = job.table("events").all(), job.notices
    except (JournalDamagedError, JournalFormatError):
        return path.read_bytes() != before
    _remove(path.parent.glob("*.torn-*"))
    if kept == given:
        return False
    whole = len(walk(before).bodies)
    return not notices or kept != given[:whole]


def _flip(raw: bytes, place: int) -> bytes:
    changed = bytearray(raw)
    changed[place] ^= 1 << place % 8
    return bytes(changed)


def _remove(paths: Iterable[Path]) -> None:
    for path in paths:
        path.unlink()
