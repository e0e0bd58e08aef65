"""Who made a signature, and whether its bytes and its words are those that signing writes."""

from collections.abc import Iterator

from asn1crypto.cms import ContentInfo
from cryptography import x509
from pyhanko.sign.validation.pdf_embedded import EmbeddedPdfSignature
from pyhanko.sign.validation.status import SignatureCoverageLevel

from fieldapp.crew.people import Role, key_fingerprint, name_of, role_of
from fieldapp.record.findings import SignedBy
from fieldapp.record.structure import LEAD_MEANING, TECHNICIAN_MEANING

_AGAIN = "ask the crew for the record as it was signed"
_MEANINGS = {Role.TECHNICIAN: TECHNICIAN_MEANING, Role.CREW_LEAD: LEAD_MEANING}
_ENTRIES = {
    *("/Type", "/Filter", "/SubFilter", "/Contents", "/ByteRange"),
    *("/M", "/Name", "/Reason", "/Reference"),
}
_SIGNED = ["content_type", "message_digest", "signing_certificate_v2"]
_METHOD = ("sha256", "sha256_ecdsa")


def signed_by(signature: EmbeddedPdfSignature) -> SignedBy:
    """Return who made a signature."""
    certificate = x509.load_der_x509_certificate(signature.signer_cert.dump())
    time = signature.self_reported_timestamp
    if time is None:
        raise ValueError(signature.field_name)
    fingerprint = key_fingerprint(certificate.public_key())
    return SignedBy(name_of(certificate), role_of(certificate), time, fingerprint, certificate)


def coverage_findings(signature: EmbeddedPdfSignature, role: Role) -> Iterator[str]:
    """Check that a signature covers its whole revision, all but the place where it stands."""
    coverage = signature.evaluate_signature_coverage()
    ranges = [int(number) for number in signature.byte_range]
    if len(ranges) != 4 or ranges[0] != 0 or coverage < SignatureCoverageLevel.ENTIRE_REVISION:  # noqa: PLR2004
        yield f"The {role}’s signature leaves out a part of the file; {_AGAIN}."


def proof_findings(
    signature: EmbeddedPdfSignature, signed: SignedBy, role: Role, pdf: bytes
) -> Iterator[str]:
    """Check that a signature says what its certificate says, and is made as ours are."""
    yield from _of_words(signature.sig_object, signed, role)
    if _method(signature) != _METHOD:
        yield (
            f"The {role}’s signature was made by another method than ours "
            f"({', '.join(_method(signature))}); {_AGAIN}."
        )
    elif not _written_as_we_do(signature, pdf):
        yield f"The {role}’s signature holds bytes that signing does not write; {_AGAIN}."


def _of_words(said: dict[str, object], signed: SignedBy, role: Role) -> Iterator[str]:
    if said.get("/Name") != signed.name:
        yield (
            f"The {role}’s signature shows the name {said.get('/Name')}, its certificate says "
            f"{signed.name}; {_AGAIN}."
        )
    if said.get("/Reason") != _MEANINGS[role]:
        reason = said.get("/Reason")
        yield f"The {role}’s signature says “{reason}”, which ours never does; {_AGAIN}."
    if more := sorted(set(said) - _ENTRIES):
        yield f"The {role}’s signature shows more than ours do ({', '.join(more)}); {_AGAIN}."


def _method(signature: EmbeddedPdfSignature) -> tuple[str, str]:
    made = signature.signer_info
    return (
        str(made["digest_algorithm"]["algorithm"].native),
        str(made["signature_algorithm"]["algorithm"].native),
    )


def _written_as_we_do(signature: EmbeddedPdfSignature, pdf: bytes) -> bool:
    """Return whether the bytes of a signature are exactly those that signing writes.

    A signature does not cover itself: filling bytes, something carried along or another way to
    write the same could otherwise be changed unseen.
    """
    _, begins, ends, _ = map(int, signature.byte_range)
    expected = _rebuilt(signature).dump().hex().upper().encode()
    attributes = [one["type"].native for one in signature.signer_info["signed_attrs"]]
    return attributes == _SIGNED and bool(
        pdf[begins:ends] == b"<" + expected.ljust(ends - begins - 2, b"0") + b">"
    )


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
