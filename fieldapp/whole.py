"""Writes a file whole or not at all: a power cut leaves the old one or the new one."""

import errno
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

OWN, SHARED = 0o600, 0o644
_NO_SUCH_CALL = (errno.EINVAL, errno.ENOTSUP, errno.ENOSYS)


@contextmanager
def whole_file(path: Path, mode: int = SHARED) -> Iterator[IO[bytes]]:
    """Give a file to write to, and put it in its place once all of it is on the disk."""
    make_folder(path.parent)
    beside = path.with_name(f".{path.name}.new")
    try:
        beside.unlink(missing_ok=True)
        with os.fdopen(os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode), "wb") as file:
            yield file
            file.flush()
            os.fsync(file.fileno())
        beside.replace(path)
        sync_folder(path.parent)
    except OSError as fault:
        if fault.filename in (None, str(beside)):
            fault.filename = str(path)  # the name that people know
        raise
    finally:
        beside.unlink(missing_ok=True)


def write_whole(path: Path, content: bytes, mode: int = SHARED) -> None:
    """Write a file that is there with all of its content, or not at all."""
    with whole_file(path, mode) as file:
        file.write(content)


def make_folder(folder: Path) -> None:
    """Make a folder with those around it; the name of each new one is on the disk, too."""
    missing = [each for each in (folder, *folder.parents) if not each.exists()]
    folder.mkdir(parents=True, exist_ok=True)
    for each in missing:
        sync_folder(each.parent)


def sync_folder(folder: Path) -> None:
    """Make the names in a folder last."""
    if os.name != "posix":  # Windows has no such call; the name is as safe as its file system
        return
    opened = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(opened)
    except OSError as fault:  # some shares and cards cannot be asked this of a folder
        if fault.errno not in _NO_SUCH_CALL:
            raise
    finally:
        os.close(opened)
