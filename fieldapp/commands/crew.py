"""`fieldapp crew`: the people, their keys, and the office that vouches for them."""

from datetime import timedelta
from pathlib import Path

import click

from fieldapp.commands.asking import new_secret, secret_of
from fieldapp.commands.complaint import of_world
from fieldapp.commands.crew_tablet import request, take_in_trust
from fieldapp.commands.crew_words import compare, list_words, member_words, person_words
from fieldapp.commands.named import FileIsThereError, file, place
from fieldapp.commands.setting import Setting
from fieldapp.crew.fingerprint import in_groups
from fieldapp.crew.members import members_of
from fieldapp.crew.office import books
from fieldapp.crew.office.books import LIST_LASTS, Office
from fieldapp.crew.people import Role, name_of
from fieldapp.crew.roster import FOLDER, Roster, read_roster
from fieldapp.crew.tablet.request import (
    demand_name,
    keys_here,
    read_request,
)
from fieldapp.crew.trust_file import read_trust, trust_text
from fieldapp.errors import FieldAppError
from fieldapp.whole import write_whole

_ROLES = {role.value.replace(" ", "-"): role for role in Role}
_REASONS = {"key-lost": True, "left": False}
_LONGEST_LIST = 3650


def _days(text: str | int) -> int:
    """Return for how many days a list holds."""
    if not str(text).isdecimal() or not 1 <= int(text) <= _LONGEST_LIST:
        raise click.BadParameter(f"write the days, from 1 to {_LONGEST_LIST}")
    return int(text)


_DAYS = click.option(
    "--list-lasts",
    "days",
    type=_days,
    metavar="DAYS",
    default=LIST_LASTS.days,
    show_default=True,
    help="Days until the next list is due; a list that ran out lets nobody sign.",
)


class TrustNotWrittenError(FieldAppError):
    """The office's books were changed, and the trust file could not be written."""

    def __init__(self, out: Path, fault: OSError) -> None:
        super().__init__(
            f"{of_world(fault)}. The office's books are kept: write the trust file with "
            f"“fieldapp crew give-out --out FILE”"
        )
        self.path = out


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
    books.demand_none(setting.home)
    demand_name(office)
    secret = new_secret(office)
    made = books.found(setting.home, office, secret, setting.clock(), lasts=timedelta(days=days))
    click.echo(f"{office} is founded; its fingerprint, to be read out to every tablet:")
    click.echo(f"  {in_groups(made.roster.fingerprint)}")
    click.echo(f"Its key is in {books.key_place(setting.home)}: keep a copy under lock.")
    return 0


@crew.command("enrol", short_help="The office: vouch for who asks, in a role.")
@click.argument("asking", metavar="REQUEST", type=place)
@click.option("--role", required=True, type=click.Choice(list(_ROLES)),
              help="What the person may sign as.")  # fmt: skip
@click.option(
    "--fingerprint",
    "said",
    metavar="FIGURES",
    help="As the person reads it out; else you are asked.",
)
@click.option("--out", type=file, metavar="FILE",
              help="The trust file that goes back to the tablet.")  # fmt: skip
@_DAYS
@click.pass_obj
def enrol_person(
    setting: Setting, asking: Path, role: str, said: str | None, out: Path | None, days: int
) -> int:
    """Vouch for the person of REQUEST in a role, once the fingerprint was compared."""
    asked = read_request(asking)
    problem = books.why_not_enrolled(_roster(setting, out), asked)
    if problem:
        raise books.OfficeError(problem)
    click.echo(f"{asked.name} asks to be enrolled as {_ROLES[role]}.")
    compare(f"the key of {asked.name}", asked.fingerprint, said)
    office = _office(setting, days)
    after, person = books.enrolled(office, asked, _ROLES[role], setting.clock())
    return _kept(setting, after, out, person_words(person))


@crew.command(short_help="The office: vouch for somebody no longer.")
@click.argument("name")
@click.option("--reason", required=True, type=click.Choice(list(_REASONS)),
              help="key-lost voids all their signatures; left only later ones.")  # fmt: skip
@click.option("--out", type=file, metavar="FILE",
              help="The trust file for the tablets.")  # fmt: skip
@_DAYS
@click.pass_obj
def withdraw(setting: Setting, name: str, reason: str, out: Path | None, days: int) -> int:
    """Vouch for NAME no longer: their key was lost, or they left."""
    _roster(setting, out).named(name)
    office = _office(setting, days)
    after = books.withdrawing(office, name, setting.clock(), key_lost=_REASONS[reason])
    return _kept(setting, after, out, f"{name} is withdrawn ({reason})")


@crew.command(short_help="The office: vouch two more years, or make the list anew.")
@click.argument("name", required=False)
@click.option("--out", type=file, metavar="FILE",
              help="The trust file for the tablets.")  # fmt: skip
@_DAYS
@click.pass_obj
def renew(setting: Setting, name: str | None, out: Path | None, days: int) -> int:
    """Vouch for NAME two more years; without NAME, only make the list anew."""
    roster = _roster(setting, out)
    if name is not None:
        roster.named(name)
    office = _office(setting, days)
    if name is None:
        return _kept(setting, books.with_new_list(office, setting.clock()), out, "")
    after, person = books.renewed(office, name, setting.clock())
    return _kept(setting, after, out, person_words(person))


@crew.command("give-out", short_help="The office: write the trust file.")
@click.option("--out", required=True, type=file, metavar="FILE", help="The trust file.")
@click.pass_obj
def give_out(setting: Setting, out: Path) -> int:
    """Write the trust file: the office, its people and its list, for tablets and for checking."""
    _demand_trust_place(out)
    roster = read_roster(setting.home / FOLDER)
    write_whole(out, trust_text(roster))
    click.echo(list_words(roster))
    click.echo(str(out))
    return 0


for command in (request, take_in_trust):
    crew.add_command(command)


@crew.command("list", short_help="Everybody with role, key and until when.")
@click.pass_obj
def list_people(setting: Setting) -> int:
    """List everybody with role, key, until when, and whether they are withdrawn."""
    roster = read_roster(setting.home / FOLDER)
    here = keys_here(setting.home / "keys")
    click.echo(f"{name_of(roster.authority)}, key {in_groups(roster.fingerprint)}")
    click.echo(list_words(roster))
    for member in members_of(roster, setting.clock(), here):
        click.echo(f"  {member_words(member)}")
    return 0


def _kept(setting: Setting, office: Office, out: Path | None, words: str) -> int:
    books.keep(setting.home, office)
    if words:
        click.echo(words)
    click.echo(list_words(office.roster))
    if out is not None:
        _write_trust(out, office.roster)
        click.echo(str(out))
    return 0


def _write_trust(out: Path, roster: Roster) -> None:
    try:
        write_whole(out, trust_text(roster))
    except OSError as fault:
        raise TrustNotWrittenError(out, fault) from fault


def _roster(setting: Setting, out: Path | None) -> Roster:
    """Return the office's people, once nothing stands in the way of a change: no secret in vain."""
    books.demand_office(setting.home)
    if out is not None:
        _demand_trust_place(out)
    return read_roster(setting.home / FOLDER)


def _demand_trust_place(out: Path) -> None:
    """Refuse to write a trust file over anything but one of its kind."""
    if out.exists():
        try:
            read_trust(out)
        except FieldAppError as other:
            raise FileIsThereError(out) from other


def _office(setting: Setting, days: int) -> Office:
    return books.opened(
        setting.home, secret_of("the office"), setting.clock(), timedelta(days=days)
    )
