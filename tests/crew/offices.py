"""Offices, people and rosters made for a test."""

from datetime import UTC, datetime, timedelta

from fieldapp.crew.authority import enrol, found_authority, new_key, revocation_list
from fieldapp.crew.people import Role, Signer, person_of
from fieldapp.crew.roster import Roster

AT = datetime(2026, 3, 2, 7, 30, tzinfo=UTC)
LATER = AT + timedelta(days=10)
SECRET = "kettle on the hill"
CHEAP = 2**10


def signer_of(authority, name="Ada Moor", role=Role.TECHNICIAN, at=AT):
    key = new_key()
    return Signer(
        person_of(enrol(authority, name, role, key.public_key(), at)), key, authority.certificate
    )


def roster_of(authority, *signers, revoked=(), until=AT + timedelta(days=365)):
    issued = revocation_list(authority, revoked, number=1, at=AT, next_update=until)
    return Roster(authority.certificate, issued, tuple(one.person for one in signers))


def office(name="Example grid office"):
    return found_authority(name, AT)
