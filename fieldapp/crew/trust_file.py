"""The trust file that the office gives out: its certificate, its list and its people in one file.

The parts are PEM, one after the other, so that other programs read them too. Nothing in it is
secret. A trust folder holds the same in three files; a tablet takes in either.
"""

from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding

from fieldapp.crew.people import name_of
from fieldapp.crew.roster import Roster, checked_roster, read_roster
from fieldapp.errors import FieldAppError

LARGEST = 4_000_000


class NoTrustFileError(FieldAppError):
    """A file does not hold what an office gives out."""

    def __init__(self, path: Path, problem: str) -> None:
        super().__init__(f"{path}: {problem}: ask the office for its trust file again")
        self.path = path


def trust_text(roster: Roster) -> bytes:
    """Return the text of a trust file."""
    title = f"# Trust file of {name_of(roster.authority)}, list number {roster.number}\n".encode()
    people = (person.certificate.public_bytes(Encoding.PEM) for person in roster.people)
    authority = roster.authority.public_bytes(Encoding.PEM)
    return b"".join((title, authority, roster.revocation_list.public_bytes(Encoding.PEM), *people))


def read_trust(path: Path) -> Roster:
    """Return what a trust file or a trust folder holds, once the authority's word is checked."""
    if path.is_dir():
        return read_roster(path)
    text = _content(path)
    try:
        certificates = x509.load_pem_x509_certificates(text)
        revoked = x509.load_pem_x509_crl(text)
        authorities = [one for one in certificates if _is_authority(one)]
    except ValueError as reason:
        raise NoTrustFileError(path, "it is not an office's trust file, or is damaged") from reason
    if len(authorities) != 1:
        raise NoTrustFileError(path, f"it names {len(authorities)} offices instead of one")
    people = [one for one in certificates if one is not authorities[0]]
    return checked_roster(authorities[0], revoked, people, (path, path, path))


def _content(path: Path) -> bytes:
    try:
        if path.stat().st_size > LARGEST:
            raise NoTrustFileError(path, "it is far too large for a trust file")
        return path.read_bytes()
    except FileNotFoundError as reason:
        raise NoTrustFileError(path, "no such file") from reason
    except OSError as reason:
        raise NoTrustFileError(path, "it cannot be read") from reason


def _is_authority(certificate: x509.Certificate) -> bool:
    try:
        limits = certificate.extensions.get_extension_for_class(x509.BasicConstraints).value
    except x509.ExtensionNotFound:
        return False
    return limits.ca
