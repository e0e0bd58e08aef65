"""Files a job's record on the tablet, and says at once what verification finds."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from fieldapp.crew.people import Signer
from fieldapp.crew.roster import Roster
from fieldapp.errors import FieldAppError
from fieldapp.job.job import Job
from fieldapp.record.findings import Findings
from fieldapp.record.issuing import Surroundings, file_name, issued, signed_record
from fieldapp.record.verification import verify
from fieldapp.whole import write_whole

RECORDS = "records"


class RecordIsThereError(FieldAppError):
    """A signed record of this job lies on the tablet already; it is never written over."""

    def __init__(self, path: Path) -> None:
        super().__init__(f"{path.name} is there already, and a signed record is never replaced")
        self.path = path


@dataclass(frozen=True, slots=True)
class JobAsItStands:
    """A job with the head of its journal and the folder of its pictures, at a time."""

    job: Job
    head: tuple[int, str]
    folder: Path
    at: datetime


def record_place(home: Path, job: Job) -> Path:
    """Return where the signed record of a job lies, or will."""
    return home / RECORDS / file_name(job)


def unsigned_place(home: Path, job: Job) -> Path:
    """Return where the unsigned record of a job lies, or will."""
    signed = record_place(home, job)
    return signed.with_name(f"{signed.stem}-unsigned.pdf")


def file_signed(
    home: Path, standing: JobAsItStands, signers: Sequence[Signer], roster: Roster
) -> tuple[Path, Findings]:
    """Sign the record of a job, put it in its place, and return what verification finds."""
    path = record_place(home, standing.job)
    if path.exists():
        raise RecordIsThereError(path)
    pages = _pages(standing, roster)
    signed = signed_record(pages, standing.job, signers)
    write_whole(path, signed)
    return path, verify(path.read_bytes(), roster)


def file_unsigned(home: Path, standing: JobAsItStands, roster: Roster | None) -> Path:
    """Write the record of a job without signatures, and return where."""
    path = unsigned_place(home, standing.job)
    write_whole(path, _pages(standing, roster))
    return path


def _pages(standing: JobAsItStands, roster: Roster | None) -> bytes:
    around = Surroundings(roster, standing.folder)
    return issued(standing.job, standing.head, standing.at, around)
