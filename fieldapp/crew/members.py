"""The people of a trust folder as a list: role, key, until when, and whether they count now."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from fieldapp.crew.people import Person, Role
from fieldapp.crew.roster import Roster
from fieldapp.crew.standing import withdrawn


class Standing(StrEnum):
    """Whether a person's certificate counts now."""

    COUNTS = "counts"
    NOT_YET = "not yet"
    RAN_OUT = "ran out"
    WITHDRAWN = "withdrawn"


@dataclass(frozen=True, slots=True)
class Member:
    """One person with one key; `key_here` when that key is on this tablet."""

    name: str
    role: Role
    fingerprint: str
    since: datetime
    until: datetime
    standing: Standing
    withdrawn_on: datetime | None
    key_lost: bool
    key_here: bool


def members_of(roster: Roster, now: datetime, here: Collection[str] = ()) -> tuple[Member, ...]:
    """Return everybody with each of their keys once, those who count first, then by name."""
    keys = dict.fromkeys(person.fingerprint for person in roster.people)
    found = [_member(roster, roster.holder_of(key), now, key in here) for key in keys]
    order = list(Standing)
    return tuple(sorted(found, key=lambda one: (order.index(one.standing), one.name.casefold())))


def _member(roster: Roster, person: Person, now: datetime, key_here: bool) -> Member:  # noqa: FBT001
    certificate = person.certificate
    taken = withdrawn(roster, certificate)
    return Member(
        name=person.name,
        role=person.role,
        fingerprint=person.fingerprint,
        since=certificate.not_valid_before_utc,
        until=certificate.not_valid_after_utc,
        standing=_standing(person, now, withdrawn_too=taken is not None),
        withdrawn_on=taken.on if taken else None,
        key_lost=taken.key_lost if taken else False,
        key_here=key_here,
    )


def _standing(person: Person, now: datetime, *, withdrawn_too: bool) -> Standing:
    certificate = person.certificate
    if withdrawn_too:
        return Standing.WITHDRAWN
    if now < certificate.not_valid_before_utc:
        return Standing.NOT_YET
    return Standing.RAN_OUT if now > certificate.not_valid_after_utc else Standing.COUNTS
