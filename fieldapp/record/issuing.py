"""Issuing a record: the pages of a job as it stands, and the two signatures on them."""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from importlib.metadata import version
from pathlib import Path

from fieldapp.actions.rules import LEAD, TECHNICIAN
from fieldapp.crew.people import Signer
from fieldapp.crew.roster import Roster
from fieldapp.crew.standing import withdrawn
from fieldapp.errors import FieldAppError
from fieldapp.job.job import Job
from fieldapp.journal import pictures
from fieldapp.record.chapters.front.heading import earlier_of
from fieldapp.record.pages.kit.paper import A4, Sheet
from fieldapp.record.rendering import record_of
from fieldapp.record.signing import sign_as_lead, sign_as_technician

LONGER_SIDE = 640  # points of a photo in the record: 180 to an inch of its column


class NotSignedOffError(FieldAppError):
    """A record cannot be signed before technician and crew lead have signed off the job."""

    def __init__(self, number: str) -> None:
        super().__init__(
            f"job {number}: technician and crew lead have not both signed it off yet: "
            "sign off on the tablet first"
        )
        self.number = number


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What a record takes from around its job: who holds which key, the photos, the paper."""

    roster: Roster | None = None
    folder: Path | None = None
    sheet: Sheet = A4


def issued(
    job: Job, head: tuple[int, str], at: datetime, around: Surroundings | None = None
) -> bytes:
    """Return the record's PDF, its data attached, ready to be signed; `at` if not signed off.

    A job up to its sign-off gives the same bytes whenever it is issued again with the same roster
    and photos.
    """
    return issued_whole(job, head, at, around)[1]


def issued_whole(
    job: Job, head: tuple[int, str], at: datetime, around: Surroundings | None = None
) -> tuple[bytes, bytes]:
    """Return the record's data as JSON, and the PDF that carries it."""
    around = around or Surroundings()
    closing = job.state.signature(LEAD)
    return record_of(
        job,
        closing.at if closing else at,
        head,
        version("fieldapp"),
        sheet=around.sheet,
        keys=keys_by_name(around.roster) if around.roster else {},
        pictures=small_pictures(job, around.folder) if around.folder else {},
    )


def file_name(job: Job) -> str:
    """Return the name of a record's file: the number of its job, and its revision from 2 on."""
    revision = 1 + len(earlier_of(job))
    return f"{job.number}{f'-r{revision}' if revision > 1 else ''}.pdf"


def keys_by_name(roster: Roster) -> dict[str, str]:
    """Return the fingerprint of each person's key that counts; none where a name has several."""
    held: dict[str, set[str]] = {}
    for person in roster.people:
        if withdrawn(roster, person.certificate) is None:
            held.setdefault(person.name, set()).add(person.fingerprint)
    return {name: min(keys) for name, keys in held.items() if len(keys) == 1}


def small_pictures(job: Job, folder: Path) -> dict[str, bytes]:
    """Return the photos of a job, made smaller, by their SHA-256; those that are not there not."""
    found = {}
    for sha256 in pictures.named_in(job.state.log):
        path = pictures.path_of(folder, sha256)
        if path is None or hashlib.sha256(path.read_bytes()).hexdigest() != sha256:
            continue  # the record says that it is not here
        found[sha256] = pictures.scaled(path, LONGER_SIDE)
    return found


def signed_record(pages: bytes, job: Job, signers: Sequence[Signer]) -> bytes:
    """Return the pages with the technician's signature and the crew lead's, in that order."""
    technician, lead = job.state.signature(TECHNICIAN), job.state.signature(LEAD)
    if technician is None or lead is None or len(signers) != 2:  # noqa: PLR2004 - two people
        raise NotSignedOffError(job.number)
    certified = sign_as_technician(pages, signers[0], technician.at)
    return sign_as_lead(certified, signers[1], lead.at)
