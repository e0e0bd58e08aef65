"""The office's own small certificate authority: it vouches for people and takes that back.

The office keeps the authority's key. A tablet carries only its certificate. A person's key is made
where that person works; the office sees the public half of it and nothing more.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from fieldapp.crew.people import Role, key_fingerprint
from fieldapp.errors import FieldAppError

AUTHORITY_LASTS = timedelta(days=3652)
PERSON_LASTS = timedelta(days=730)
_LONGEST_NAME = 64
DOCUMENT_SIGNING = x509.ObjectIdentifier("1.3.6.1.5.5.7.3.36")  # RFC 9336

_USAGES = (
    "digital_signature",
    "content_commitment",
    "key_encipherment",
    "data_encipherment",
    "key_agreement",
    "key_cert_sign",
    "crl_sign",
    "encipher_only",
    "decipher_only",
)


class UnfitNameError(FieldAppError):
    """A name cannot stand in a certificate: it is empty or longer than 64 bytes in UTF-8."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"the name '{name}' does not fit into a certificate; "
            f"write 1 to {_LONGEST_NAME} letters (an accented letter counts as two)"
        )
        self.name = name


@dataclass(frozen=True, slots=True)
class Authority:
    """The office's certificate and the key it signs certificates with."""

    certificate: x509.Certificate
    key: ec.EllipticCurvePrivateKey


@dataclass(frozen=True, slots=True)
class Revoked:
    """A certificate the office took back; `key_lost` when others may hold the key."""

    serial: int
    at: datetime
    key_lost: bool = False


def new_key() -> ec.EllipticCurvePrivateKey:
    """Return a new private key on the curve P-256."""
    return ec.generate_private_key(ec.SECP256R1())


def found_authority(office: str, at: datetime) -> Authority:
    """Return a new authority named after the office, in force for ten years."""
    key = new_key()
    name = x509.Name([_common_name(office)])
    certificate = (
        _certificate(name, name, key.public_key(), at, AUTHORITY_LASTS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_key_usage("key_cert_sign", "crl_sign"), critical=True)
        .sign(key, hashes.SHA256())
    )
    return Authority(certificate, key)


def enrol(
    authority: Authority,
    name: str,
    role: Role,
    public_key: ec.EllipticCurvePublicKey,
    at: datetime,
) -> x509.Certificate:
    """Return a certificate that says who holds a key and what they sign as, for two years."""
    subject = x509.Name(
        [
            _common_name(name),
            x509.NameAttribute(NameOID.ORGANIZATIONAL_UNIT_NAME, role.value),
        ]
    )
    issuer = authority.certificate
    # Poppler calls a signature's certificate unknown when e-mail protection is missing here.
    purposes = x509.ExtendedKeyUsage([ExtendedKeyUsageOID.EMAIL_PROTECTION, DOCUMENT_SIGNING])
    return (
        _certificate(subject, issuer.subject, public_key, at, PERSON_LASTS)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_key_usage("digital_signature", "content_commitment"), critical=True)
        .add_extension(purposes, critical=False)
        .add_extension(_issued_with(authority), critical=False)
        .sign(authority.key, hashes.SHA256())
    )


def revocation_list(
    authority: Authority,
    revoked: Iterable[Revoked],
    *,
    number: int,
    at: datetime,
    next_update: datetime,
) -> x509.CertificateRevocationList:
    """Return the signed list of what was taken back, good until `next_update`."""
    builder = (
        x509.CertificateRevocationListBuilder()
        .issuer_name(authority.certificate.subject)
        .last_update(at)
        .next_update(next_update)
        .add_extension(x509.CRLNumber(number), critical=False)
        .add_extension(_issued_with(authority), critical=False)
    )
    for entry in revoked:
        builder = builder.add_revoked_certificate(_entry(entry))
    return builder.sign(authority.key, hashes.SHA256())


def _common_name(name: str) -> x509.NameAttribute[str]:
    if not name.strip() or len(name.encode()) > _LONGEST_NAME:
        raise UnfitNameError(name)
    return x509.NameAttribute(NameOID.COMMON_NAME, name)


def _certificate(
    subject: x509.Name,
    issuer: x509.Name,
    key: ec.EllipticCurvePublicKey,
    at: datetime,
    lasts: timedelta,
) -> x509.CertificateBuilder:
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key)
        .serial_number(x509.random_serial_number())
        .not_valid_before(at)
        .not_valid_after(at + lasts)
        .add_extension(x509.SubjectKeyIdentifier(_identifier(key)), critical=False)
    )


def _key_usage(*allowed: str) -> x509.KeyUsage:
    return x509.KeyUsage(**{usage: usage in allowed for usage in _USAGES})


def _issued_with(authority: Authority) -> x509.AuthorityKeyIdentifier:
    return x509.AuthorityKeyIdentifier(_identifier(authority.key.public_key()), None, None)


def _identifier(key: ec.EllipticCurvePublicKey) -> bytes:
    """Return the identifier of a key by RFC 7093, section 2, method 4: our fingerprint."""
    return bytes.fromhex(key_fingerprint(key))


def _entry(revoked: Revoked) -> x509.RevokedCertificate:
    reasons = x509.ReasonFlags
    reason = reasons.key_compromise if revoked.key_lost else reasons.cessation_of_operation
    return (
        x509.RevokedCertificateBuilder()
        .serial_number(revoked.serial)
        .revocation_date(revoked.at)
        .add_extension(x509.CRLReason(reason), critical=False)
        .build()
    )
