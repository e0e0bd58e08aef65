"""Makes the hand-over file of one job: its journals, their heads, its pictures, a signature."""

from datetime import datetime
from io import BytesIO
from pathlib import Path
from typing import IO

from msgspec.json import Encoder

from fieldapp.crew.people import Signer
from fieldapp.handover.archive import MANIFEST, SIGNATURE, journal_name, write_packed
from fieldapp.handover.manifest import FORMAT, Manifest, Part, signature_over
from fieldapp.handover.pictures import named_by, whole_pictures
from fieldapp.journal.jobs import NotBegunError, journals_of
from fieldapp.journal.lines.reading import sound_inspection
from fieldapp.journal.pictures import check
from fieldapp.whole import whole_file


def hand_over(home: Path, number: str, at: datetime, signer: Signer | None = None) -> bytes:
    """Return the hand-over file of a job; each of its journals must be sound."""
    written = BytesIO()
    write_hand_over(written, home, number, at, signer)
    return written.getvalue()


def file_hand_over(
    path: Path, home: Path, number: str, at: datetime, signer: Signer | None = None
) -> tuple[str, ...]:
    """Put the hand-over file of a job in its place, whole or not at all; return what is missing."""
    with whole_file(path) as file:
        return write_hand_over(file, home, number, at, signer)


def write_hand_over(
    target: IO[bytes], home: Path, number: str, at: datetime, signer: Signer | None = None
) -> tuple[str, ...]:
    """Write the hand-over file of a job; return in words which pictures could not go with it."""
    found = [sound_inspection(path) for path in journals_of(home, number, needed=True)]
    journals = [each for each in found if each.bodies]
    if not journals:
        raise NotBegunError(number)
    parts = [
        Part(each.bodies[0].device, each.chain.head.sequence, each.chain.head.hash)
        for each in journals
    ]
    folder = home / "jobs" / number
    named = named_by(body for each in journals for body in each.bodies)
    pictures = whole_pictures(folder, named)
    made = at.isoformat(timespec="seconds")
    names = tuple(path.name for path in pictures)
    manifest = Encoder(order="sorted").encode(Manifest(FORMAT, number, made, tuple(parts), names))
    members = {MANIFEST: manifest}
    if signer is not None:
        members[SIGNATURE] = signature_over(manifest, signer)
    for part, journal in zip(parts, journals, strict=True):
        members[journal_name(part.device)] = journal.sound
    write_packed(target, members, pictures)
    return check(folder, named)
