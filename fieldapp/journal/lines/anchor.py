"""The small file beside a journal that remembers the last acknowledged entry.

Without it nobody could tell a journal from the same journal with its end cut off.
"""

import json
from contextlib import suppress
from pathlib import Path
from typing import TypeAlias

from fieldapp.journal.lines import disk
from fieldapp.journal.lines.chain import START, Head, framed, unframed
from fieldapp.whole import write_whole

SLOT = 512

TwoHeads: TypeAlias = tuple[Head | None, Head | None]


class HeadAnchor:
    """Keeps the head in two places by turns, so that one of them is always whole."""

    def __init__(self, path: Path, heads: TwoHeads) -> None:
        self.head = newest(heads) or START
        self._turn = 1 if heads[0] is not None and heads[0] == self.head else 0
        self._file = path.open("r+b", buffering=0)

    def remember(self, head: Head, write: disk.Write, slot: bytes = b"") -> None:
        """Overwrites the older of the two heads; `slot` if it was made ready before."""
        disk.write_all(self._file, self._turn * SLOT, slot or slot_of(head), write)
        self._turn = 1 - self._turn
        self.head = head

    def sync(self, sync: disk.Sync) -> None:
        """Returns when the head is on the disk."""
        sync(self._file)

    def close(self) -> None:
        """Closes the file; a head that does not reach the disk only lags behind the journal."""
        with suppress(OSError):
            disk.sync(self._file)
        self._file.close()


def anchor_path(journal: Path) -> Path:
    """Where the head of a journal is remembered."""
    return journal.with_name(f"{journal.name}.head")


def begin(path: Path) -> None:
    """Makes an anchor that says that nothing was acknowledged yet."""
    write_whole(path, both_places(START))


def both_places(head: Head) -> bytes:
    """The bytes of an anchor that has a head in both of its places."""
    return 2 * slot_of(head)


def slot_of(head: Head) -> bytes:
    """The bytes of one place of an anchor."""
    _, line = framed(b'{"hash":"%b","sequence":%d}' % (head.hash.encode(), head.sequence))
    return line.ljust(SLOT)


def heads_at(path: Path) -> TwoHeads:
    """The heads in the two places; None for one that cannot be read."""
    raw = disk.content(path)
    return _head_in(raw[:SLOT]), _head_in(raw[SLOT : 2 * SLOT])


def newest(heads: TwoHeads) -> Head | None:
    """The later of the two heads that can be read."""
    readable = [head for head in heads if head is not None]
    return max(readable, key=lambda head: head.sequence, default=None)


def _head_in(slot: bytes) -> Head | None:
    found = unframed(slot.rstrip(b" ")) if len(slot) == SLOT else None
    if found is None:
        return None
    content = json.loads(found[1])
    return Head(content["sequence"], content["hash"])
