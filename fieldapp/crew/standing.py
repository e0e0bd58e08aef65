"""Whether a certificate counts at a time: issued by our office, in its time, not taken back.

The list of what was taken back has to be in force too: one that ran out says nothing of today.
"""

from dataclasses import dataclass
from datetime import datetime

from cryptography import x509

from fieldapp.crew.people import issued_by, name_of
from fieldapp.crew.roster import Roster

_LEFT_IN_ORDER = {
    x509.ReasonFlags.affiliation_changed,
    x509.ReasonFlags.cessation_of_operation,
    x509.ReasonFlags.superseded,
}


@dataclass(frozen=True, slots=True)
class Withdrawn:
    """When and why the office took a certificate back; no reason stands where none is clear."""

    on: datetime
    reason: x509.ReasonFlags | None

    @property
    def key_lost(self) -> bool:
        """Say whether others may hold the key: every reason but leaving in good order."""
        return self.reason not in _LEFT_IN_ORDER

    def voids(self, at: datetime) -> bool:
        """Say whether what was signed at a time does not count.

        A time is only a tablet's clock: who holds a lost key can choose it.
        """
        return self.key_lost or self.on <= at


def withdrawn(roster: Roster, certificate: x509.Certificate) -> Withdrawn | None:
    """Return when and how a certificate was taken back, if it was."""
    found = roster.revocation_list.get_revoked_certificate_by_serial_number(
        certificate.serial_number
    )
    return None if found is None else withdrawal_in(found)


def withdrawal_in(entry: x509.RevokedCertificate) -> Withdrawn:
    """Return what one entry of the office's list says."""
    reasons = [
        one.value.reason for one in entry.extensions if isinstance(one.value, x509.CRLReason)
    ]
    return Withdrawn(entry.revocation_date_utc, reasons[0] if len(reasons) == 1 else None)


def list_ran_out(roster: Roster, at: datetime) -> bool:
    """Return whether the list of what was taken back is too old to say anything of a time."""
    until = roster.revocation_list.next_update_utc
    return until is None or until < at


def why_not(roster: Roster, certificate: x509.Certificate, at: datetime) -> str:
    """Return in one line why a certificate does not count at a time, or nothing."""
    who = f"the certificate of {name_of(certificate)}"
    begins, ends = certificate.not_valid_before_utc, certificate.not_valid_after_utc
    if not issued_by(certificate, roster.authority):
        return f"{who} is from another office than {name_of(roster.authority)}; ask both offices"
    if not begins <= at <= ends:
        return (
            f"{who} counts from {begins:%Y-%m-%d} to {ends:%Y-%m-%d}; "
            "check the clock, or ask the office to renew it"
        )
    taken = withdrawn(roster, certificate)
    if taken is not None and taken.voids(at):
        return f"{who} was withdrawn on {taken.on:%Y-%m-%d}; another person must sign"
    if list_ran_out(roster, at):
        until = roster.revocation_list.next_update_utc
        words = f"{until:%Y-%m-%d}" if until else "a day it does not name"
        return (
            f"the office's list of withdrawn certificates ran out on {words}; "
            "take in the office's newest trust file"
        )
    return ""
