"""A trust folder is read back whole, or the problem is named with its file."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.serialization import Encoding

from fieldapp.crew.authority import (
    Authority,
    enrol,
    found_authority,
    new_key,
    revocation_list,
)
from fieldapp.crew.enrolment import enrol_crew
from fieldapp.crew.keys import read_key
from fieldapp.crew.people import Role, person_of
from fieldapp.crew.roster import (
    FOLDER,
    NotOnRosterError,
    TrustFolderError,
    find_roster,
    read_roster,
    write_roster,
)

AT = datetime(2026, 3, 2, 7, 30, tzinfo=UTC)
SECRET = "kettle on the hill"


def enrolled(folder):
    return enrol_crew(
        folder,
        office="Example grid office",
        technician="Ada Moor",
        lead="Bo Lind",
        at=AT,
        secret=SECRET,
        cost=2**10,
    )


@pytest.fixture
def crew(tmp_path):
    return enrolled(tmp_path)


@pytest.fixture
def trust(crew, tmp_path):
    return tmp_path / FOLDER


def test_roster_is_read_back_as_written(crew, trust):
    assert read_roster(trust) == crew.roster


def test_roster_finds_people_by_name_and_by_key(crew):
    lead = crew.roster.named("Bo Lind")
    assert lead.role is Role.CREW_LEAD
    assert crew.roster.holder_of(lead.fingerprint) == lead


def test_stranger_is_not_on_the_roster(crew):
    with pytest.raises(NotOnRosterError, match="'Cy Hale' is not among the people"):
        crew.roster.named("Cy Hale")


def test_folder_without_people_is_a_roster_of_nobody(trust):
    (trust / "people.pem").write_bytes(b"")
    assert read_roster(trust).people == ()


@pytest.mark.parametrize("name", ["authority.pem", "people.pem", "revoked.pem"])
def test_missing_file_is_named(trust, name):
    (trust / name).unlink()
    with pytest.raises(
        TrustFolderError, match=f"{name}: the file is missing; take in the office's trust"
    ):
        read_roster(trust)


@pytest.mark.parametrize("name", ["authority.pem", "people.pem", "revoked.pem"])
def test_torn_file_is_named(trust, name):
    (trust / name).write_bytes((trust / name).read_bytes()[:90])
    with pytest.raises(TrustFolderError, match=f"{name}: the file cannot be read"):
        read_roster(trust)


def test_people_of_another_office_are_refused(trust, tmp_path):
    enrolled(tmp_path / "other")
    (trust / "people.pem").write_bytes((tmp_path / "other" / FOLDER / "people.pem").read_bytes())
    with pytest.raises(TrustFolderError, match="certificate of Ada Moor is not the authority's"):
        read_roster(trust)


def test_list_of_another_office_is_refused(trust):
    other = found_authority("Example grid office", AT)
    forged = revocation_list(other, [], number=2, at=AT, next_update=AT + timedelta(days=9))
    (trust / "revoked.pem").write_bytes(forged.public_bytes(Encoding.PEM))
    with pytest.raises(TrustFolderError, match="not signed by the authority"):
        read_roster(trust)


def test_certificate_of_a_person_is_no_authority(crew, trust):
    person = crew.technician.person.certificate
    (trust / "authority.pem").write_bytes(person.public_bytes(Encoding.PEM))
    with pytest.raises(TrustFolderError, match=r"authority\.pem"):
        read_roster(trust)


def test_folder_that_was_given_comes_first(crew, tmp_path):
    given = tmp_path / "elsewhere"
    assert find_roster(tmp_path / "record.pdf", tmp_path, given) == given


def test_folder_of_this_device_comes_before_the_one_sent_with_the_record(crew, tmp_path):
    home = tmp_path / "home"
    write_roster(tmp_path / FOLDER, crew.roster)
    assert find_roster(tmp_path / "record.pdf", home) == tmp_path / FOLDER
    write_roster(home / FOLDER, crew.roster)
    assert find_roster(tmp_path / "record.pdf", home) == home / FOLDER


def test_no_folder_is_found_where_there_is_none(tmp_path):
    assert find_roster(tmp_path / "record.pdf", tmp_path / "home") is None


def test_list_without_a_number_is_refused(trust, crew, tmp_path):
    key = read_key(tmp_path / "office" / "authority.key", SECRET)
    authority = crew.roster.authority
    issued = (
        x509.CertificateRevocationListBuilder()
        .issuer_name(authority.subject)
        .last_update(AT)
        .next_update(AT + timedelta(days=9))
        .sign(key, hashes.SHA256())
    )
    (trust / "revoked.pem").write_bytes(issued.public_bytes(Encoding.PEM))
    with pytest.raises(TrustFolderError, match=r"revoked\.pem: the list bears no number"):
        read_roster(trust)


def test_person_of_two_certificates_is_the_one_that_counts_longest(crew):
    office = Authority(crew.roster.authority, new_key())
    lead = crew.lead.person
    later = enrol(
        office, lead.name, lead.role, lead.certificate.public_key(), AT + timedelta(days=9)
    )
    roster = replace(crew.roster, people=(person_of(later), *crew.roster.people))
    assert roster.named(lead.name).certificate == later
    assert roster.holder_of(lead.fingerprint).certificate == later
    with pytest.raises(NotOnRosterError):
        roster.holder_of("ab" * 32)
