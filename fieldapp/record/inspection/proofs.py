"""Who made a signature, and whether it is one of ours: bytes, certificate, time and authority."""

from collections.abc import Iterator

from asn1crypto.cms import ContentInfo
from asn1crypto.crl import CertificateList
from asn1crypto.x509 import Certificate
from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding
from pyhanko.sign.validation import validate_pdf_signature
from pyhanko.sign.validation.pdf_embedded import EmbeddedPdfSignature
from pyhanko.sign.validation.status import PdfSignatureStatus
from pyhanko_certvalidator import ValidationContext

from fieldapp.crew.people import Role, issued_by, key_fingerprint, name_of, role_of
from fieldapp.crew.roster import Roster
from fieldapp.record.findings import SignedBy

_GOOD_STANDING = {
    x509.ReasonFlags.affiliation_changed,
    x509.ReasonFlags.cessation_of_operation,
    x509.ReasonFlags.superseded,
}


def signed_by(signature: EmbeddedPdfSignature) -> SignedBy:
    """Return who made a signature."""
    certificate = x509.load_der_x509_certificate(signature.signer_cert.dump())
    time = signature.self_reported_timestamp
    if time is None:
        raise ValueError(signature.field_name)
    fingerprint = key_fingerprint(certificate.public_key())
    return SignedBy(name_of(certificate), role_of(certificate), time, fingerprint, certificate)


def written_as_we_do(signature: EmbeddedPdfSignature, pdf: bytes) -> bool:
    """Return whether the bytes of a signature are exactly those that signing writes.

    A signature does not cover itself: filling bytes, something carried along or another way to
    write the same could otherwise be changed unseen.
    """
    _, begins, ends, _ = map(int, signature.byte_range)
    expected = _rebuilt(signature).dump().hex().upper().encode()
    return bool(pdf[begins:ends] == b"<" + expected.ljust(ends - begins - 2, b"0") + b">")


def judged(
    signature: EmbeddedPdfSignature, signed: SignedBy, roster: Roster | None
) -> PdfSignatureStatus:
    """Return the library's verdict at the time of signing, with our authority and our list only."""
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
    return validate_pdf_signature(signature, signer_validation_context=context)


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
        yield from _revocation_findings(signed, who, roster.revocation_list)
    elif roster:
        yield f"The certificate of {who} is not from the trusted authority; ask the office why."


def _revocation_findings(
    signed: SignedBy, who: str, revoked: x509.CertificateRevocationList
) -> Iterator[str]:
    until = revoked.next_update_utc
    if until is None or until < signed.time:
        yield (
            "The list of revoked certificates ran out before the signature of "
            f"{who}; copy the trust folder from the office again."
        )
    entry = revoked.get_revoked_certificate_by_serial_number(signed.certificate.serial_number)
    if entry is None:
        return
    on = entry.revocation_date_utc
    # The time of a signature is only a tablet's clock: who holds a lost key can choose it.
    if on <= signed.time or not _left_in_good_standing(entry):
        yield (
            f"The certificate of {who} was revoked on {on:%Y-%m-%d}; "
            "the signature does not count, another person must sign."
        )


def _left_in_good_standing(entry: x509.RevokedCertificate) -> bool:
    reasons = [
        one.value.reason for one in entry.extensions if isinstance(one.value, x509.CRLReason)
    ]
    return len(reasons) == 1 and reasons[0] in _GOOD_STANDING


def _rebuilt(signature: EmbeddedPdfSignature) -> ContentInfo:
    made = signature.signer_info
    signer = signature.signer_cert
    information = {
        "version": "v1",
        "sid": {
            "issuer_and_serial_number": {
                "issuer": signer.issuer,
                "serial_number": signer.serial_number,
            }
        },
        "digest_algorithm": {"algorithm": "sha256"},
        "signed_attrs": made["signed_attrs"],
        "signature_algorithm": {"algorithm": "sha256_ecdsa"},
        "signature": made["signature"],
    }
    signed = {
        "version": "v1",
        "digest_algorithms": [{"algorithm": "sha256"}],
        "encap_content_info": {"content_type": "data"},
        "certificates": [signer],
        "signer_infos": [information],
    }
    return ContentInfo({"content_type": "signed_data", "content": signed})


def _list(revoked: x509.CertificateRevocationList) -> CertificateList:
    return CertificateList.load(revoked.public_bytes(Encoding.DER))
