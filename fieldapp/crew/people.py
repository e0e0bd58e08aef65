"""Who a certificate is about: a person of the crew, their role and the fingerprint of their key."""

from dataclasses import dataclass
from enum import StrEnum

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.types import PublicKeyTypes
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat
from cryptography.x509.oid import NameOID

from fieldapp.checklist.problems import in_one_line
from fieldapp.errors import FieldAppError


class Role(StrEnum):
    """What a person may sign as."""

    TECHNICIAN = "technician"
    CREW_LEAD = "crew lead"


class UnknownRoleError(FieldAppError):
    """A certificate names no role that may sign."""

    def __init__(self, name: str, role: str) -> None:
        super().__init__(
            f"certificate of {name}: the role '{role}' is neither technician nor crew lead; "
            "ask the office for a new certificate"
        )
        self.name = name
        self.role = role


@dataclass(frozen=True, slots=True)
class Person:
    """A technician or crew lead, as their certificate says."""

    name: str
    role: Role
    certificate: x509.Certificate

    @property
    def fingerprint(self) -> str:
        """The SHA-256 of the person's public key in hexadecimal."""
        return key_fingerprint(self.certificate.public_key())


@dataclass(frozen=True, slots=True)
class Signer:
    """A person with their unlocked key and the authority that stands for them."""

    person: Person
    key: ec.EllipticCurvePrivateKey
    authority: x509.Certificate


def person_of(certificate: x509.Certificate) -> Person:
    """Return the person a certificate is about."""
    name, role = name_of(certificate), role_of(certificate)
    if role not in list(Role):
        raise UnknownRoleError(name, role)
    return Person(name, Role(role), certificate)


def name_of(certificate: x509.Certificate) -> str:
    """Return the name a certificate gives its holder, or nothing."""
    return _subject(certificate, NameOID.COMMON_NAME)


def role_of(certificate: x509.Certificate) -> str:
    """Return the role a certificate gives its holder, or nothing."""
    return _subject(certificate, NameOID.ORGANIZATIONAL_UNIT_NAME)


def issuer_of(certificate: x509.Certificate) -> tuple[str, str]:
    """Return the name of who issued a certificate and the fingerprint of their key."""
    names = certificate.issuer.get_attributes_for_oid(NameOID.COMMON_NAME)
    known = certificate.extensions.get_extension_for_class(x509.AuthorityKeyIdentifier).value
    return str(names[0].value), (known.key_identifier or b"").hex()


def issued_by(certificate: x509.Certificate, authority: x509.Certificate) -> bool:
    """Return whether the authority's key signed the certificate."""
    try:
        certificate.verify_directly_issued_by(authority)
    except (InvalidSignature, TypeError, ValueError):
        return False
    return True


def key_fingerprint(key: PublicKeyTypes) -> str:
    """Return the SHA-256 of a public key in hexadecimal: the same for every certificate of it."""
    digest = hashes.Hash(hashes.SHA256())
    digest.update(key.public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo))
    return digest.finalize().hex()


def _subject(certificate: x509.Certificate, kind: x509.ObjectIdentifier) -> str:
    values = certificate.subject.get_attributes_for_oid(kind)
    return in_one_line(str(values[0].value)) if len(values) == 1 else ""
