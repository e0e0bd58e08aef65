"""Words that a person stands for: a signature over them with that person's own key.

::

    statement = signed(text, signer, purpose="hand-over, format 1")
    person = checked(statement, roster, purpose="hand-over, format 1", at=moment)

ECDSA on P-256 with SHA-256. The purpose is signed too: a signature under one kind of text is none
under another. `checked` takes the time that the text itself bears, which is a tablet's clock.
"""

from dataclasses import dataclass
from datetime import datetime

from cryptography import x509
from cryptography.exceptions import InvalidSignature, UnsupportedAlgorithm
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import Encoding

from fieldapp.crew.people import Person, Signer, person_of
from fieldapp.crew.roster import Roster
from fieldapp.crew.standing import why_not
from fieldapp.errors import FieldAppError


class StatementRefusedError(FieldAppError):
    """A statement is not signed by somebody whose signature counts."""

    def __init__(self, problem: str) -> None:
        super().__init__(problem)
        self.problem = problem


@dataclass(frozen=True, slots=True)
class Statement:
    """A text, the certificate (PEM) of who stands for it, and their signature."""

    text: bytes
    certificate: str
    signature: bytes


def signed(text: bytes, signer: Signer, *, purpose: str) -> Statement:
    """Return the text with a person's certificate and signature."""
    certificate = signer.person.certificate.public_bytes(Encoding.PEM).decode()
    signature = signer.key.sign(_bound(text, purpose), ec.ECDSA(hashes.SHA256()))
    return Statement(text, certificate, signature)


def checked(statement: Statement, roster: Roster, *, purpose: str, at: datetime) -> Person:
    """Return who stands for a statement made at `at`; refuse one that does not count."""
    certificate = certificate_of(statement, purpose=purpose)
    problem = why_not(roster, certificate, at)
    if problem:
        raise StatementRefusedError(problem)
    return person_of(certificate)


def certificate_of(statement: Statement, *, purpose: str) -> x509.Certificate:
    """Return the certificate whose key signed a statement; nobody has vouched for it yet."""
    try:
        certificate = x509.load_pem_x509_certificate(statement.certificate.encode())
        key = certificate.public_key()
    except (ValueError, UnsupportedAlgorithm) as reason:
        raise StatementRefusedError("the certificate in it cannot be read") from reason
    if not isinstance(key, ec.EllipticCurvePublicKey) or not isinstance(key.curve, ec.SECP256R1):
        raise StatementRefusedError("its signature is of a kind that is not used here")
    try:
        bound = _bound(statement.text, purpose)
        key.verify(statement.signature, bound, ec.ECDSA(hashes.SHA256()))
    except InvalidSignature as reason:
        raise StatementRefusedError("its signature is not over what it holds") from reason
    return certificate


def _bound(text: bytes, purpose: str) -> bytes:
    return f"fieldapp {purpose}\n".encode() + text
