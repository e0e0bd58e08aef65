"""A private key at rest: under a secret that only its holder knows.

The secret is stretched with scrypt (RFC 7914) and the key in PKCS #8 is enciphered with
AES-256-GCM (NIST SP 800-38D), which also guards everything else in the file. PKCS #12 is not used:
its stretching is so cheap that a secret of six digits falls within minutes.
"""

import json
import os
from base64 import b64decode, b64encode
from pathlib import Path
from typing import Any

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.kdf.scrypt import Scrypt
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    load_der_private_key,
)

from fieldapp.crew.people import Person, key_fingerprint
from fieldapp.errors import FieldAppError
from fieldapp.whole import OWN, write_whole

COST = 2**16
SHORTEST_SECRET = 8
_BLOCK_SIZE = 8
_HIGHEST_COST = 2**20  # a gigabyte; a file that asks for more is not ours
_FORMAT = 1


class ShortSecretError(FieldAppError):
    """A secret is too short to guard a key."""

    def __init__(self) -> None:
        super().__init__(f"the secret is too short; choose at least {SHORTEST_SECRET} characters")


class WrongSecretError(FieldAppError):
    """A secret does not open the key, or the key file was changed."""

    def __init__(self) -> None:
        super().__init__(
            "the secret does not open this key; type it again, "
            "or ask the office for a new key if it was forgotten"
        )


class UnreadableKeyError(FieldAppError):
    """A file does not hold a sealed key."""

    def __init__(self, path: Path | None = None) -> None:
        place = str(path) if path else "the key file"
        super().__init__(f"{place} does not hold a key; copy it again or ask the office for one")
        self.path = path

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return "The key file on this tablet does not hold a key: ask the office for a new key"


def seal(key: ec.EllipticCurvePrivateKey, secret: str, *, cost: int = COST) -> bytes:
    """Return the text of a key file that only the secret opens."""
    if len(secret) < SHORTEST_SECRET:
        raise ShortSecretError
    salt, nonce = os.urandom(16), os.urandom(12)
    header = {
        "format": _FORMAT,
        "fingerprint": key_fingerprint(key.public_key()),
        "stretching": "scrypt",
        "cost": cost,
        "block_size": _BLOCK_SIZE,
        "cipher": "AES-256-GCM",
        "salt": b64encode(salt).decode(),
        "nonce": b64encode(nonce).decode(),
    }
    plain = key.private_bytes(Encoding.DER, PrivateFormat.PKCS8, NoEncryption())
    sealed = AESGCM(_stretched(secret, salt, cost)).encrypt(nonce, plain, _guarded(header))
    return json.dumps({**header, "key": b64encode(sealed).decode()}, indent=1).encode()


def unlock(sealed: bytes, secret: str) -> ec.EllipticCurvePrivateKey:
    """Return the private key in the text of a key file."""
    header = _parsed(sealed)
    try:
        ciphered = b64decode(header.pop("key"), validate=True)
        salt, nonce = b64decode(header["salt"]), b64decode(header["nonce"])
        stretched = _stretched(secret, salt, _cost(header))
        plain = AESGCM(stretched).decrypt(nonce, ciphered, _guarded(header))
    except InvalidTag as reason:
        raise WrongSecretError from reason
    except (KeyError, TypeError, ValueError) as reason:
        raise UnreadableKeyError from reason
    key = load_der_private_key(plain, password=None)
    if not isinstance(key, ec.EllipticCurvePrivateKey):
        raise UnreadableKeyError
    return key


def fingerprint_of(sealed: bytes) -> str:
    """Return whose key a key file holds, without opening it: the fingerprint of the public key."""
    return str(_parsed(sealed).get("fingerprint", ""))


def key_path(folder: Path, person: Person) -> Path:
    """Return where a person's key file lies in a folder of keys."""
    return folder / f"{person.fingerprint[:16]}.key"


def write_key(path: Path, sealed: bytes) -> None:
    """Write a key file that only the present user of the tablet can read."""
    write_whole(path, sealed, OWN)


def read_key(path: Path, secret: str) -> ec.EllipticCurvePrivateKey:
    """Return the private key in a key file."""
    try:
        return unlock(path.read_bytes(), secret)
    except (OSError, UnreadableKeyError) as reason:
        raise UnreadableKeyError(path) from reason


def _parsed(sealed: bytes) -> dict[str, Any]:
    try:
        header = json.loads(sealed)
    except ValueError as reason:
        raise UnreadableKeyError from reason
    if not isinstance(header, dict) or header.get("format") != _FORMAT:
        raise UnreadableKeyError
    return header


def _cost(header: dict[str, Any]) -> int:
    cost = header["cost"]
    if not isinstance(cost, int) or not 1 < cost <= _HIGHEST_COST:
        raise UnreadableKeyError
    return cost


def _stretched(secret: str, salt: bytes, cost: int) -> bytes:
    return Scrypt(salt=salt, length=32, n=cost, r=_BLOCK_SIZE, p=1).derive(secret.encode())


def _guarded(header: dict[str, Any]) -> bytes:
    return json.dumps(header, sort_keys=True).encode()
