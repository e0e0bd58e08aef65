"""Copies one journal with its head, and reads the copy back from the disk."""

import os
from dataclasses import dataclass
from pathlib import Path

from fieldapp.errors import FieldAppError
from fieldapp.handover.relation import Relation, relation
from fieldapp.journal.folders import ENDING
from fieldapp.journal.lines import disk
from fieldapp.journal.lines.anchor import anchor_path, begin, both_places, heads_at, newest
from fieldapp.journal.lines.chain import damage
from fieldapp.journal.lines.reading import Inspection, inspect, sound_inspection
from fieldapp.journal.pictures import FOLDER
from fieldapp.journal.tablets.wording import entries
from fieldapp.whole import make_folder, write_whole


class CopyDiffersError(FieldAppError):
    """The disk gives back something else than was written to it."""

    def __init__(self, path: Path) -> None:
        super().__init__(
            f"{path}: what was read back is not what was written. "
            f"Do not rely on this card or share; take another one."
        )
        self.path = path


@dataclass(frozen=True, slots=True)
class Copied:
    """What became of one file; `refused` says why it was left alone, `why` so without folders."""

    source: Path
    target: Path
    entries: int = 0
    refused: str = ""
    why: str = ""

    @property
    def words(self) -> str:
        """The outcome in one sentence."""
        if self.refused:
            return self.refused
        many = f"{entries(self.entries)}, " if self.entries else ""
        return f"{self.target}: {many}read back and compared"

    @property
    def at_tablet(self) -> str:
        """What was left alone and why, as on the screen of a tablet."""
        return f"Job {_part_of_a_job(self.target)}: {self.why[:1].lower()}{self.why[1:]}"


def _part_of_a_job(target: Path) -> str:
    if target.suffix == ENDING:
        return f"{target.parent.name}, {target.stem}"
    if target.parent.name == FOLDER:
        return f"{target.parents[1].name}, a picture"
    return f"{target.parent.name}, its pictures" if target.name == FOLDER else target.name


Refused = tuple[str, str]
"""Why a file was left alone: with its folder, and as on the screen of a tablet."""


def copy_journal(source: Path, target: Path) -> Copied:
    """Copy a journal over an older copy of itself, and over nothing else."""
    try:
        found = sound_inspection(source)
    except FieldAppError as fault:
        return left_alone(source, target, fault)
    make_folder(target.parent)
    with disk.named_trouble(target), disk.alone(target):
        refused = _why_not(found, target)
        if not refused:
            write_journal(found.sound, target)
    return Copied(source, target, len(found.bodies), *(refused or ("", "")))


def left_alone(source: Path, target: Path, fault: FieldAppError) -> Copied:
    """What became of a file of which a failure kept us."""
    return Copied(source, target, refused=str(fault), why=fault.at_tablet)


def write_journal(sound: bytes, target: Path) -> None:
    """Write a journal that is known to be sound, then its head, and read both back.

    Where no head is, one that says that nothing is saved yet comes first: a power cut in between
    then leaves a journal that can be read and written once more.
    """
    if newest(heads_at(anchor_path(target))) is None:
        begin(anchor_path(target))
    write_whole(target, sound)
    _forget_cached(target)
    if target.read_bytes() != sound:
        raise CopyDiffersError(target)
    head = both_places(inspect(target).chain.head)
    write_whole(anchor_path(target), head)
    if anchor_path(target).read_bytes() != head:
        raise CopyDiffersError(anchor_path(target))


def _why_not(found: Inspection, target: Path) -> Refused | None:
    if not target.exists():
        return _why_not_missing(found, target)
    try:
        there = sound_inspection(target)
    except FieldAppError as fault:
        return f"left as it is: {fault}", f"left as it is. {fault.at_tablet}"
    match relation(found.chain, there.chain):
        case Relation.SHORTER:
            more = len(there.bodies) - len(found.bodies)
            newer = f"left as it is, it is newer by {entries(more)}"
            return f"{target}: {newer} than {found.path}", newer
        case Relation.FORK:
            other, keep = "left as it is, it tells another story", "Keep both, for the office"
            return f"{target}: {other} than {found.path}. {keep}", f"{other}. {keep}"
    return None


def _why_not_missing(found: Inspection, target: Path) -> Refused | None:
    """A head that outlived its journal says what a copy must hold at least."""
    saved = newest(heads_at(anchor_path(target)))
    if saved is None or damage(found.chain, saved) is None:
        return None
    saved_there = f"not copied, entries up to number {saved.sequence} were saved there and "
    return (
        f"{target}: {saved_there}{found.path} does not hold them all",
        f"{saved_there}the one to copy does not hold them all",
    )


def _forget_cached(path: Path) -> None:
    """Ask the system to read from the disk what it remembers; not every system can be asked."""
    if hasattr(os, "posix_fadvise"):
        with path.open("rb") as file:
            os.posix_fadvise(file.fileno(), 0, 0, os.POSIX_FADV_DONTNEED)
