"""Makes the hand-over file of one job: all its journals, their heads, and a signature."""

from datetime import datetime
from pathlib import Path

from msgspec.json import Encoder

from fieldapp.crew.people import Signer
from fieldapp.handover.archive import MANIFEST, SIGNATURE, journal_name, packed
from fieldapp.handover.manifest import FORMAT, Manifest, Part, signature_over
from fieldapp.journal.jobs import NotBegunError, journals_of
from fieldapp.journal.reading import sound_inspection


def hand_over(home: Path, number: str, at: datetime, signer: Signer | None = None) -> bytes:
    """Return the hand-over file of a job; each of its journals must be sound."""
    found = [sound_inspection(path) for path in journals_of(home, number, needed=True)]
    journals = [each for each in found if each.bodies]
    if not journals:
        raise NotBegunError(number)
    parts = [
        Part(each.bodies[0].device, each.chain.head.sequence, each.chain.head.hash)
        for each in journals
    ]
    made = at.isoformat(timespec="seconds")
    manifest = Encoder(order="sorted").encode(Manifest(FORMAT, number, made, tuple(parts)))
    members = {MANIFEST: manifest}
    if signer is not None:
        members[SIGNATURE] = signature_over(manifest, signer)
    for part, journal in zip(parts, journals, strict=True):
        members[journal_name(part.device)] = journal.sound
    return packed(members)
