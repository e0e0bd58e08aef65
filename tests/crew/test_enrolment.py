"""A new crew can be told apart, and each of them signs only with their own secret."""

from datetime import UTC, datetime

import pytest

from fieldapp.crew.enrolment import enrol_crew
from fieldapp.crew.keys import UnreadableKeyError, WrongSecretError, key_path, read_key
from fieldapp.crew.people import Role
from fieldapp.crew.roster import FOLDER, NotOnRosterError, read_roster
from fieldapp.crew.unlocking import unlock_signer

AT = datetime(2026, 3, 2, 7, 30, tzinfo=UTC)
SECRET = "kettle on the hill"


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("crew")


@pytest.fixture(scope="module")
def crew(folder):
    return enrol_crew(
        folder,
        office="Example grid office",
        technician="Ada Moor",
        lead="Bo Lind",
        at=AT,
        secret=SECRET,
        cost=2**10,
    )


def test_crew_is_a_technician_and_a_lead_with_keys_of_their_own(crew):
    technician, lead = crew.technician.person, crew.lead.person
    assert (technician.name, technician.role) == ("Ada Moor", Role.TECHNICIAN)
    assert (lead.name, lead.role) == ("Bo Lind", Role.CREW_LEAD)
    assert technician.fingerprint != lead.fingerprint


def test_trust_folder_of_the_crew_names_both(crew, folder):
    people = read_roster(folder / FOLDER).people
    assert people == (crew.technician.person, crew.lead.person)


@pytest.mark.parametrize("role", ["technician", "lead"])
def test_secret_makes_a_person_of_the_roster_ready_to_sign(crew, folder, role):
    expected = getattr(crew, role)
    opened = unlock_signer(
        read_roster(folder / FOLDER), folder / "keys", expected.person.name, SECRET, AT
    )
    assert opened.person == expected.person
    assert opened.authority == expected.authority
    assert opened.key.public_key() == expected.key.public_key()


def test_wrong_secret_opens_nobodys_key(crew, folder):
    with pytest.raises(WrongSecretError):
        unlock_signer(crew.roster, folder / "keys", "Bo Lind", "kettle on the roof", AT)


def test_stranger_cannot_be_unlocked(crew, folder):
    with pytest.raises(NotOnRosterError):
        unlock_signer(crew.roster, folder / "keys", "Cy Hale", SECRET, AT)


def test_person_without_a_key_on_this_tablet_is_told_so(crew, tmp_path):
    with pytest.raises(UnreadableKeyError, match=key_path(tmp_path, crew.lead.person).name):
        unlock_signer(crew.roster, tmp_path, "Bo Lind", SECRET, AT)


def test_office_keeps_the_key_of_its_authority(crew, folder):
    office = read_key(folder / "office" / "authority.key", SECRET)
    assert office.public_key() == crew.roster.authority.public_key()
