"""`fieldapp crew`: the people, their keys, and the office that vouches for them."""

from datetime import timedelta
from pathlib import Path

import click

from fieldapp.commands.setting import Setting
from fieldapp.crew.fingerprint import demand_same, in_groups
from fieldapp.crew.keys import SHORTEST_SECRET, ShortSecretError
from fieldapp.crew.members import Member, Standing, members_of
from fieldapp.crew.office import books
from fieldapp.crew.office.books import LIST_LASTS, Office
from fieldapp.crew.people import Person, Role, name_of
from fieldapp.crew.roster import FOLDER, Roster, read_roster
from fieldapp.crew.tablet.request import (
    FOR_OFFICE,
    file_name,
    keys_here,
    make_key,
    read_request,
)
from fieldapp.crew.tablet.taking_in import TrustRefusedError, held_roster, take_in, why_refused
from fieldapp.crew.trust_file import read_trust, trust_text
from fieldapp.crew.whole import write_whole

_ROLES = {role.value.replace(" ", "-"): role for role in Role}
_REASONS = {"key-lost": True, "left": False}
_DAYS = click.option(
    "--list-lasts",
    "days",
    type=click.IntRange(1, 3650),
    default=LIST_LASTS.days,
    show_default=True,
    help="Days until the next list is due; a list that ran out lets nobody sign.",
)


@click.group(short_help="Keep the people who sign, and their keys.")
def crew() -> None:
    """Keep the people who sign, and their keys.

    The office: found, enrol, withdraw, renew, give-out. The tablet: request, take-in. Keys stay
    where they are made, sealed under a secret; nothing that is carried between the two is secret.
    """


@crew.command(short_help="The office: found an authority with a key of its own.")
@click.argument("office", metavar="OFFICE")
@_DAYS
@click.pass_obj
def found(setting: Setting, office: str, days: int) -> int:
    """Found an authority named OFFICE in the home, with a key of its own. Once for all crews."""
    secret = _new_secret(f"A secret for the key of {office}")
    made = books.found(setting.home, office, secret, setting.clock(), lasts=timedelta(days=days))
    click.echo(f"{office} is founded; its fingerprint, to be read out to every tablet:")
    click.echo(f"  {in_groups(made.roster.fingerprint)}")
    click.echo(f"Its key is in {books.key_place(setting.home)}: keep a copy under lock.")
    return 0


@crew.command(short_help="The tablet: make a key and the request for it.")
@click.argument("name")
@click.option("--out", type=click.Path(path_type=Path, dir_okay=False),
              help="The request file; else in the home, below “for-office”.")  # fmt: skip
@click.pass_obj
def request(setting: Setting, name: str, out: Path | None) -> int:
    """Make a key for NAME on this tablet, and the request that goes to the office."""
    secret = _new_secret(f"A secret for the key of {name}")
    made = make_key(setting.home / "keys", name, secret)
    path = out or setting.home / FOR_OFFICE / file_name(made.name)
    write_whole(path, made.text)
    click.echo(f"{made.name}: the key is on this tablet, sealed. Read its fingerprint out, ")
    click.echo("face to face, when the office enrols it:")
    click.echo(f"  {in_groups(made.fingerprint)}")
    click.echo(f"The office needs this file: {path}")
    return 0


@crew.command("enrol", short_help="The office: vouch for who asks, in a role.")
@click.argument("file", metavar="REQUEST", type=click.Path(path_type=Path))
@click.option("--role", required=True, type=click.Choice(list(_ROLES)))
@click.option("--fingerprint", "said", help="As the person reads it out; else you are asked.")
@click.option("--out", type=click.Path(path_type=Path, dir_okay=False),
              help="The trust file that goes back to the tablet.")  # fmt: skip
@_DAYS
@click.pass_obj
def enrol_person(
    setting: Setting, file: Path, role: str, said: str | None, out: Path | None, days: int
) -> int:
    """Vouch for the person of REQUEST in a role, once the fingerprint was compared."""
    asked = read_request(file)
    click.echo(f"{asked.name} asks to be enrolled as {_ROLES[role]}.")
    _compare(f"the key of {asked.name}", asked.fingerprint, said)
    office = _office(setting, days)
    after, person = books.enrolled(office, asked, _ROLES[role], setting.clock())
    return _kept(setting, after, out, _person_words(person))


@crew.command(short_help="The office: vouch for somebody no longer.")
@click.argument("name")
@click.option("--reason", required=True, type=click.Choice(list(_REASONS)),
              help="key-lost voids all their signatures; left only later ones.")  # fmt: skip
@click.option("--out", type=click.Path(path_type=Path, dir_okay=False),
              help="The trust file for the tablets.")  # fmt: skip
@_DAYS
@click.pass_obj
def withdraw(setting: Setting, name: str, reason: str, out: Path | None, days: int) -> int:
    """Vouch for NAME no longer: their key was lost, or they left."""
    office = _office(setting, days)
    after = books.withdrawing(office, name, setting.clock(), key_lost=_REASONS[reason])
    return _kept(setting, after, out, f"{name} is withdrawn ({reason})")


@crew.command(short_help="The office: vouch two more years, or make the list anew.")
@click.argument("name", required=False)
@click.option("--out", type=click.Path(path_type=Path, dir_okay=False),
              help="The trust file for the tablets.")  # fmt: skip
@_DAYS
@click.pass_obj
def renew(setting: Setting, name: str | None, out: Path | None, days: int) -> int:
    """Vouch for NAME two more years; without NAME, only make the list anew."""
    office = _office(setting, days)
    if name is None:
        return _kept(setting, books.with_new_list(office, setting.clock()), out, "")
    after, person = books.renewed(office, name, setting.clock())
    return _kept(setting, after, out, _person_words(person))


@crew.command("give-out", short_help="The office: write the trust file.")
@click.option("--out", required=True, type=click.Path(path_type=Path, dir_okay=False))
@click.pass_obj
def give_out(setting: Setting, out: Path) -> int:
    """Write the trust file: the office, its people and its list, for tablets and for checking."""
    roster = read_roster(setting.home / FOLDER)
    write_whole(out, trust_text(roster))
    click.echo(_list_words(roster))
    click.echo(str(out))
    return 0


@crew.command("take-in", short_help="The tablet: take in the trust file.")
@click.argument("place", metavar="FILE", type=click.Path(path_type=Path))
@click.option("--fingerprint", "said", help="The office's, as it reads it out.")
@click.pass_obj
def take_in_trust(setting: Setting, place: Path, said: str | None) -> int:
    """Take in the office's trust FILE (or trust folder); never an older list over a newer one."""
    offered, held = read_trust(place), held_roster(setting.home)
    problem = why_refused(offered, held, setting.clock())
    if problem:
        raise TrustRefusedError(problem)
    if held is None:
        _compare(f"the office {name_of(offered.authority)}", offered.fingerprint, said)
        said = said or offered.fingerprint
    taken = take_in(setting.home, offered, setting.clock(), said or "")
    click.echo(f"{name_of(taken.roster.authority)}: {len(taken.new)} new. "
               f"{_list_words(taken.roster)}")  # fmt: skip
    for person in taken.here:
        click.echo(f"  {_person_words(person)}; the key is on this tablet")
    return 0


@crew.command("list", short_help="Everybody with role, key and until when.")
@click.pass_obj
def list_people(setting: Setting) -> int:
    """List everybody with role, key, until when, and whether they are withdrawn."""
    roster = read_roster(setting.home / FOLDER)
    here = keys_here(setting.home / "keys")
    click.echo(f"{name_of(roster.authority)}, key {in_groups(roster.fingerprint)}")
    click.echo(_list_words(roster))
    for member in members_of(roster, setting.clock(), here):
        click.echo(f"  {_member_words(member)}")
    return 0


def _kept(setting: Setting, office: Office, out: Path | None, words: str) -> int:
    books.keep(setting.home, office)
    if words:
        click.echo(words)
    click.echo(_list_words(office.roster))
    if out is not None:
        write_whole(out, trust_text(office.roster))
        click.echo(str(out))
    return 0


def _office(setting: Setting, days: int) -> Office:
    secret = click.prompt("Secret of the office", hide_input=True, err=True)
    return books.opened(setting.home, secret, setting.clock(), timedelta(days=days))


def _new_secret(words: str) -> str:
    text = f"{words}, at least {SHORTEST_SECRET} characters"
    secret: str = click.prompt(text, hide_input=True, confirmation_prompt=True, err=True)
    if len(secret) < SHORTEST_SECRET:
        raise ShortSecretError
    return secret


def _compare(whose: str, fingerprint: str, said: str | None) -> None:
    """Have the fingerprint compared: given as it was read out, or looked at here."""
    if said is not None:
        demand_same(whose, said, fingerprint)
        return
    click.echo(f"The fingerprint of {whose}:\n  {in_groups(fingerprint)}")
    if not click.confirm("Compared face to face, group by group: are they the same?"):
        raise click.Abort


def _list_words(roster: Roster) -> str:
    issued = roster.revocation_list
    until = f"{issued.next_update_utc:%Y-%m-%d}" if issued.next_update_utc else "no day named"
    return f"List number {roster.number}: {len(issued)} withdrawn, next list due {until}."


def _person_words(person: Person) -> str:
    until = person.certificate.not_valid_after_utc
    key = in_groups(person.fingerprint)
    return f"{person.name}, {person.role}, key {key}, counts until {until:%Y-%m-%d}"


def _member_words(member: Member) -> str:
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
