"""What every command is given: the clock, and the folder where jobs and records live."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from fieldapp.errors import FieldAppError


@dataclass(frozen=True, slots=True)
class Setting:
    """Where and when a command runs; `clock` gives the time with its offset."""

    home: Path
    clock: Callable[[], datetime]


class UnreadableFileError(FieldAppError):
    """A file that was named cannot be read."""

    def __init__(self, path: Path, why: str) -> None:
        super().__init__(f"{path}: {why}")
        self.path = path


def content_of(path: Path) -> bytes:
    """Return what a file holds."""
    return _read(path)


def demand_file(path: Path) -> None:
    """Refuse a file that is not there or cannot be read; how large it is does not matter."""
    _read(path, 1)


def _read(path: Path, most: int = -1) -> bytes:
    try:
        with path.open("rb") as file:
            return file.read(most)
    except FileNotFoundError as cause:
        raise UnreadableFileError(path, "no such file: check the name") from cause
    except IsADirectoryError as cause:
        raise UnreadableFileError(path, "is a folder: name the file in it") from cause
    except OSError as cause:
        why = (cause.strerror or "unknown").lower()
        raise UnreadableFileError(path, f"cannot be read: {why}") from cause
