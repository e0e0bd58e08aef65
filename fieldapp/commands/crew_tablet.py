"""`fieldapp crew request` and `take-in`: what a tablet does to have people who can sign."""

from pathlib import Path

import click

from fieldapp.commands.asking import new_secret
from fieldapp.commands.crew_words import compare, list_words, member_words
from fieldapp.commands.named import demand_new, file, place
from fieldapp.commands.setting import Setting
from fieldapp.crew.fingerprint import in_groups
from fieldapp.crew.members import members_of
from fieldapp.crew.people import name_of
from fieldapp.crew.tablet.request import FOR_OFFICE, demand_name, file_name, keys_here, make_key
from fieldapp.crew.tablet.taking_in import TrustRefusedError, held_roster, take_in, why_refused
from fieldapp.crew.trust_file import read_trust
from fieldapp.whole import write_whole


@click.command(short_help="The tablet: make a key and the request for it.")
@click.argument("name")
@click.option("--out", type=file, metavar="FILE",
              help="The request file; else in the home, below “for-office”.")  # fmt: skip
@click.pass_obj
def request(setting: Setting, name: str, out: Path | None) -> int:
    """Make a key for NAME on this tablet, and the request that goes to the office."""
    demand_name(name)
    if out is not None:
        demand_new(out)
    secret = new_secret(name)
    made = make_key(setting.home / "keys", name, secret)
    path = out or setting.home / FOR_OFFICE / file_name(made.name)
    write_whole(path, made.text)
    click.echo(f"{made.name}: the key is on this tablet, sealed. Read its fingerprint out,")
    click.echo("face to face, when the office enrols it:")
    click.echo(f"  {in_groups(made.fingerprint)}")
    click.echo(f"The office needs this file: {path}")
    return 0


@click.command("take-in", short_help="The tablet: take in the trust file.")
@click.argument("source", metavar="FILE", type=place)
@click.option(
    "--fingerprint",
    "said",
    metavar="FIGURES",
    help="The office's, as it reads it out; else you are asked.",
)
@click.pass_obj
def take_in_trust(setting: Setting, source: Path, said: str | None) -> int:
    """Take in the office's trust FILE (or trust folder); never an older list over a newer one."""
    offered, held = read_trust(source), held_roster(setting.home)
    problem = why_refused(offered, held, setting.clock())
    if problem:
        raise TrustRefusedError(problem)
    if held is None:
        compare(f"the office {name_of(offered.authority)}", offered.fingerprint, said)
        said = said or offered.fingerprint
    taken = take_in(setting.home, offered, setting.clock(), said or "")
    click.echo(f"{name_of(taken.roster.authority)}: {len(taken.new)} new. "
               f"{list_words(taken.roster)}")  # fmt: skip
    here = keys_here(setting.home / "keys")
    for member in members_of(taken.roster, setting.clock(), here):
        if member.key_here:
            click.echo(f"  {member_words(member)}")
    return 0
