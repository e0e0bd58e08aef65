"""Where a card, a stick or a share may be plugged in on this machine."""

import os
import string
from collections.abc import Iterator
from pathlib import Path

_BELOW = ("/media", "/run/media", "/mnt", "/Volumes", "/storage")
_LONGEST = 40
_NO_CARDS = frozenset({"emulated", "self"})  # Android's own storage, under two names


def cards_here() -> tuple[Path, ...]:
    """Return the folders of what is plugged in now and can be written to."""
    found = (*_drives(), *_mounted())
    return tuple(place for place in dict.fromkeys(found) if os.access(place, os.W_OK))


def short(place: Path) -> str:
    """Return a folder in few letters, its end kept: that is the part that tells cards apart.

    >>> short(Path("/media/crew/CARD"))
    '/media/crew/CARD'
    """
    text = str(place)
    return text if len(text) <= _LONGEST else f"…{text[-_LONGEST:]}"


def _mounted() -> Iterator[Path]:
    for root in map(Path, _BELOW):
        for place in _folders(root):
            if place.name in _NO_CARDS:
                continue
            if os.path.ismount(place):
                yield place
            else:
                yield from (below for below in _folders(place) if os.path.ismount(below))


def _folders(root: Path) -> list[Path]:
    try:
        return sorted(place for place in root.iterdir() if place.is_dir())
    except OSError:
        return []


def _drives() -> Iterator[Path]:
    if os.name == "nt":
        yield from (Path(f"{letter}:\\") for letter in string.ascii_uppercase[3:]
                    if Path(f"{letter}:\\").is_dir())  # fmt: skip
