"""A person's key, made on the tablet, and the request that asks the office to vouch for it.

The key never leaves the tablet; the request (PKCS #10, RFC 2986) holds its public half and proves
that whoever wrote it had the other half.
"""

import re
from dataclasses import dataclass
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import Encoding
from cryptography.x509.oid import NameOID

from fieldapp.crew.authority import UnfitNameError, new_key
from fieldapp.crew.keys import COST, fingerprint_of, seal, write_key
from fieldapp.crew.people import key_fingerprint
from fieldapp.errors import FieldAppError
from fieldapp.whole import write_whole

ENDING = ".request.pem"
FOR_OFFICE = "for-office"
_LARGEST = 20_000


class NoRequestError(FieldAppError):
    """A file does not hold a request that can be granted."""

    def __init__(self, path: Path, problem: str) -> None:
        super().__init__(f"{path}: {problem}; make the key and its request on the tablet again")
        self.path = path


@dataclass(frozen=True, slots=True)
class Request:
    """Who asks to be enrolled, and the public half of their key."""

    name: str
    public_key: ec.EllipticCurvePublicKey
    text: bytes

    @property
    def fingerprint(self) -> str:
        """The SHA-256 of the public key in hexadecimal."""
        return key_fingerprint(self.public_key)


def make_key(keys: Path, name: str, secret: str, *, cost: int = COST) -> Request:
    """Make a key, keep it sealed in the folder of keys with its request, return the request."""
    name = " ".join(name.split())
    key = new_key()
    request = Request(name, key.public_key(), _request(name, key))
    place = keys / request.fingerprint[:16]
    write_key(place.with_suffix(".key"), seal(key, secret, cost=cost))
    write_whole(place.with_suffix(ENDING), request.text)
    return request


def read_request(path: Path) -> Request:
    """Return who asks and with which key, once the request is proved to be of that key."""
    try:
        if path.stat().st_size > _LARGEST:
            raise NoRequestError(path, "it is far too large for a request")
        text = path.read_bytes()
        found = x509.load_pem_x509_csr(text)
        key, whole = found.public_key(), found.is_signature_valid
    except FileNotFoundError as reason:
        raise NoRequestError(path, "no such file") from reason
    except (OSError, ValueError) as reason:
        raise NoRequestError(path, "it is not a request, or is damaged") from reason
    if not isinstance(key, ec.EllipticCurvePublicKey) or not isinstance(key.curve, ec.SECP256R1):
        raise NoRequestError(path, "its key is of a kind that is not used here")
    names = [str(one.value) for one in found.subject.get_attributes_for_oid(NameOID.COMMON_NAME)]
    if not whole or len(names) != 1:
        raise NoRequestError(path, "it was changed after it was made")
    return Request(names[0], key, text)


def pending(keys: Path, enrolled: frozenset[str]) -> tuple[Request, ...]:
    """Return the requests of this tablet's keys that nobody has vouched for yet."""
    found = [read_request(path) for path in sorted(keys.glob(f"*{ENDING}"))]
    return tuple(request for request in found if request.fingerprint not in enrolled)


def keys_here(keys: Path) -> frozenset[str]:
    """Return the fingerprints of the keys on this tablet."""
    return frozenset(fingerprint_of(path.read_bytes()) for path in keys.glob("*.key"))


def file_name(name: str) -> str:
    """Return the name of the file that carries a person's request to the office.

    >>> file_name("Bo Lind")
    'Bo-Lind.request.pem'
    """
    return re.sub(r"[^\w]+", "-", name).strip("-") + ENDING


def demand_name(name: str) -> None:
    """Refuse a name that no certificate can bear."""
    if not name.strip() or len(name.encode()) > 64:  # noqa: PLR2004 - RFC 5280, upper bound
        raise UnfitNameError(name)


def _request(name: str, key: ec.EllipticCurvePrivateKey) -> bytes:
    demand_name(name)
    subject = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name)])
    made = x509.CertificateSigningRequestBuilder().subject_name(subject)
    return made.sign(key, hashes.SHA256()).public_bytes(Encoding.PEM)
