"""What `fieldapp crew` says of people and lists, and the fingerprints that it has compared."""

import click

from fieldapp.crew.fingerprint import demand_same, in_groups
from fieldapp.crew.members import Member, Standing
from fieldapp.crew.people import Person
from fieldapp.crew.roster import Roster


def compare(whose: str, fingerprint: str, said: str | None) -> None:
    """Have the fingerprint compared: given as it was read out, or looked at here."""
    if said is not None:
        demand_same(whose, said, fingerprint)
        return
    click.echo(f"The fingerprint of {whose}:\n  {in_groups(fingerprint)}")
    if not click.confirm("Compared face to face, group by group: are they the same?"):
        raise click.Abort


def list_words(roster: Roster) -> str:
    """Return the number of a revocation list, how many are on it, and when the next is due."""
    issued = roster.revocation_list
    until = f"{issued.next_update_utc:%Y-%m-%d}" if issued.next_update_utc else "no day named"
    return f"List number {roster.number}: {len(issued)} withdrawn, next list due {until}."


def person_words(person: Person) -> str:
    """Return a person with role and key, and until when the office vouches."""
    until = person.certificate.not_valid_after_utc
    key = in_groups(person.fingerprint)
    return f"{person.name}, {person.role}, key {key}, counts until {until:%Y-%m-%d}"


def member_words(member: Member) -> str:
    """Return a person as the list of people has them, with what they count for now."""
    words = {
        Standing.COUNTS: f"counts until {member.until:%Y-%m-%d}",
        Standing.NOT_YET: f"counts from {member.since:%Y-%m-%d}",
        Standing.RAN_OUT: f"ran out on {member.until:%Y-%m-%d}",
        Standing.WITHDRAWN: f"withdrawn on {member.withdrawn_on:%Y-%m-%d}"
        if member.withdrawn_on
        else "withdrawn",
    }[member.standing]
    lost = ", key lost" if member.key_lost else ""
    here = ", key on this tablet" if member.key_here else ""
    return f"{member.name}, {member.role}, key {in_groups(member.fingerprint)}, {words}{lost}{here}"
