"""A whole crew made at once: the office's authority, a technician and a crew lead, in a folder."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from fieldapp.crew.authority import Authority, enrol, found_authority, new_key, revocation_list
from fieldapp.crew.keys import COST, key_path, seal, write_key
from fieldapp.crew.people import Role, Signer, person_of
from fieldapp.crew.roster import FOLDER, Roster, write_roster

LIST_LASTS = timedelta(days=365)


@dataclass(frozen=True, slots=True)
class Crew:
    """A technician and a crew lead ready to sign, with those who stand for them."""

    roster: Roster
    technician: Signer
    lead: Signer


def enrol_crew(
    folder: Path,
    *,
    office: str,
    technician: str,
    lead: str,
    at: datetime,
    secret: str,
    cost: int = COST,
) -> Crew:
    """Return a new crew, its trust folder, keys and the office's key written below `folder`."""
    authority = found_authority(office, at)
    signers = [
        _signer(authority, technician, Role.TECHNICIAN, at),
        _signer(authority, lead, Role.CREW_LEAD, at),
    ]
    revoked = revocation_list(authority, (), number=1, at=at, next_update=at + LIST_LASTS)
    people = tuple(signer.person for signer in signers)
    roster = Roster(authority.certificate, revoked, people)
    write_roster(folder / FOLDER, roster)
    write_key(folder / "office" / "authority.key", seal(authority.key, secret, cost=cost))
    for signer in signers:
        write_key(key_path(folder / "keys", signer.person), seal(signer.key, secret, cost=cost))
    return Crew(roster, *signers)


def _signer(authority: Authority, name: str, role: Role, at: datetime) -> Signer:
    key = new_key()
    person = person_of(enrol(authority, name, role, key.public_key(), at))
    return Signer(person, key, authority.certificate)
