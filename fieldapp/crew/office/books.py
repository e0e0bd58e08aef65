"""The office's books: its own key, whom it vouches for, and whom it no longer vouches for.

Every change makes a new list of those withdrawn, with the next number, so that of two trust files
the newer one is known by its number.
"""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from pathlib import Path

from cryptography import x509

from fieldapp.crew.authority import (
    Authority,
    Revoked,
    enrol,
    found_authority,
    revocation_list,
)
from fieldapp.crew.keys import COST, seal, write_key
from fieldapp.crew.people import Person, Role, key_fingerprint, person_of
from fieldapp.crew.roster import FOLDER, Roster, read_roster, write_roster
from fieldapp.crew.standing import withdrawal_in, withdrawn
from fieldapp.crew.tablet.request import Request
from fieldapp.crew.tablet.tries import open_key
from fieldapp.errors import FieldAppError

LIST_LASTS = timedelta(days=90)


class OfficeError(FieldAppError):
    """The office cannot do what was asked of it."""


@dataclass(frozen=True, slots=True)
class Office:
    """The office with its key in hand; `lasts` is how long each new list is good for."""

    authority: Authority
    roster: Roster
    lasts: timedelta = LIST_LASTS


def key_place(home: Path) -> Path:
    """Return where the office keeps its own key."""
    return home / "office" / "authority.key"


def demand_none(home: Path) -> None:
    """Refuse to found an office where there is one, or where another's word is taken."""
    if key_place(home).exists() or (home / FOLDER).exists():
        raise OfficeError(
            f"{home}: there is an office or a trust folder here already: name another --home"
        )


def demand_office(home: Path) -> None:
    """Refuse the office's work in a place where none was founded."""
    if not key_place(home).is_file():
        raise OfficeError(f"{home}: no office was founded here: “fieldapp crew found NAME”")


def found(
    home: Path, name: str, secret: str, at: datetime, *, lasts: timedelta = LIST_LASTS,
    cost: int = COST,
) -> Office:  # fmt: skip
    """Found an office: its key sealed under the secret, and a trust folder without people."""
    demand_none(home)
    authority = found_authority(name, at)
    sealed = seal(authority.key, secret, cost=cost)
    issued = revocation_list(authority, (), number=1, at=at, next_update=at + lasts)
    office = Office(authority, Roster(authority.certificate, issued), lasts)
    write_roster(home / FOLDER, office.roster)
    write_key(key_place(home), sealed)
    return office


def opened(home: Path, secret: str, now: datetime, lasts: timedelta = LIST_LASTS) -> Office:
    """Return the office, once its secret has opened its key."""
    demand_office(home)
    roster = read_roster(home / FOLDER)
    key = open_key(key_place(home), secret, now)
    if key_fingerprint(key.public_key()) != roster.fingerprint:
        raise OfficeError(f"{home}: its key is not that of its trust folder: restore both together")
    return Office(Authority(roster.authority, key), roster, lasts)


def enrolled(office: Office, request: Request, role: Role, at: datetime) -> tuple[Office, Person]:
    """Return the office once it vouches for who asked, and the person they are now."""
    problem = why_not_enrolled(office.roster, request)
    if problem:
        raise OfficeError(problem)
    person = person_of(enrol(office.authority, request.name, role, request.public_key, at))
    return _with_list(office, at, people=(*office.roster.people, person)), person


def why_not_enrolled(roster: Roster, request: Request) -> str:
    """Return in one line why a request cannot be granted, or nothing."""
    for person in roster.people:
        taken_back = withdrawn(roster, person.certificate) is not None
        if person.fingerprint == request.fingerprint:
            if taken_back:
                return f"this key of {person.name} was withdrawn: make a new key on the tablet"
            return f"this key is {person.name}'s already, {person.role}: renew it instead"
        if person.name.casefold() == request.name.casefold() and not taken_back:
            return (
                f"{person.name} has another key already: withdraw that first, or let the other "
                "person ask under a name that tells the two apart"
            )
    return ""


def withdrawing(office: Office, name: str, at: datetime, *, key_lost: bool) -> Office:
    """Return the office once it no longer vouches for anybody of that name."""
    serials = {
        person.certificate.serial_number
        for person in office.roster.people
        if person.name == name and not _as_bad(office.roster, person, key_lost=key_lost)
    }
    office.roster.named(name)
    if not serials:
        raise OfficeError(f"{name} is withdrawn already: nothing was changed")
    added = [Revoked(serial, at, key_lost=key_lost) for serial in sorted(serials)]
    return _with_list(office, at, added)


def renewed(office: Office, name: str, at: datetime) -> tuple[Office, Person]:
    """Return the office once it vouches for a person two more years, with the same key."""
    before = office.roster.named(name)
    if withdrawn(office.roster, before.certificate):
        raise OfficeError(f"{name} is withdrawn: make a new key on the tablet, then enrol it")
    key = before.certificate.public_key()
    person = person_of(enrol(office.authority, name, before.role, key, at))  # type: ignore[arg-type]
    return _with_list(office, at, people=(*office.roster.people, person)), person


def with_new_list(office: Office, at: datetime) -> Office:
    """Return the office with its list made anew, so that it does not run out."""
    return _with_list(office, at)


def keep(home: Path, office: Office) -> None:
    """Keep the books."""
    write_roster(home / FOLDER, office.roster)


def _with_list(
    office: Office, at: datetime, added: list[Revoked] | None = None,
    people: tuple[Person, ...] | None = None,
) -> Office:  # fmt: skip
    roster = office.roster
    anew = {one.serial for one in added or ()}
    before = [_revoked(one) for one in roster.revocation_list if one.serial_number not in anew]
    issued = revocation_list(
        office.authority, [*before, *(added or ())], number=roster.number + 1, at=at,
        next_update=at + office.lasts,
    )  # fmt: skip
    kept = roster.people if people is None else people
    return replace(office, roster=replace(roster, revocation_list=issued, people=kept))


def _revoked(entry: x509.RevokedCertificate) -> Revoked:
    taken = withdrawal_in(entry)
    return Revoked(entry.serial_number, taken.on, key_lost=taken.key_lost)


def _as_bad(roster: Roster, person: Person, *, key_lost: bool) -> bool:
    """Return whether a certificate is withdrawn as badly already: one who left can lose a key."""
    before = withdrawn(roster, person.certificate)
    return before is not None and (before.key_lost or not key_lost)
