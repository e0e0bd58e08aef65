"""Only a certificate of the right role, of our office and in force lets a signature count."""

from datetime import timedelta

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.x509.oid import NameOID

from fieldapp.crew import authority
from fieldapp.crew.authority import Authority, found_authority, new_key, revocation_list
from fieldapp.crew.people import Person, Role, Signer
from fieldapp.crew.roster import Roster
from fieldapp.record.verification import verify
from tests.record import specimen as made

FLAGS = x509.ReasonFlags
GOOD_STANDING: dict[x509.ReasonFlags | None, str] = {
    FLAGS.affiliation_changed: "moved on",
    FLAGS.cessation_of_operation: "left",
    FLAGS.superseded: "renewed",
}
BAD: dict[x509.ReasonFlags | None, str] = {
    None: "no reason given",
    FLAGS.unspecified: "no reason given",
    FLAGS.key_compromise: "others may hold the key",
    FLAGS.ca_compromise: "others may hold the office’s key",
    FLAGS.privilege_withdrawn: "may no longer sign",
    FLAGS.certificate_hold: "put on hold",
    FLAGS.aa_compromise: "no reason given",
}
WHY: dict[x509.ReasonFlags | None, str] = {**BAD, **GOOD_STANDING}
LATER, EARLIER = timedelta(days=40), timedelta(days=-1)


def roster_with(reason, at, number=1):
    """Return a roster whose list takes the lead's certificate back for a reason."""
    serial = made.lead().person.certificate.serial_number
    entry = x509.RevokedCertificateBuilder().serial_number(serial).revocation_date(at)
    if reason is not None:
        entry = entry.add_extension(x509.CRLReason(reason), critical=False)
    empty = made.roster().revocation_list
    listed = (
        x509.CertificateRevocationListBuilder()
        .issuer_name(empty.issuer)
        .last_update(empty.last_update_utc)
        .next_update(empty.next_update_utc)
        .add_extension(x509.CRLNumber(number), critical=False)
        .add_revoked_certificate(entry.build())
    )
    for extension in empty.extensions:
        if isinstance(extension.value, x509.AuthorityKeyIdentifier):
            listed = listed.add_extension(extension.value, critical=False)
    return Roster(made.office().certificate, listed.sign(made.office().key, hashes.SHA256()))


def named(reason):
    return reason.value if reason else "none"


@pytest.mark.parametrize("reason", [*BAD, *GOOD_STANDING], ids=named)
def test_signature_after_the_certificate_was_taken_back_does_not_count(reason, found):
    findings = found(made.closed(), roster_with(reason, made.CLOSED + EARLIER))
    why = WHY[reason]
    assert f"certificate of Bo Lind (crew lead) was revoked on 2026-05-03 ({why})" in findings
    assert "the signature does not count, another person must sign" in findings


@pytest.mark.parametrize("reason", BAD, ids=named)
def test_signature_does_not_count_whenever_made_where_the_key_may_be_in_other_hands(reason, found):
    findings = found(made.closed(), roster_with(reason, made.CLOSED + LATER))
    assert f"was revoked on 2026-06-13 ({BAD[reason]})" in findings


@pytest.mark.parametrize("reason", GOOD_STANDING, ids=named)
def test_who_left_in_good_standing_has_still_signed(reason, found):
    assert found(made.closed(), roster_with(reason, made.CLOSED + LATER)) == ""


def test_list_of_another_authority_of_the_same_name_is_found(found):
    other = found_authority("Example grid office", made.FOUNDED)
    strange = Roster(made.office().certificate, made.roster(by=other).revocation_list)
    findings = found(made.closed(), strange)
    assert "The list of revoked certificates is not the trusted authority’s" in findings
    assert "take in the office's trust file again" in findings


def test_list_that_was_changed_is_found(found):
    listed = revocation_list(
        Authority(made.office().certificate, new_key()), (), number=9,
        at=made.FOUNDED, next_update=made.CLOSED + LATER,
    )  # fmt: skip
    findings = found(made.closed(), Roster(made.office().certificate, listed))
    assert "The list of revoked certificates is not the trusted authority’s" in findings


def test_list_that_ran_out_before_signing_is_found(found):
    findings = found(made.closed(), made.roster(lasts=timedelta(days=3)))
    assert "list of revoked certificates ran out before the signature of Ada Moor" in findings


def test_time_beyond_the_list_is_found(found):
    at = made.FOUNDED + timedelta(days=400)
    pdf = made.forged_lead(made.forged_technician(made.document(), at=at), at=at)
    assert "list of revoked certificates ran out before the signature of Bo Lind" in found(pdf)


def test_person_who_vouches_for_another_is_found(found):
    technician = made.technician()
    own = Authority(technician.person.certificate, technician.key)
    lead = made.signer("Cy Hale", Role.CREW_LEAD, by=own)
    findings = found(made.forged_lead(made.signed(), by=lead))
    assert "certificate of Cy Hale (crew lead) is not from the trusted authority" in findings


def test_authority_that_signs_itself_is_found(found):
    office = made.office()
    person = Person("Example grid office", Role.CREW_LEAD, office.certificate)
    findings = found(
        made.forged_lead(made.signed(), by=Signer(person, office.key, office.certificate))
    )
    assert "certificate of Example grid office () is not one of a crew lead" in findings


@pytest.mark.parametrize("roles", [[], ["crew lead", "crew lead"], ["Crew Lead"], ["owner"]])
def test_certificate_without_one_known_role_is_found(roles, found, monkeypatch):
    units = [x509.NameAttribute(NameOID.ORGANIZATIONAL_UNIT_NAME, role) for role in roles]
    kept = x509.Name
    monkeypatch.setattr(x509, "Name", lambda parts: kept([*parts[:1], *units]))
    certificate = authority.enrol(
        made.office(), "Cy Hale", Role.CREW_LEAD, (key := new_key()).public_key(), made.FOUNDED
    )
    monkeypatch.undo()
    lead = Signer(Person("Cy Hale", Role.CREW_LEAD, certificate), key, made.office().certificate)
    findings = found(made.forged_lead(made.signed(), by=lead))
    assert "is not one of a crew lead; the crew lead must sign" in findings


@pytest.mark.parametrize("days", [-1, 731], ids=["not yet in force", "ran out"])
def test_certificate_outside_its_time_is_found(days, found):
    at = made.FOUNDED + timedelta(days=days)
    pdf = made.forged_lead(made.signed(), at=at)
    findings = found(pdf, made.roster(lasts=timedelta(days=3000)))
    assert "certificate of Bo Lind (crew lead) counts from 2026-03-02 to 2028-03-01" in findings
    assert "ask the office for a new one and sign again" in findings


def test_nothing_is_noted_the_day_after():
    assert all(
        "version 0.0.1" in note
        for note in verify(made.closed(), made.roster(), now=made.CLOSED + timedelta(days=1)).notes
    )


def test_list_that_ran_out_since_is_noted_and_changes_nothing():
    found = verify(made.closed(), made.roster(), now=made.CLOSED + timedelta(days=900))
    assert found.sound
    assert any("ran out on 2027-03-02; what the office took back since" in n for n in found.notes)


def test_signature_of_the_future_is_noted():
    found = verify(made.closed(), made.roster(), now=made.CLOSED - timedelta(days=2))
    assert [note for note in found.notes if "still to come by this device’s clock" in note] == [
        f"{name} signed on 2026-05-04, which is still to come by this device’s clock: check the "
        "date here, and that of the tablet"
        for name in ("Ada Moor", "Bo Lind")
    ]
