"""Issuing a record: the pages of a job as it stands, and the two signatures on them."""

from collections.abc import Sequence
from datetime import datetime
from importlib.metadata import version

from fieldapp.actions.rules import LEAD, TECHNICIAN
from fieldapp.crew.people import Signer
from fieldapp.errors import FieldAppError
from fieldapp.job.job import Job
from fieldapp.record.rendering import record_of
from fieldapp.record.signing import sign_as_lead, sign_as_technician


class NotSignedOffError(FieldAppError):
    """A record cannot be signed before technician and crew lead have signed off the job."""

    def __init__(self, number: str) -> None:
        super().__init__(
            f"job {number}: technician and crew lead have not both signed it off yet: "
            "sign off on the tablet first"
        )
        self.number = number


def issued(job: Job, head: tuple[int, str], at: datetime) -> bytes:
    """Return the record's PDF, its data attached, ready to be signed; `at` if not signed off.

    A job that was signed off gives the same bytes whenever it is issued again.
    """
    closing = job.state.signature(LEAD)
    moment = closing.at if closing else at
    return record_of(job, moment, head, version("fieldapp"))[1]


def signed_record(pages: bytes, job: Job, signers: Sequence[Signer]) -> bytes:
    """Return the pages with the technician's signature and the crew lead's, in that order."""
    technician, lead = job.state.signature(TECHNICIAN), job.state.signature(LEAD)
    if technician is None or lead is None or len(signers) != 2:  # noqa: PLR2004 - two people
        raise NotSignedOffError(job.number)
    certified = sign_as_technician(pages, signers[0], technician.at)
    return sign_as_lead(certified, signers[1], lead.at)
