"""The pictures that lie on the tablet, newest first."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

MOST = 60
_ENDINGS = {".jpg", ".jpeg", ".png"}


@dataclass(frozen=True, slots=True)
class Taken:
    """One picture file: where it lies, when it was written and how large it is."""

    path: Path
    at: datetime
    size: int


def newest_pictures(folders: Iterable[Path], now: datetime) -> tuple[Taken, ...]:
    """Return the newest pictures in the folders and in the folders in them."""
    paths = {path for folder in folders for path in _pictures(folder, deeper=True)}
    taken = filter(None, (_taken(path, now) for path in paths))
    return tuple(sorted(taken, key=lambda one: (one.at, one.path.name), reverse=True)[:MOST])


def _pictures(folder: Path, *, deeper: bool) -> Iterator[Path]:
    try:
        paths = list(folder.iterdir())
    except OSError:  # a tablet has some of these folders, and keeps others to itself
        return
    for path in paths:
        if path.name.startswith("."):
            continue
        if path.suffix.casefold() in _ENDINGS:
            yield path
        elif deeper and path.is_dir():
            yield from _pictures(path, deeper=False)


def _taken(path: Path, now: datetime) -> Taken | None:
    try:
        known = path.stat()
    except OSError:  # taken away in the meantime
        return None
    return Taken(path, datetime.fromtimestamp(known.st_mtime, now.tzinfo), known.st_size)
