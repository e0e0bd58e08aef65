"""The trust folder that office and tablets carry: the authority, its people and what it took back.

::

    trust/authority.pem   the office's certificate
    trust/people.pem      the certificates of the crew
    trust/revoked.pem     the list of certificates that no longer count
"""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import Encoding

from fieldapp.crew.people import Person, issued_by, key_fingerprint, name_of, person_of
from fieldapp.errors import FieldAppError

FOLDER = "trust"
_AUTHORITY, _PEOPLE, _REVOKED = "authority.pem", "people.pem", "revoked.pem"
_Kind = TypeVar("_Kind")


class TrustFolderError(FieldAppError):
    """A trust folder lacks something or holds something that is not the office's."""

    def __init__(self, place: Path, problem: str) -> None:
        super().__init__(f"{place}: {problem}; copy the trust folder from the office again")
        self.place = place
        self.problem = problem


class NotOnRosterError(FieldAppError):
    """Nobody on the roster has this name or key."""

    def __init__(self, wanted: str) -> None:
        super().__init__(
            f"'{wanted}' is not among the people of the trust folder; "
            "copy the trust folder from the office again, or ask the office for a certificate"
        )
        self.wanted = wanted


@dataclass(frozen=True, slots=True)
class Roster:
    """Whom to believe: the authority, the people it vouches for, and what it took back."""

    authority: x509.Certificate
    revocation_list: x509.CertificateRevocationList
    people: tuple[Person, ...] = ()

    @property
    def fingerprint(self) -> str:
        """The SHA-256 of the authority's public key in hexadecimal."""
        return key_fingerprint(self.authority.public_key())

    def named(self, name: str) -> Person:
        """Return the person of that name."""
        return self._first(name, lambda person: person.name == name)

    def holder_of(self, fingerprint: str) -> Person:
        """Return the person whose key has that fingerprint."""
        return self._first(fingerprint, lambda person: person.fingerprint == fingerprint)

    def _first(self, wanted: str, fits: Callable[[Person], bool]) -> Person:
        for person in self.people:
            if fits(person):
                return person
        raise NotOnRosterError(wanted)


def find_roster(record: Path, home: Path, given: Path | None = None) -> Path | None:
    """Return the trust folder: the one given, else the home's, else the one beside the record.

    Whoever sends a record can send a trust folder with it, so this device's own comes first.
    """
    if given is not None:
        return given
    places = (home / FOLDER, record.parent / FOLDER)
    return next((place for place in places if (place / _AUTHORITY).is_file()), None)


def write_roster(folder: Path, roster: Roster) -> None:
    """Write a trust folder."""
    folder.mkdir(parents=True, exist_ok=True)
    people = (person.certificate.public_bytes(Encoding.PEM) for person in roster.people)
    (folder / _AUTHORITY).write_bytes(roster.authority.public_bytes(Encoding.PEM))
    (folder / _PEOPLE).write_bytes(b"".join(people))
    (folder / _REVOKED).write_bytes(roster.revocation_list.public_bytes(Encoding.PEM))


def read_roster(folder: Path) -> Roster:
    """Return what a trust folder holds, once the authority's signature on all of it is checked."""
    authority = _read(folder / _AUTHORITY, x509.load_pem_x509_certificate)
    revoked = _read(folder / _REVOKED, x509.load_pem_x509_crl)
    people = _read(folder / _PEOPLE, _certificates)
    _check_issued(folder / _AUTHORITY, authority, authority)
    key = authority.public_key()
    if not isinstance(key, ec.EllipticCurvePublicKey) or not revoked.is_signature_valid(key):
        raise TrustFolderError(folder / _REVOKED, "the list was not signed by the authority")
    for certificate in people:
        _check_issued(folder / _PEOPLE, certificate, authority)
    return Roster(authority, revoked, tuple(person_of(certificate) for certificate in people))


def _certificates(text: bytes) -> list[x509.Certificate]:
    return x509.load_pem_x509_certificates(text) if text.strip() else []


def _read(path: Path, load: Callable[[bytes], _Kind]) -> _Kind:
    try:
        return load(path.read_bytes())
    except FileNotFoundError as reason:
        raise TrustFolderError(path, "the file is missing") from reason
    except (OSError, ValueError) as reason:
        raise TrustFolderError(path, "the file cannot be read") from reason


def _check_issued(path: Path, certificate: x509.Certificate, authority: x509.Certificate) -> None:
    if not issued_by(certificate, authority):
        problem = f"the certificate of {name_of(certificate)} is not the authority's"
        raise TrustFolderError(path, problem)
