"""All journals and pictures copied to a second place, and back; nothing newer is overwritten."""

from collections.abc import Iterator
from pathlib import Path

from fieldapp.errors import FieldAppError
from fieldapp.handover.copying import Copied, copy_journal, left_alone
from fieldapp.handover.pictures import copy_picture
from fieldapp.journal.folders import ENDING, JOBS, FolderClosedError, job_folders, looked_into
from fieldapp.journal.pictures import FOLDER

PICTURES = (".jpg", ".png")


class NothingToCopyError(FieldAppError):
    """There is no journal where journals were looked for."""

    def __init__(self, place: Path) -> None:
        super().__init__(f"{place}: holds no journals; name the folder that holds “{JOBS}”")
        self.place = place

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return (
            "No job lies there, so nothing was copied: look whether it is the right card or share"
        )


class PlaceMissingError(FieldAppError):
    """The card or share to copy to is not there; made anew, it would lie on the tablet itself."""

    def __init__(self, place: Path) -> None:
        super().__init__(
            f"{place}: is not there, so nothing was copied: plug the card in, connect the share, "
            f"or make the folder first"
        )
        self.place = place

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return (
            "The second place is not there, so nothing was copied: plug the card in, or touch "
            "“Second place” and choose another"
        )


def demand_there(place: Path) -> None:
    """Refuse a second place that is not plugged in."""
    if not place.exists():
        raise PlaceMissingError(place)


def files_below(place: Path) -> tuple[Path, ...]:
    """Return every journal of a home or of a backup, and then every picture.

    Among them stands each folder that cannot be looked into, for what may lie there.
    """
    folders = job_folders(place)
    journals = [path for folder in folders for path in _or_closed(folder, (ENDING,))]
    if not journals:
        raise NothingToCopyError(place)
    kept = (folder / FOLDER for folder in folders if folder not in journals)
    return (*journals, *(path for folder in kept for path in _or_closed(folder, PICTURES)))


def copy_all(source: Path, target: Path) -> Iterator[Copied]:
    """Copy each file of one place to the other; yield what became of it."""
    for path in files_below(source):
        yield _copied(path, target / path.relative_to(source))


def _copied(source: Path, target: Path) -> Copied:
    copy = copy_journal if source.suffix == ENDING else copy_picture
    try:
        if source.is_dir():
            looked_into(source)
        return copy(source, target)
    except FieldAppError as fault:
        return left_alone(source, target, fault)


def _or_closed(folder: Path, endings: tuple[str, ...]) -> tuple[Path, ...]:
    """The files of a folder with these endings; the folder itself if it is closed to us."""
    try:
        return tuple(path for path in looked_into(folder) if path.suffix in endings)
    except FolderClosedError:
        return (folder,)
