"""A key file opens with its secret only, and says clearly why when it does not."""

import base64
import hashlib
import json
import stat

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.serialization import load_der_private_key

from fieldapp.crew.authority import new_key
from fieldapp.crew.keys import (
    ShortSecretError,
    UnreadableKeyError,
    WrongSecretError,
    fingerprint_of,
    read_key,
    seal,
    unlock,
    write_key,
)
from fieldapp.crew.people import key_fingerprint

SECRET = "kettle on the hill"
CHEAP = 2**10


@pytest.fixture(scope="module")
def key():
    return new_key()


@pytest.fixture(scope="module")
def sealed(key):
    return seal(key, SECRET, cost=CHEAP)


def changed(sealed, **entries):
    return json.dumps({**json.loads(sealed), **entries}).encode()


def test_secret_opens_the_key(key, sealed):
    assert unlock(sealed, SECRET).public_key() == key.public_key()


def test_another_implementation_of_scrypt_opens_the_key(key, sealed):
    # RFC 7914 as Python's own hashlib has it, not the library that sealed the key.
    held = json.loads(sealed)
    salt, nonce = base64.b64decode(held["salt"]), base64.b64decode(held["nonce"])
    stretched = hashlib.scrypt(SECRET.encode(), salt=salt, n=held["cost"], r=8, p=1, dklen=32)
    guarded = {name: value for name, value in held.items() if name != "key"}
    plain = AESGCM(stretched).decrypt(
        nonce, base64.b64decode(held["key"]), json.dumps(guarded, sort_keys=True).encode()
    )
    assert load_der_private_key(plain, None).public_key() == key.public_key()


def test_key_of_another_kind_is_refused():
    other = seal(Ed25519PrivateKey.generate(), SECRET, cost=CHEAP)  # type: ignore[arg-type]
    with pytest.raises(UnreadableKeyError):
        unlock(other, SECRET)


def test_cost_of_a_guess_is_the_decided_one_unless_said_otherwise(key):
    assert json.loads(seal(key, SECRET))["cost"] == 2**16


@pytest.mark.parametrize("secret", ["kettle on the hilt", "", "kettle on the hill "])
def test_wrong_secret_is_named_as_such(sealed, secret):
    with pytest.raises(WrongSecretError, match="does not open this key; type it again"):
        unlock(sealed, secret)


@pytest.mark.parametrize("secret", ["", "1234567"])
def test_short_secret_is_refused_before_anything_is_sealed(key, secret):
    with pytest.raises(ShortSecretError, match="at least 8 characters"):
        seal(key, secret, cost=CHEAP)


def test_eight_characters_are_enough(key):
    opened = unlock(seal(key, "12345678", cost=CHEAP), "12345678")
    assert opened.public_key() == key.public_key()


@pytest.mark.parametrize(
    "entry",
    [
        {"fingerprint": "00" * 32},
        {"cost": CHEAP * 2},
        {"block_size": 4},
        {"salt": base64.b64encode(bytes(16)).decode()},
        {"nonce": base64.b64encode(bytes(12)).decode()},
        {"note": "added"},
    ],
    ids=lambda entry: next(iter(entry)),
)
def test_changed_key_file_does_not_open(sealed, entry):
    with pytest.raises(WrongSecretError):
        unlock(changed(sealed, **entry), SECRET)


@pytest.mark.parametrize(
    "text",
    [
        b"",
        b"[]",
        b"{}",
        b'{"format": 2}',
        b'{"format": 1}',
        b"\xff\xfe",
        b'{"format": 1, "key": "?", "salt": "", "nonce": "", "cost": 1024}',
    ],
)
def test_file_that_holds_no_key_is_named_as_such(text):
    with pytest.raises(UnreadableKeyError, match="does not hold a key"):
        unlock(text, SECRET)


@pytest.mark.parametrize("cost", [2**21, "1024", 3, 0, -1, None])
def test_cost_that_is_not_ours_is_refused(sealed, cost):
    with pytest.raises(UnreadableKeyError):
        unlock(changed(sealed, cost=cost), SECRET)


def test_key_file_says_whose_key_it_holds_while_locked(key, sealed):
    assert fingerprint_of(sealed) == key_fingerprint(key.public_key())


def test_two_sealings_of_one_key_share_nothing_secret(key, sealed):
    first, second = json.loads(sealed), json.loads(seal(key, SECRET, cost=CHEAP))
    assert all(first[name] != second[name] for name in ("salt", "nonce", "key"))


def test_key_file_is_for_its_owner_only_and_is_written_anew(tmp_path, key, sealed):
    path = tmp_path / "keys" / "technician.key"
    write_key(path, b"an old key")
    write_key(path, sealed)
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert read_key(path, SECRET).public_key() == key.public_key()


def test_missing_key_file_is_named(tmp_path):
    path = tmp_path / "nobody.key"
    with pytest.raises(UnreadableKeyError, match=r"nobody\.key does not hold a key"):
        read_key(path, SECRET)


def test_unreadable_key_file_is_named(tmp_path):
    path = tmp_path / "torn.key"
    write_key(path, b"{")
    with pytest.raises(UnreadableKeyError, match=r"torn\.key does not hold a key"):
        read_key(path, SECRET)
