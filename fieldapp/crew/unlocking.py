"""How a person of the roster becomes one who can sign: their secret opens their key."""

from datetime import datetime
from pathlib import Path

from fieldapp.crew.keys import key_path
from fieldapp.crew.people import Role, Signer, name_of
from fieldapp.crew.roster import NotOnRosterError, Roster
from fieldapp.crew.standing import why_not
from fieldapp.crew.tablet.tries import open_key


def unlock_signer(roster: Roster, keys: Path, name: str, secret: str, now: datetime) -> Signer:
    """Return the person of that name with the key from the folder of keys, ready to sign.

    Wrong secrets are counted beside the key, and slow down the next try.
    """
    person = roster.named(name)
    return Signer(person, open_key(key_path(keys, person), secret, now), roster.authority)


def why_not_ready(roster: Roster, keys: Path, name: str, role: Role, signed_at: datetime) -> str:
    """Return in one line why a person cannot sign in a role here, or nothing.

    `signed_at` is the time that the signature will bear.
    """
    try:
        person = roster.named(name)
    except NotOnRosterError:
        return (
            f"{name} is not among the people of {name_of(roster.authority)} on this tablet; "
            "take in the office's newest trust file"
        )
    if person.role is not role:
        return f"the certificate of {name} says {person.role}; the {role} signs here"
    problem = why_not(roster, person.certificate, signed_at)
    if problem:
        return problem
    if not key_path(keys, person).is_file():
        return f"the key of {name} is not on this tablet; sign on the tablet where it was made"
    return ""
