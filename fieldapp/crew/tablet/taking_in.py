"""Takes in what the office sent: people it vouches for and the newest list of those withdrawn.

Whose word a tablet takes is settled once, face to face: the first time somebody compares the
office's fingerprint. From then on only that office counts, and an older list never replaces a
newer one.
"""

from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from cryptography.hazmat.primitives import hashes

from fieldapp.crew.fingerprint import demand_same, in_groups
from fieldapp.crew.people import Person, name_of
from fieldapp.crew.roster import FOLDER, Roster, read_roster, write_roster
from fieldapp.crew.standing import list_ran_out
from fieldapp.crew.tablet.request import keys_here
from fieldapp.errors import FieldAppError

_SHA256 = hashes.SHA256()


class TrustRefusedError(FieldAppError):
    """What the office sent cannot be taken in."""

    def __init__(self, problem: str) -> None:
        super().__init__(f"{problem}; nothing was taken in")
        self.problem = problem


@dataclass(frozen=True, slots=True)
class TakenIn:
    """The trust folder as it is now, who is new in it, and whose key is on this tablet."""

    roster: Roster
    new: tuple[Person, ...]
    here: tuple[Person, ...]


def held_roster(home: Path) -> Roster | None:
    """Return this tablet's own trust folder, if it has one."""
    folder = home / FOLDER
    return read_roster(folder) if folder.is_dir() else None


def why_refused(offered: Roster, held: Roster | None, now: datetime) -> str:
    """Return in one line why what was sent cannot be taken in, or nothing."""
    if held is not None and offered.fingerprint != held.fingerprint:
        return (
            f"it is from {name_of(offered.authority)}, key {_short(offered)}; this tablet takes "
            f"the word of {name_of(held.authority)}, key {_short(held)}"
        )
    if held is not None and offered.number < held.number:
        return (
            f"its list of those withdrawn is number {offered.number}, this tablet has number "
            f"{held.number}: ask the office for its newest trust file"
        )
    if held is not None and offered.number == held.number and _lists_differ(offered, held):
        return f"there are two different lists of number {held.number}: ask the office why"
    if list_ran_out(offered, now):
        until = offered.revocation_list.next_update_utc
        day = f"{until:%Y-%m-%d}" if until else "a day it does not name"
        return (
            f"its list of those withdrawn ran out on {day}: check the tablet's clock, or ask the "
            "office for its newest trust file"
        )
    return ""


def take_in(home: Path, offered: Roster, now: datetime, said: str = "") -> TakenIn:
    """Take in what the office sent. `said` is its fingerprint as the office reads it out.

    It may be left out once the tablet knows the office; if it is given it must be right.
    """
    held = held_roster(home)
    problem = why_refused(offered, held, now)
    if problem:
        raise TrustRefusedError(problem)
    if held is None or said:
        demand_same(f"the office {name_of(offered.authority)}", said, offered.fingerprint)
    merged, new = _merged(offered, held)
    write_roster(home / FOLDER, merged)
    here = keys_here(home / "keys")
    return TakenIn(merged, new, tuple(one for one in merged.people if one.fingerprint in here))


def _short(roster: Roster) -> str:
    return f"{in_groups(roster.fingerprint[:16])} …"


def _lists_differ(offered: Roster, held: Roster) -> bool:
    return offered.revocation_list.fingerprint(_SHA256) != held.revocation_list.fingerprint(_SHA256)


def _merged(offered: Roster, held: Roster | None) -> tuple[Roster, tuple[Person, ...]]:
    """Return all people of both: a person who is not in a newer file is not forgotten."""
    kept = held.people if held else ()
    known = {person.certificate.serial_number for person in kept}
    new = tuple(one for one in offered.people if one.certificate.serial_number not in known)
    return replace(offered, people=(*kept, *new)), new
