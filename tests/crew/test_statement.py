"""A statement counts when its signer's key, certificate and office do, and not otherwise."""

from dataclasses import replace
from datetime import timedelta

import pytest
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from cryptography.hazmat.primitives.serialization import Encoding

from fieldapp.crew.authority import Revoked, enrol
from fieldapp.crew.people import Role
from fieldapp.crew.statement import StatementRefusedError, certificate_of, checked, signed
from tests.crew.offices import AT, LATER, office, roster_of, signer_of

PURPOSE = "test of words, format 1"
TEXT = b"entries 12 to 15 are lost"


@pytest.fixture(scope="module")
def authority():
    return office()


@pytest.fixture(scope="module")
def signer(authority):
    return signer_of(authority)


@pytest.fixture(scope="module")
def statement(signer):
    return signed(TEXT, signer, purpose=PURPOSE)


def judged(statement, roster, at=LATER, purpose=PURPOSE):
    return checked(statement, roster, purpose=purpose, at=at)


def test_statement_names_who_stands_for_it(authority, signer, statement):
    assert judged(statement, roster_of(authority, signer)) == signer.person


def test_person_need_not_be_listed_as_long_as_the_office_vouches(authority, statement):
    assert judged(statement, roster_of(authority)).name == "Ada Moor"


@pytest.mark.parametrize(
    "change",
    [
        {"text": TEXT + b" "},
        {"text": b""},
        {"signature": b""},
        {"signature": b"\x30\x06\x02\x01\x01\x02\x01\x01"},
        {"signature": b"\x04\x01x"},
    ],
)
def test_changed_statement_is_refused(authority, statement, change):
    with pytest.raises(StatementRefusedError, match="not over what it holds"):
        judged(replace(statement, **change), roster_of(authority))


def test_signature_under_one_kind_of_text_is_none_under_another(authority, statement):
    with pytest.raises(StatementRefusedError, match="not over what it holds"):
        judged(statement, roster_of(authority), purpose="hand-over, format 1")


def test_certificate_of_somebody_else_is_refused(authority, statement):
    other = signer_of(authority, "Bo Lind").person.certificate.public_bytes(Encoding.PEM).decode()
    with pytest.raises(StatementRefusedError, match="not over what it holds"):
        certificate_of(replace(statement, certificate=other), purpose=PURPOSE)


@pytest.mark.parametrize("text", ["", "no certificate", "-----BEGIN CERTIFICATE-----\nAA=="])
def test_certificate_that_cannot_be_read_is_refused(authority, statement, text):
    with pytest.raises(StatementRefusedError, match="cannot be read"):
        judged(replace(statement, certificate=text), roster_of(authority))


@pytest.mark.parametrize(
    "key",
    [Ed25519PrivateKey.generate(), ec.generate_private_key(ec.SECP384R1())],
    ids=["ed25519", "p384"],
)
def test_key_of_another_kind_is_refused(authority, statement, key):
    certificate = enrol(authority, "Cy Hale", Role.TECHNICIAN, key.public_key(), AT)
    pem = certificate.public_bytes(Encoding.PEM).decode()
    with pytest.raises(StatementRefusedError, match="of a kind that is not used here"):
        judged(replace(statement, certificate=pem), roster_of(authority))


def test_office_of_the_same_name_is_another_office(statement):
    with pytest.raises(StatementRefusedError, match="from another office"):
        judged(statement, roster_of(office()))


@pytest.mark.parametrize("days", [-1, 731])
def test_certificate_out_of_its_time_is_refused(authority, statement, days):
    with pytest.raises(StatementRefusedError, match="counts from 2026-03-02 to 2028-03-01"):
        judged(statement, roster_of(authority), at=AT + timedelta(days=days))


@pytest.mark.parametrize("day", [1, 20])
def test_lost_key_stands_for_nothing_whenever_that_was(authority, signer, statement, day):
    revoked = Revoked(
        signer.person.certificate.serial_number, AT + timedelta(days=day), key_lost=True
    )
    with pytest.raises(StatementRefusedError, match="was withdrawn on 2026-03"):
        judged(statement, roster_of(authority, revoked=[revoked]))


def test_person_who_left_stands_for_what_was_said_before(authority, signer, statement):
    serial = signer.person.certificate.serial_number
    later = roster_of(authority, revoked=[Revoked(serial, AT + timedelta(days=20))])
    assert judged(statement, later) == signer.person
    earlier = roster_of(authority, revoked=[Revoked(serial, AT + timedelta(days=5))])
    with pytest.raises(StatementRefusedError, match="another person must sign"):
        judged(statement, earlier)


def test_list_that_ran_out_says_nothing_of_today(authority, statement):
    old = roster_of(authority, until=AT + timedelta(days=9))
    with pytest.raises(StatementRefusedError, match="ran out on 2026-03-11; take in the office"):
        judged(statement, old)
