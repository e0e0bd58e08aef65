"""All journals copied to a second place, and back; nothing newer is ever overwritten."""

from collections.abc import Iterator
from pathlib import Path

from fieldapp.errors import FieldAppError
from fieldapp.handover.copying import Copied, copy_journal

PLACE = "jobs"


class NothingToCopyError(FieldAppError):
    """There is no journal where journals were looked for."""

    def __init__(self, place: Path) -> None:
        super().__init__(f"{place}: holds no journals; name the folder that holds “{PLACE}”")
        self.place = place


def journals_below(place: Path) -> tuple[Path, ...]:
    """Return every journal of a home or of a backup."""
    found = tuple(sorted(place.glob(f"{PLACE}/*/*.journal")))
    if not found:
        raise NothingToCopyError(place)
    return found


def copy_all(source: Path, target: Path) -> Iterator[Copied]:
    """Copy each journal of one place to the other; yield what became of it."""
    for path in journals_below(source):
        yield _copied(path, target / path.relative_to(source))


def _copied(source: Path, target: Path) -> Copied:
    try:
        return copy_journal(source, target)
    except FieldAppError as fault:
        return Copied(source, target, refused=str(fault))
