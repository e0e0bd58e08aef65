"""The office's certificates say what RFC 5280 and RFC 9336 ask of them."""

from datetime import UTC, datetime, timedelta

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID

from fieldapp.crew.authority import (
    Revoked,
    UnfitNameError,
    enrol,
    found_authority,
    new_key,
    revocation_list,
)
from fieldapp.crew.people import Role, UnknownRoleError, issuer_of, key_fingerprint, person_of

AT = datetime(2026, 3, 2, 7, 30, tzinfo=UTC)


@pytest.fixture(scope="module")
def authority():
    return found_authority("Example grid office", AT)


@pytest.fixture(scope="module")
def certificate(authority):
    return enrol(authority, "Ada Moor", Role.TECHNICIAN, new_key().public_key(), AT)


def extension(certificate, kind):
    return certificate.extensions.get_extension_for_class(kind)


def test_authority_may_issue_for_people_and_for_no_other_authority(authority):
    # RFC 5280 (2008), 4.2.1.9: a path length of zero forbids further authorities below.
    limits = extension(authority.certificate, x509.BasicConstraints)
    assert limits.critical
    assert (limits.value.ca, limits.value.path_length) == (True, 0)


def test_authority_signs_certificates_and_lists_only(authority):
    usage = extension(authority.certificate, x509.KeyUsage)
    assert usage.critical
    assert usage.value.key_cert_sign
    assert usage.value.crl_sign
    assert not usage.value.digital_signature


def test_certificate_comes_from_the_authority(authority, certificate):
    certificate.verify_directly_issued_by(authority.certificate)


def test_certificate_is_for_signing_documents(certificate):
    # RFC 5280, 4.2.1.3 names the usages; RFC 9336 (2022), 3 gives the purpose its number.
    usage = extension(certificate, x509.KeyUsage)
    assert usage.critical
    assert usage.value.digital_signature
    assert usage.value.content_commitment
    assert not usage.value.key_cert_sign
    purposes = {
        purpose.dotted_string for purpose in extension(certificate, x509.ExtendedKeyUsage).value
    }
    assert purposes == {ExtendedKeyUsageOID.EMAIL_PROTECTION.dotted_string, "1.3.6.1.5.5.7.3.36"}


def test_certificate_cannot_issue_others(certificate):
    assert extension(certificate, x509.BasicConstraints).value.ca is False


def test_certificate_counts_for_two_years(certificate):
    assert certificate.not_valid_before_utc == AT
    assert certificate.not_valid_after_utc == AT + timedelta(days=730)


def test_key_is_on_the_curve_p256(certificate):
    assert isinstance(certificate.public_key().curve, ec.SECP256R1)


def test_person_is_read_back_from_the_certificate(certificate):
    person = person_of(certificate)
    assert (person.name, person.role) == ("Ada Moor", Role.TECHNICIAN)
    assert person.fingerprint == key_fingerprint(certificate.public_key())


def test_certificate_names_its_issuer_by_the_fingerprint_of_the_key(authority, certificate):
    # RFC 7093 (2013), section 2, method 4: the hash of the whole public key, here SHA-256.
    fingerprint = key_fingerprint(authority.key.public_key())
    assert issuer_of(certificate) == ("Example grid office", fingerprint)
    held = extension(authority.certificate, x509.SubjectKeyIdentifier).value
    assert held.key_identifier.hex() == fingerprint


def test_certificate_without_a_role_is_refused(authority):
    with pytest.raises(UnknownRoleError, match="Example grid office: the role ''"):
        person_of(authority.certificate)


@pytest.mark.parametrize("name", ["", "  ", "n" * 65, "ä" * 33], ids=len)
def test_name_that_no_certificate_can_carry_is_refused(authority, name):
    with pytest.raises(UnfitNameError, match="1 to 64 letters"):
        enrol(authority, name, Role.TECHNICIAN, new_key().public_key(), AT)


def test_same_key_keeps_its_fingerprint_in_a_new_certificate(authority, certificate):
    later = enrol(
        authority, "Ada Moor", Role.TECHNICIAN, certificate.public_key(), AT + timedelta(days=700)
    )
    assert later.serial_number != certificate.serial_number
    assert person_of(later).fingerprint == person_of(certificate).fingerprint


def test_list_names_what_was_revoked_and_when_the_next_is_due(authority, certificate):
    due = AT + timedelta(days=30)
    revoked = Revoked(certificate.serial_number, AT + timedelta(days=1), key_lost=True)
    issued = revocation_list(authority, [revoked], number=7, at=AT, next_update=due)
    assert issued.is_signature_valid(authority.certificate.public_key())
    assert issued.next_update_utc == due
    assert extension(issued, x509.CRLNumber).value.crl_number == 7
    (entry,) = issued
    assert entry.serial_number == certificate.serial_number
    assert entry.revocation_date_utc == AT + timedelta(days=1)
    assert extension(entry, x509.CRLReason).value.reason is x509.ReasonFlags.key_compromise


def test_list_may_be_empty(authority):
    issued = revocation_list(authority, [], number=1, at=AT, next_update=AT + timedelta(days=30))
    assert list(issued) == []
