"""Whether a signer’s certificate counted at the time: role, dates, authority, revocation."""

from collections.abc import Iterator
from datetime import datetime, timedelta

from asn1crypto.crl import CertificateList
from asn1crypto.x509 import Certificate
from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import Encoding
from pyhanko.sign.validation import validate_pdf_signature
from pyhanko.sign.validation.pdf_embedded import EmbeddedPdfSignature
from pyhanko.sign.validation.status import PdfSignatureStatus
from pyhanko_certvalidator import ValidationContext

from fieldapp.crew.people import Role, issued_by
from fieldapp.crew.roster import Roster
from fieldapp.crew.standing import list_ran_out, withdrawn
from fieldapp.record.findings import SignedBy

_REASONS = {
    x509.ReasonFlags.affiliation_changed: "moved on",
    x509.ReasonFlags.cessation_of_operation: "left",
    x509.ReasonFlags.superseded: "renewed",
    x509.ReasonFlags.key_compromise: "others may hold the key",
    x509.ReasonFlags.ca_compromise: "others may hold the office’s key",
    x509.ReasonFlags.privilege_withdrawn: "may no longer sign",
    x509.ReasonFlags.certificate_hold: "put on hold",
}
_NO_REASON = "no reason given"
_CLOCKS_DIFFER = timedelta(days=1)
_COPY = "take in the office's trust file again"


def judged(
    signature: EmbeddedPdfSignature, signed: SignedBy, roster: Roster | None
) -> PdfSignatureStatus:
    """Return the library's verdict at the time of signing, with our authority and our list only.

    It is not asked about later changes: `revisions` allows far less than it does, and it follows
    every way from part to part, of which a small file can hold more than can ever be followed.
    """
    trusted = roster.authority if roster else signed.certificate
    lists = [_list(roster.revocation_list)] if roster else []
    context = ValidationContext(
        trust_roots=[Certificate.load(trusted.public_bytes(Encoding.DER))],
        crls=lists,
        moment=signed.time,
        allow_fetching=False,
        revocation_mode="require" if roster else "soft-fail",
        retroactive_revinfo=True,
    )
    return validate_pdf_signature(signature, signer_validation_context=context, skip_diff=True)


def certificate_findings(signed: SignedBy, role: Role, roster: Roster | None) -> Iterator[str]:
    """Return a finding for all that is wrong with the certificate of a signer."""
    who = f"{signed.name} ({signed.role})"
    certificate = signed.certificate
    if signed.role != role:
        yield f"The certificate of {who} is not one of a {role}; the {role} must sign."
    begins, ends = certificate.not_valid_before_utc, certificate.not_valid_after_utc
    if not begins <= signed.time <= ends:
        yield (
            f"The certificate of {who} counts from {begins:%Y-%m-%d} to {ends:%Y-%m-%d} and was "
            f"used on {signed.time:%Y-%m-%d}; ask the office for a new one and sign again."
        )
    if roster and issued_by(certificate, roster.authority):
        yield from _revocation_findings(signed, who, roster)
    elif roster:
        yield f"The certificate of {who} is not from the trusted authority; ask the office why."


def time_notes(
    signers: tuple[SignedBy, ...], roster: Roster | None, now: datetime | None
) -> Iterator[str]:
    """Return what the present time makes worth knowing."""
    if now is None:
        return
    for signed in signers:
        if signed.time > now + _CLOCKS_DIFFER:
            yield (
                f"{signed.name} signed on {signed.time:%Y-%m-%d}, which is still to come by this "
                "device’s clock: check the date here, and that of the tablet"
            )
    until = roster.revocation_list.next_update_utc if roster else None
    if until is not None and until < now:
        yield (
            f"the list of revoked certificates ran out on {until:%Y-%m-%d}; what the office took "
            f"back since is not known here: {_COPY}"
        )


def _revocation_findings(signed: SignedBy, who: str, roster: Roster) -> Iterator[str]:
    revoked = roster.revocation_list
    if not _is_of(revoked, roster.authority):
        yield f"The list of revoked certificates is not the trusted authority’s; {_COPY}."
        return
    if list_ran_out(roster, signed.time):
        yield f"The list of revoked certificates ran out before the signature of {who}; {_COPY}."
    taken = withdrawn(roster, signed.certificate)
    if taken is not None and taken.voids(signed.time):
        why = _REASONS.get(taken.reason, _NO_REASON) if taken.reason else _NO_REASON
        yield (
            f"The certificate of {who} was revoked on {taken.on:%Y-%m-%d} ({why}); "
            "the signature does not count, another person must sign."
        )


def _is_of(revoked: x509.CertificateRevocationList, authority: x509.Certificate) -> bool:
    key = authority.public_key()
    return isinstance(key, ec.EllipticCurvePublicKey) and revoked.is_signature_valid(key)


def _list(revoked: x509.CertificateRevocationList) -> CertificateList:
    return CertificateList.load(revoked.public_bytes(Encoding.DER))
