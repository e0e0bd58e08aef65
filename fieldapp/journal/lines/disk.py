"""What a journal asks of the disk, on Linux and on Windows."""

import errno
import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from io import FileIO
from pathlib import Path
from typing import TypeAlias

from filelock import FileLock, Timeout

from fieldapp.journal.errors import JournalBusyError, JournalUnavailableError

Sync: TypeAlias = Callable[[FileIO], None]
Write: TypeAlias = Callable[[FileIO, bytes], int]

NO_SPACE = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EFBIG})

_sync_content: Callable[[int], None] = getattr(os, "fdatasync", os.fsync)


def sync(file: FileIO) -> None:
    """Returns when the content of a file is on the disk, not only on its way."""
    _sync_content(file.fileno())


def write(file: FileIO, part: bytes) -> int:
    """How many bytes the disk took."""
    return file.write(part)


def write_all(file: FileIO, place: int, content: bytes, write: Write) -> None:
    """Writes all of it from a place on; a disk may take a part at a time."""
    file.seek(place)
    while content:
        content = content[write(file, content) :]


def cut(file: FileIO, end: int, sync: Sync) -> None:
    """Removes what stands after a place."""
    file.truncate(end)
    sync(file)


def content(path: Path) -> bytes:
    """All bytes of a file; none if there is no file."""
    try:
        return path.read_bytes()
    except FileNotFoundError:
        return b""


def is_lack_of_space(problem: OSError) -> bool:
    """Whether a write failed only because there was no space for it."""
    return problem.errno in NO_SPACE


@contextmanager
def alone(path: Path) -> Iterator[None]:
    """No other window or program opens the file while this lasts."""
    if not path.parent.is_dir():  # the lock would make the folder
        raise FileNotFoundError(errno.ENOENT, "the folder is missing")
    lock = FileLock(f"{path}.lock", timeout=0, thread_local=False)
    try:
        lock.acquire()
    except Timeout as held_elsewhere:
        raise JournalBusyError(path) from held_elsewhere
    try:
        yield
    finally:
        lock.release()


@contextmanager
def named_trouble(path: Path) -> Iterator[None]:
    """What the system says while a file is opened, with the file and the way on."""
    try:
        yield
    except OSError as problem:
        raise JournalUnavailableError(path, problem.strerror or str(problem)) from problem


def free_name(path: Path, kind: str = "torn") -> Path:
    """The next name for what is kept aside; an earlier one is never overwritten."""
    number = 1
    while (free := path.with_name(f"{path.name}.{kind}-{number}")).exists():
        number += 1
    return free
