"""Writes a small file whole or not at all: a power cut leaves the old one or the new one."""

import os
from pathlib import Path

OWN, SHARED = 0o600, 0o644


def write_whole(path: Path, content: bytes, mode: int = SHARED) -> None:
    """Put a file in its place once all of it is on the disk."""
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(f".{path.name}.new")
    try:
        beside.unlink(missing_ok=True)
        with os.fdopen(os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode), "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        beside.replace(path)
    except OSError as fault:
        fault.filename = str(path)  # the name that people know
        raise
    _sync_folder(path.parent)


def _sync_folder(folder: Path) -> None:
    if os.name != "posix":  # Windows has no such call; the name is as safe as its file system
        return
    opened = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(opened)
    finally:
        os.close(opened)
