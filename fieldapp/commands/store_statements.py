"""`fieldapp store gap`, `conflict` and `settle`: what a named person states to go on."""

from pathlib import Path

import click

from fieldapp.commands.asking import secret_of
from fieldapp.commands.setting import Setting
from fieldapp.crew.keys import key_path
from fieldapp.crew.people import Signer
from fieldapp.crew.roster import FOLDER, NotOnRosterError, read_roster
from fieldapp.crew.tablet.taking_in import held_roster
from fieldapp.crew.unlocking import unlock_signer
from fieldapp.handover.vouching import UNSIGNED, gap_signer
from fieldapp.journal.exporting import told_words
from fieldapp.journal.jobs import Jobs, journals_of
from fieldapp.journal.settling import conflict_in
from fieldapp.journal.settling import settle as settle_stories
from fieldapp.journal.tablets.gap import state_gap
from fieldapp.journal.tablets.wording import entries, events

FINDINGS = 1


@click.command(short_help="State that the disk lost the last entries.")
@click.argument("number", metavar="JOB")
@click.option(
    "--by",
    "who",
    metavar="NAME",
    required=True,
    help="Who states it; signed where their key is here.",
)
@click.option("--reason", required=True, help="Why the entries are missing, as far as is known.")
@click.option("--unsigned", is_flag=True, help="Do not ask for the secret of their key.")
@click.pass_obj
def gap(setting: Setting, number: str, who: str, reason: str, *, unsigned: bool) -> int:
    """State that the disk lost the last entries of JOB, so that work can go on.

    Look for a backup first: once work has gone on, the lost entries are another story.
    Exit 0, 2 refused.
    """
    journals_of(setting.home, number, needed=True)
    jobs = Jobs(setting.home, setting.clock)
    path = jobs.folder(number) / f"{jobs.device}.journal"
    signer = unlocked(setting, who) if has_key(setting, who) and not unsigned else None
    stated = state_gap(
        path, device=jobs.device, who=who, reason=reason, clock=setting.clock,
        sign=gap_signer(signer) if signer else None,
    )  # fmt: skip
    lost = "1 entry is" if stated.missing == 1 else f"{entries(stated.missing)} are"
    click.echo(
        f"{path}: {who} states that {lost} lost after entry {stated.after}; "
        f"what was found is kept beside it. Enter again what is missing"
    )
    click.echo(f"signed by {who}" if signer else _why_unsigned(who, unsigned=unsigned))
    return 0


@click.command()
@click.argument("number", metavar="JOB")
@click.pass_obj
def conflict(setting: Setting, number: str) -> int:
    """Show both sides of JOB where two tablets worked at once. Exit 0 one story, 1 more."""
    journals_of(setting.home, number, needed=True)
    found = conflict_in(setting.home / "jobs" / number)
    if found is None:
        click.echo(f"{number}: its journals tell one story")
        return 0
    sides = [branch.device for branch in found.branches]
    click.echo(f"{number}: {' and '.join(sides)} each went on after event {found.after}")
    for branch in found.branches:
        click.echo(f"\n{branch.device}: {events(len(branch.events))}")
        for kept in branch.events:
            by = "" if kept.device == branch.device else f" ({kept.device})"
            click.echo(f"  {told_words(kept.event)}{by}")
    click.echo(
        f"\nSettle it with “fieldapp store settle {number} --by NAME --keep {sides[0]} "
        f"--reason TEXT”, or --keep another. What is set aside stays readable, and what it "
        f"touched is to do again"
    )
    return FINDINGS


@click.command()
@click.argument("number", metavar="JOB")
@click.option("--by", "who", metavar="NAME", required=True, help="Who settles it.")
@click.option("--keep", required=True, metavar="TABLET", help="The side that goes on.")
@click.option("--reason", required=True, help="Why that side.")
@click.pass_obj
def settle(setting: Setting, number: str, who: str, keep: str, reason: str) -> int:
    """Say which side of JOB goes on. Nothing is lost: the other stays readable in the job.

    Look first at both sides with “fieldapp store conflict”, and at valves and joints on site.
    Exit 0 settled, 2 refused.
    """
    journals_of(setting.home, number, needed=True)
    jobs = Jobs(setting.home, setting.clock)
    what = settle_stories(
        jobs.folder(number), device=jobs.device, who=who, keep=keep, reason=reason,
        clock=setting.clock,
    )  # fmt: skip
    click.echo(
        f"{number}: {who} settles that {what.kept} goes on after event {what.after}; "
        f"{events(len(what.aside))} set aside. Signatures from before do not stand; hand the job "
        f"over so that the other tablet knows"
    )
    return 0


def has_key(setting: Setting, name: str) -> bool:
    """Say whether a person's key is on this tablet, with the trust folder that vouches for it."""
    roster = held_roster(setting.home)
    try:
        return roster is not None and key_path(_keys(setting), roster.named(name)).is_file()
    except NotOnRosterError:
        return False


def unlocked(setting: Setting, name: str) -> Signer:
    """Return a person with their key, once they gave their secret."""
    roster = read_roster(setting.home / FOLDER)
    roster.named(name)  # before anybody types a secret in vain
    return unlock_signer(roster, _keys(setting), name, secret_of(name), setting.clock())


def _keys(setting: Setting) -> Path:
    return setting.home / "keys"


def _why_unsigned(name: str, *, unsigned: bool) -> str:
    return UNSIGNED if unsigned else f"{UNSIGNED}; the key of {name} is not on this tablet"
