"""What verification says about a record: who signed it and everything that is wrong with it."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Any

from cryptography import x509


class Pages(StrEnum):
    """Whether the pages show what the attached data says."""

    SHOW_THE_DATA = "show the attached data"
    DO_NOT_SHOW_THE_DATA = "do not show the attached data"
    NOT_COMPARED = "were not compared with the attached data"


@dataclass(frozen=True, slots=True)
class SignedBy:
    """A signature: who made it, as whom, when by the tablet's clock, and with which key."""

    name: str
    role: str
    time: datetime
    fingerprint: str
    certificate: x509.Certificate


@dataclass(frozen=True, slots=True)
class Findings:
    """What verification found: each finding is a sentence that says what is wrong and what to do.

    `notes` are worth knowing and nothing is wrong with them. `record` is the attached record,
    `authority` says whose word was taken for the signers, and `awaits_lead` holds when nothing but
    the crew lead's signature is missing.
    """

    findings: tuple[str, ...]
    signers: tuple[SignedBy, ...] = ()
    record: dict[str, Any] | None = None
    authority: str = ""
    awaits_lead: bool = False
    notes: tuple[str, ...] = ()
    pages: Pages = Pages.NOT_COMPARED

    @property
    def sound(self) -> bool:
        """Whether there is no finding at all."""
        return not self.findings
