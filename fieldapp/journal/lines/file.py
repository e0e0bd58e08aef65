"""The file of a journal: opened whole or not at all, and only ever added to."""

from collections.abc import Callable
from contextlib import ExitStack, closing
from datetime import datetime
from io import FileIO
from pathlib import Path
from threading import RLock
from typing import Any, NoReturn

from fieldapp.journal.errors import (
    JournalOfOtherDeviceError,
    JournalPoisonedError,
    NoSpaceError,
)
from fieldapp.journal.lines import disk
from fieldapp.journal.lines.anchor import HeadAnchor, anchor_path, begin, heads_at, newest, slot_of
from fieldapp.journal.lines.chain import Body, Chain, Head, next_entry
from fieldapp.journal.lines.reading import sound_chain
from fieldapp.whole import write_whole


class Journal:
    """What one device did on one job, entry after entry.

    Parameters
    ----------
    path : the file; beside it stand PATH.head (the last acknowledged entry) and PATH.lock.
    device : the name of the tablet; only the device that began a journal adds to it.
    clock : returns the time of an entry, with its zone.
    each : is given every entry that is there already, oldest first, while the file is opened.
    sync, write : how bytes reach the disk.
    """

    head: Head
    """The last acknowledged entry."""

    _file: FileIO
    _anchor: HeadAnchor
    _end: int

    def __init__(
        self,
        path: Path | str,
        *,
        device: str,
        clock: Callable[[], datetime],
        each: Callable[[Body], object] | None = None,
        sync: disk.Sync = disk.sync,
        write: disk.Write = disk.write,
    ) -> None:
        self.path = Path(path)
        self.lock = RLock()
        self._device = device
        self._clock = clock
        self._sync = sync
        self._write = write
        self._notices: list[str] = []
        self._stopped = ""
        with ExitStack() as held, disk.named_trouble(self.path):
            held.enter_context(disk.alone(self.path))
            self._open(held, each)
            self._held = held.pop_all()

    @property
    def notices(self) -> tuple[str, ...]:
        """What was found while opening and writing, and was no loss."""
        return tuple(self._notices)

    def append(self, operations: list[Any]) -> Body:
        """The entry as a reader will find it; when this returns, it is on the disk."""
        with self.lock:
            if self._stopped:
                raise JournalPoisonedError(self.path, self._stopped)
            head, body, line = next_entry(
                self.head, device=self._device, time=self._time(), operations=operations
            )
            slot = slot_of(head)  # before the wait for the disk: after it every step takes longer
            self._stopped = "writing an entry was interrupted"
            self._put(line)
            self.head, self._end = head, self._end + len(line)
            self._stopped = ""
            self._remember(slot)
            return body

    def scan(self) -> tuple[Body, ...]:
        """Every entry, oldest first."""
        with self.lock:
            raw = disk.content(self.path)[: self._end]
            return sound_chain(self.path, raw, self.head).bodies

    def close(self) -> None:
        """Lets go of the file; another program may then open it."""
        with self.lock:
            self._stopped = "the journal was closed"
            self._held.close()

    def _open(self, held: ExitStack, each: Callable[[Body], object] | None) -> None:
        raw = disk.content(self.path)
        beside = anchor_path(self.path)
        if not raw and not beside.exists():
            begin(beside)
        heads = heads_at(beside)
        chain = sound_chain(self.path, raw, newest(heads), each)
        self._demand_own(chain)
        if not self.path.exists():
            write_whole(self.path, b"")
        self._file = held.enter_context(self.path.open("r+b", buffering=0))
        self._anchor = held.enter_context(closing(HeadAnchor(beside, heads)))
        self.head, self._end = chain.head, chain.end
        if None in heads or newest(heads) != chain.head:
            self._confirm(raw, chain)
        self._set_torn_end_aside(raw[chain.end :])
        if None in heads:
            self._notices.append(f"{beside}: one of its two places was damaged, the other is whole")

    def _demand_own(self, chain: Chain) -> None:
        if chain.ends and chain.device != self._device:
            raise JournalOfOtherDeviceError(self.path, self._device, chain.device)

    def _confirm(self, raw: bytes, chain: Chain) -> None:
        """Makes sure of entries that were written but not acknowledged.

        After a failed sync the system may show such an entry without ever having written it to
        the disk. So its bytes are written once more.
        """
        begin = chain.end_of(self._anchor.head.sequence)
        disk.write_all(self._file, begin, raw[begin : chain.end], self._write)
        self._sync(self._file)
        self._anchor.remember(chain.head, self._write)
        self._anchor.sync(self._sync)

    def _set_torn_end_aside(self, torn: bytes) -> None:
        if not torn:
            return
        aside = disk.free_name(self.path)
        try:
            write_whole(aside, torn)
            disk.cut(self._file, self._end, self._sync)
        except OSError as problem:
            if not disk.is_lack_of_space(problem):
                raise
            self._stopped = f"there is no space to set the torn end of {len(torn)} bytes aside"
            self._notices.append(f"{self.path}: {self._stopped}; make space and open the job again")
        else:
            self._notices.append(
                f"{self.path}: its last {len(torn)} bytes were not a whole entry and were never "
                f"acknowledged; they are kept in {aside.name}"
            )

    def _time(self) -> str:
        now = self._clock()
        if now.tzinfo is None:
            raise ValueError("the clock of a journal gives no zone")
        return now.isoformat(timespec="milliseconds")

    def _put(self, line: bytes) -> None:
        try:
            disk.write_all(self._file, self._end, line, self._write)
        except OSError as problem:
            self._cut_back(problem)
        try:
            self._sync(self._file)
        except OSError as problem:
            self._stop("the disk did not confirm the last entry", problem)

    def _cut_back(self, problem: OSError) -> NoReturn:
        try:
            disk.cut(self._file, self._end, self._sync)
        except OSError as second:
            self._stop("an entry was written in part and could not be removed", second)
        if not disk.is_lack_of_space(problem):
            self._stop("the disk did not take the last entry", problem)
        self._stopped = ""
        raise NoSpaceError(self.path) from problem

    def _stop(self, why: str, problem: OSError) -> NoReturn:
        self._stopped = f"{why} ({problem.strerror})"
        raise JournalPoisonedError(self.path, self._stopped) from problem

    def _remember(self, slot: bytes) -> None:
        try:
            self._anchor.remember(self.head, self._write, slot)
        except OSError as problem:
            notice = f"{anchor_path(self.path)}: could not be written ({problem.strerror})"
            if notice not in self._notices:
                self._notices.append(notice)
