"""A request proves its key and says its name; anything else is named as such."""

import os

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat
from cryptography.x509.oid import NameOID

from fieldapp.crew.authority import UnfitNameError, new_key
from fieldapp.crew.keys import ShortSecretError, read_key
from fieldapp.crew.people import key_fingerprint
from fieldapp.crew.tablet.request import (
    NoRequestError,
    keys_here,
    make_key,
    pending,
    read_request,
)
from tests.crew.offices import CHEAP, SECRET


@pytest.fixture
def keys(tmp_path):
    return tmp_path / "keys"


def made_by(key, *names):
    subject = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name) for name in names])
    builder = x509.CertificateSigningRequestBuilder().subject_name(subject)
    return builder.sign(key, hashes.SHA256()).public_bytes(Encoding.PEM)


def test_request_is_read_back_and_its_key_is_here_sealed(keys, tmp_path):
    made = make_key(keys, "  Ada   Moor ", SECRET, cost=CHEAP)
    path = tmp_path / "a.pem"
    path.write_bytes(made.text)
    read = read_request(path)
    assert (read.name, read.fingerprint) == ("Ada Moor", made.fingerprint)
    key = read_key(keys / f"{made.fingerprint[:16]}.key", SECRET)
    assert key_fingerprint(key.public_key()) == made.fingerprint
    assert keys_here(keys) == {made.fingerprint}


def test_request_waits_until_somebody_vouches_for_its_key(keys):
    one, two = (make_key(keys, name, SECRET, cost=CHEAP) for name in ("Ada Moor", "Bo Lind"))
    assert {each.name for each in pending(keys, frozenset())} == {"Ada Moor", "Bo Lind"}
    assert [each.name for each in pending(keys, frozenset({one.fingerprint}))] == [two.name]


@pytest.mark.parametrize("secret", ["", "1234567"])
def test_short_secret_makes_nothing(keys, secret):
    with pytest.raises(ShortSecretError):
        make_key(keys, "Ada Moor", secret, cost=CHEAP)
    assert not keys.exists()


@pytest.mark.parametrize("name", ["", "  ", "n" * 65])
def test_name_that_no_certificate_can_carry_makes_nothing(keys, name):
    with pytest.raises(UnfitNameError):
        make_key(keys, name, SECRET, cost=CHEAP)
    assert not keys.exists()


def test_request_whose_key_was_swapped_is_refused(tmp_path):
    key, other = new_key(), new_key()
    form = (Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
    found = x509.load_pem_x509_csr(made_by(key, "Ada Moor")).public_bytes(Encoding.DER)
    swapped = found.replace(
        key.public_key().public_bytes(*form), other.public_key().public_bytes(*form)
    )
    path = tmp_path / "a.pem"
    path.write_bytes(x509.load_der_x509_csr(swapped).public_bytes(Encoding.PEM))
    with pytest.raises(NoRequestError, match="was changed after it was made"):
        read_request(path)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (b"", "is not a request, or is damaged"),
        (b"-----BEGIN CERTIFICATE REQUEST-----\nAAAA\n", "is not a request"),
        (os.urandom(20_001), "far too large"),
        (made_by(new_key()), "was changed"),
        (made_by(new_key(), "Ada Moor", "Bo Lind"), "was changed"),
        (made_by(ec.generate_private_key(ec.SECP384R1()), "Ada Moor"), "of a kind that is not"),
    ],
    ids=["empty", "torn", "large", "nobody", "two names", "p384"],
)
def test_file_that_is_no_request_of_ours_is_refused(tmp_path, text, words):
    path = tmp_path / "a.pem"
    path.write_bytes(text)
    with pytest.raises(NoRequestError, match=words):
        read_request(path)


def test_missing_request_is_named(tmp_path):
    with pytest.raises(NoRequestError, match=r"a\.pem: no such file"):
        read_request(tmp_path / "a.pem")
    with pytest.raises(NoRequestError, match="not a request"):
        read_request(tmp_path)
