"""The trust folder that office and tablets carry: the authority, its people and what it took back.

::

    trust/authority.pem   the office's certificate
    trust/people.pem      the certificates of the crew
    trust/revoked.pem     the list of certificates that no longer count
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TypeVar

from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import Encoding

from fieldapp.crew.people import Person, issued_by, key_fingerprint, name_of, person_of
from fieldapp.errors import FieldAppError
from fieldapp.whole import write_whole

FOLDER = "trust"
_AUTHORITY, _PEOPLE, _REVOKED = "authority.pem", "people.pem", "revoked.pem"
_Kind = TypeVar("_Kind")


class TrustFolderError(FieldAppError):
    """A trust folder lacks something or holds something that is not the office's."""

    def __init__(self, place: Path, problem: str) -> None:
        super().__init__(f"{place}: {problem}; take in the office's trust file again")
        self.place = place
        self.problem = problem


class NotOnRosterError(FieldAppError):
    """Nobody on the roster has this name or key."""

    def __init__(self, wanted: str) -> None:
        super().__init__(
            f"'{wanted}' is not among the people of the trust folder; "
            "“fieldapp crew list” names them; whoever is missing is enrolled by the office"
        )
        self.wanted = wanted

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return f"{self.wanted} is not among the people of the office: take in its trust file again"


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

    @property
    def number(self) -> int:
        """The number of the list of what was taken back; a newer list has a higher one."""
        numbers = self.revocation_list.extensions.get_extension_for_class(x509.CRLNumber)
        return numbers.value.crl_number

    def named(self, name: str) -> Person:
        """Return the person of that name, by the certificate that counts longest."""
        found = [person for person in self.people if person.name == name]
        if not found:
            raise NotOnRosterError(name)
        return max(found, key=self._counts_until)

    def holder_of(self, fingerprint: str) -> Person:
        """Return the person whose key has that fingerprint."""
        found = [person for person in self.people if person.fingerprint == fingerprint]
        if not found:
            raise NotOnRosterError(fingerprint)
        return max(found, key=self._counts_until)

    def _counts_until(self, person: Person) -> tuple[bool, datetime]:
        serial = person.certificate.serial_number
        taken_back = self.revocation_list.get_revoked_certificate_by_serial_number(serial)
        return taken_back is None, person.certificate.not_valid_after_utc


def find_roster(record: Path, home: Path, given: Path | None = None) -> Path | None:
    """Return the trust folder: the one given, else the home's, else the one beside the record.

    Whoever sends a record can send a trust folder with it, so this device's own comes first.
    """
    if given is not None:
        return given
    places = (home / FOLDER, record.parent / FOLDER)
    return next((place for place in places if (place / _AUTHORITY).is_file()), None)


def write_roster(folder: Path, roster: Roster) -> None:
    """Write a trust folder; each file whole or not at all."""
    people = (person.certificate.public_bytes(Encoding.PEM) for person in roster.people)
    write_whole(folder / _AUTHORITY, roster.authority.public_bytes(Encoding.PEM))
    write_whole(folder / _PEOPLE, b"".join(people))
    write_whole(folder / _REVOKED, roster.revocation_list.public_bytes(Encoding.PEM))


def read_roster(folder: Path) -> Roster:
    """Return what a trust folder holds, once the authority's signature on all of it is checked."""
    authority = _read(folder / _AUTHORITY, x509.load_pem_x509_certificate)
    revoked = _read(folder / _REVOKED, x509.load_pem_x509_crl)
    people = _read(folder / _PEOPLE, _certificates)
    return checked_roster(
        authority, revoked, people, (folder / _AUTHORITY, folder / _REVOKED, folder / _PEOPLE)
    )


def checked_roster(
    authority: x509.Certificate,
    revoked: x509.CertificateRevocationList,
    people: Sequence[x509.Certificate],
    places: tuple[Path, Path, Path],
) -> Roster:
    """Return a roster whose every part the authority signed; `places` is where each part lies."""
    at_authority, at_list, at_people = places
    _check_issued(at_authority, authority, authority)
    key = authority.public_key()
    if not isinstance(key, ec.EllipticCurvePublicKey) or not revoked.is_signature_valid(key):
        raise TrustFolderError(at_list, "the list was not signed by the authority")
    if not any(isinstance(part.value, x509.CRLNumber) for part in revoked.extensions):
        raise TrustFolderError(at_list, "the list bears no number")
    for certificate in people:
        _check_issued(at_people, certificate, authority)
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
