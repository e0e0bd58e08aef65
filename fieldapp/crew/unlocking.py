"""How a person of the roster becomes one who can sign: their secret opens their key."""

from pathlib import Path

from fieldapp.crew.keys import key_path, read_key
from fieldapp.crew.people import Signer
from fieldapp.crew.roster import Roster


def unlock_signer(roster: Roster, keys: Path, name: str, secret: str) -> Signer:
    """Return the person of that name with the key from the folder of keys, ready to sign."""
    person = roster.named(name)
    return Signer(person, read_key(key_path(keys, person), secret), roster.authority)
