"""The list of people says of each key whether it counts, since when and until when."""

from datetime import timedelta

from fieldapp.crew.authority import Revoked, enrol
from fieldapp.crew.members import Standing, members_of
from fieldapp.crew.people import Role, Signer, person_of
from tests.crew.offices import AT, LATER, office, roster_of, signer_of


def test_each_key_is_listed_once_those_that_count_first():
    authority = office()
    ada, bo = signer_of(authority), signer_of(authority, "Bo Lind", Role.CREW_LEAD)
    cy = signer_of(authority, "Cy Hale", at=AT - timedelta(days=800))
    dee = signer_of(authority, "Dee Orr", at=LATER + timedelta(days=1))
    renewed = Signer(
        person_of(enrol(authority, "Ada Moor", Role.TECHNICIAN, ada.key.public_key(), LATER)),
        ada.key, authority.certificate,
    )  # fmt: skip
    lost = Revoked(bo.person.certificate.serial_number, LATER, key_lost=True)
    roster = roster_of(authority, bo, ada, renewed, cy, dee, revoked=[lost])
    members = members_of(roster, LATER, {ada.person.fingerprint})
    assert [(one.name, one.standing) for one in members] == [
        ("Ada Moor", Standing.COUNTS),
        ("Dee Orr", Standing.NOT_YET),
        ("Cy Hale", Standing.RAN_OUT),
        ("Bo Lind", Standing.WITHDRAWN),
    ]
    assert members[0].until == LATER + timedelta(days=730)
    assert [one.key_here for one in members] == [True, False, False, False]
    assert (members[-1].withdrawn_on, members[-1].key_lost) == (LATER, True)
