"""`fieldapp store backup`, `restore`, `hand-over` and `receive`: jobs in other places."""

from pathlib import Path

import click
from rich.console import Console
from rich.progress import track

from fieldapp.checklist.problems import in_one_line
from fieldapp.commands.named import demand_new, file, folder
from fieldapp.commands.setting import Setting, demand_file
from fieldapp.commands.store_statements import unlocked
from fieldapp.crew.tablet.taking_in import held_roster
from fieldapp.handover.backup import copy_all, demand_there, files_below
from fieldapp.handover.errors import HandOverForkedError, HandOverRefusedError, SecondStoryError
from fieldapp.handover.receiving import Received
from fieldapp.handover.receiving import receive as receive_file
from fieldapp.handover.second_place import second_place, set_second_place
from fieldapp.handover.sending import file_hand_over
from fieldapp.job.events import Settled
from fieldapp.journal.jobs import Jobs, journals_of
from fieldapp.journal.tablets.union import ParallelStoriesError
from fieldapp.journal.tablets.wording import counted, entries

FINDINGS, UNREADABLE = 1, 2


@click.command(short_help="Copy journals and pictures to a card or share.")
@click.option("--to", "target", type=folder, metavar="FOLDER",
              help="A card or a share; without it the one set by --always.")  # fmt: skip
@click.option("--always", is_flag=True, help="Copy there whenever the window closes, too.")
@click.pass_obj
def backup(setting: Setting, target: Path | None, *, always: bool) -> int:
    """Copy every journal and picture to a second place and read it back.

    Exit 0 all, 1 not all.
    """
    place = target or second_place(setting.home)
    if place is None:
        raise click.ClickException("no second place is set: name one with --to FOLDER")
    demand_there(place)
    if always:
        set_second_place(setting.home, place)
        click.echo(f"{place}: copied to whenever the window closes")
    return _copied(setting.home, place)


@click.command(short_help="Copy them back, over nothing that is newer.")
@click.option("--from", "source", required=True, type=folder, metavar="FOLDER",
              help="The place of a backup.")  # fmt: skip
@click.pass_obj
def restore(setting: Setting, source: Path) -> int:
    """Copy journals and pictures back from a backup, over nothing that is newer.

    Exit 0 all, 1 not all.
    """
    return _copied(source, setting.home)


@click.command("hand-over", short_help="Write a job to one file for another tablet.")
@click.argument("number", metavar="JOB")
@click.option("--out", required=True, type=file, metavar="FILE", help="New file.")
@click.option(
    "--sign", "name", metavar="NAME", help="Who signs it with their key; else it is unsigned."
)
@click.pass_obj
def hand_over(setting: Setting, number: str, out: Path, name: str | None) -> int:
    """Write JOB, its journals and its pictures, to one new file for another tablet or the office.

    Exit 0 all of it, 1 a picture is missing or damaged.
    """
    demand_new(out)
    journals_of(setting.home, number, needed=True)  # before a secret is asked in vain
    signer = unlocked(setting, name) if name else None
    left = file_hand_over(out, setting.home, number, setting.clock(), signer)
    click.echo(f"{out}: {'signed by ' + name if name else 'unsigned: nobody vouches for it'}")
    for words in left:
        click.echo(f"  {words}")
    return FINDINGS if left else 0


@click.command(short_help="Take in a hand-over file, whole or not at all.")
@click.argument("source", metavar="FILE", type=file)
@click.option("--both", is_flag=True,
              help="Take in both sides of two tablets at work at once.")  # fmt: skip
@click.pass_obj
def receive(setting: Setting, source: Path, *, both: bool) -> int:
    """Take in the hand-over FILE; nothing is written unless all of it is in order.

    Exit 0 taken in, 1 two stories, 2 refused.
    """
    device = Jobs(setting.home, setting.clock).device
    demand_file(source)
    try:
        found = receive_file(source, setting.home, device, held_roster(setting.home), both=both)
    except (HandOverRefusedError, HandOverForkedError, SecondStoryError) as fault:
        click.echo(f"{source}: {fault}", err=True)
        return UNREADABLE if isinstance(fault, HandOverRefusedError) else FINDINGS
    click.echo(f"{source}: job {found.job}, {found.signer}")
    return _told(found)


def _told(found: Received) -> int:
    for other, new in found.new:
        click.echo(f"  {entries(new)} new of {other}")
    if not found.new:
        click.echo("  nothing new: all of it is here already")
    for event in found.settled:
        assert isinstance(event.what, Settled)  # noqa: S101 - the receiving says so
        aside = counted(len(event.what.aside), "event", "events")
        words = f"settled by {event.by}: {event.what.kept} goes on, {aside} set aside"
        click.echo(f"  {in_one_line(words)}")
    if found.conflict is None:
        return 0
    click.echo(f"  {ParallelStoriesError(found.conflict)}")
    return FINDINGS


def _copied(source: Path, target: Path) -> int:
    count = len(files_below(source))
    screen = Console(stderr=True)
    done = list(track(copy_all(source, target), total=count, description="Copying", console=screen))
    for copied in done:
        click.echo(copied.words)
    refused = sum(bool(copied.refused) for copied in done)
    many = counted(count, "file", "files")
    click.echo(f"{count - refused} of {many} copied from {source} to {target}")
    return FINDINGS if refused else 0
