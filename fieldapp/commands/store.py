"""`fieldapp store`: what is kept here, whether it is whole, and copies of it."""

from pathlib import Path

import click
from rich.console import Console
from rich.progress import track

from fieldapp.commands.setting import Setting, content_of
from fieldapp.crew.people import Signer
from fieldapp.crew.roster import FOLDER, read_roster
from fieldapp.crew.unlocking import unlock_signer
from fieldapp.errors import FieldAppError
from fieldapp.handover.backup import copy_all, journals_below
from fieldapp.handover.errors import HandOverForkedError, HandOverRefusedError
from fieldapp.handover.receiving import receive as receive_file
from fieldapp.handover.sending import hand_over
from fieldapp.journal.exporting import as_csv, as_json
from fieldapp.journal.gap import state_gap
from fieldapp.journal.jobs import Jobs, journals_of, numbers_in
from fieldapp.journal.reading import Inspection, inspect, sound_inspection, whole_lines

FINDINGS, UNREADABLE = 1, 2


@click.group(short_help="List, check, export and copy what is kept.")
def store() -> None:
    """Look after the journals of the jobs. Nothing here changes a journal."""


@store.command("list")
@click.pass_obj
def listing(setting: Setting) -> int:
    """List the jobs and their journals. Exit 0 all can be read, 1 some cannot."""
    faulty = 0
    for number in numbers_in(setting.home):
        for path in journals_of(setting.home, number):
            words, code = _line(path)
            click.echo(f"{number}  {path.stem}  {words}")
            faulty = max(faulty, code)
    if not numbers_in(setting.home):
        click.echo(f"{setting.home}: no jobs are kept here")
    return 1 if faulty else 0


@store.command()
@click.argument("number", metavar="[JOB]", required=False)
@click.pass_obj
def check(setting: Setting, number: str | None) -> int:
    """Check every entry, link and head of JOB, or of all. Exit 0 sound, 1 damaged, 2 unreadable."""
    numbers = (number,) if number else numbers_in(setting.home)
    codes = [
        _checked(path) for each in numbers for path in journals_of(setting.home, each, needed=True)
    ]
    return max(codes, default=0)


@store.command()
@click.argument("journal", type=click.Path(path_type=Path, dir_okay=False))
@click.option("--out", required=True, type=click.Path(path_type=Path, dir_okay=False))
def salvage(journal: Path, out: Path) -> int:
    """Write the entries of JOURNAL that are whole to a new file. Exit 0 all, 1 not all."""
    found = inspect(journal)
    lines = whole_lines(found.raw)
    _write_new(out, b"".join(lines))
    if not found.words:
        click.echo(f"{out}: all {len(lines)} entries; {journal} is sound")
        return 0
    before = len(found.bodies)
    click.echo(found.words)
    click.echo(f"{out}: entries that are whole: {before} before it, {len(lines) - before} after it")
    return FINDINGS


@store.command()
@click.argument("number", metavar="JOB")
@click.option("--out", required=True, type=click.Path(path_type=Path, dir_okay=False),
              help="New file; its name ends in .json or .csv.")  # fmt: skip
@click.pass_obj
def export(setting: Setting, number: str, out: Path) -> int:
    """Write the events of JOB to a new file, as JSON or CSV by its name."""
    if out.suffix not in (".json", ".csv"):
        raise click.ClickException(f"{out}: end the name in .json or .csv.")
    found = [sound_inspection(path) for path in journals_of(setting.home, number, needed=True)]
    bodies = tuple(body for each in found for body in each.bodies)
    heads = " ".join(each.chain.head.hash for each in found)
    text = as_csv(bodies) if out.suffix == ".csv" else as_json(bodies, heads)
    _write_new(out, text.encode())
    click.echo(str(out))
    return 0


@store.command()
@click.option("--to", "target", required=True, type=click.Path(path_type=Path, file_okay=False),
              help="A card or a share.")  # fmt: skip
@click.pass_obj
def backup(setting: Setting, target: Path) -> int:
    """Copy every journal to a second place and read it back. Exit 0 all, 1 not all."""
    return _copied(setting.home, target)


@store.command()
@click.option("--from", "source", required=True, type=click.Path(path_type=Path, file_okay=False),
              help="The place of a backup.")  # fmt: skip
@click.pass_obj
def restore(setting: Setting, source: Path) -> int:
    """Copy journals back from a backup, over nothing that is newer. Exit 0 all, 1 not all."""
    return _copied(source, setting.home)


@store.command()
@click.argument("number", metavar="JOB")
@click.option("--by", "who", required=True, help="Who states it.")
@click.option("--reason", required=True, help="Why the entries are missing, as far as is known.")
@click.pass_obj
def gap(setting: Setting, number: str, who: str, reason: str) -> int:
    """State that the disk lost the last entries of JOB, so that work can go on.

    Look for a backup first: once work has gone on, the lost entries are another story.
    """
    journals_of(setting.home, number, needed=True)
    jobs = Jobs(setting.home, setting.clock)
    path = jobs.folder(number) / f"{jobs.device}.journal"
    stated = state_gap(path, device=jobs.device, who=who, reason=reason, clock=setting.clock)
    click.echo(
        f"{path}: {who} states that {stated.missing} entries after entry {stated.after} are lost; "
        f"what was found is kept beside it. Enter again what is missing"
    )
    return 0


@store.command("hand-over")
@click.argument("number", metavar="JOB")
@click.option("--out", required=True, type=click.Path(path_type=Path, dir_okay=False))
@click.option("--sign", "name", help="Who signs it with their key; else it is unsigned.")
@click.pass_obj
def hand_over_job(setting: Setting, number: str, out: Path, name: str | None) -> int:
    """Write JOB with all its journals to one new file for another tablet or the office."""
    content = hand_over(setting.home, number, setting.clock(), _signer(setting, name))
    _write_new(out, content)
    click.echo(f"{out}: {'signed by ' + name if name else 'unsigned: nobody vouches for it'}")
    return 0


@store.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@click.pass_obj
def receive(setting: Setting, file: Path) -> int:
    """Take in the hand-over FILE; nothing is written unless all of it is in order."""
    folder = setting.home / FOLDER
    roster = read_roster(folder) if folder.is_dir() else None
    device = Jobs(setting.home, setting.clock).device
    try:
        found = receive_file(content_of(file), setting.home, device, roster)
    except (HandOverRefusedError, HandOverForkedError) as fault:
        click.echo(f"{file}: {fault}", err=True)
        return UNREADABLE if isinstance(fault, HandOverRefusedError) else FINDINGS
    click.echo(f"{file}: job {found.job}, {found.signer}")
    for other, entries in found.new:
        click.echo(f"  {entries} new of {other}")
    if not found.new:
        click.echo("  nothing new: all of it is here already")
    return 0


def _signer(setting: Setting, name: str | None) -> Signer | None:
    if name is None:
        return None
    roster = read_roster(setting.home / FOLDER)
    secret = click.prompt(f"Secret of {name}", hide_input=True, err=True)
    return unlock_signer(roster, setting.home / "keys", name, secret, setting.clock())


def _copied(source: Path, target: Path) -> int:
    count = len(journals_below(source))
    screen = Console(stderr=True)
    done = list(track(copy_all(source, target), total=count, description="Copying", console=screen))
    for copied in done:
        click.echo(copied.words)
    refused = sum(bool(copied.refused) for copied in done)
    click.echo(f"{count - refused} of {count} journals copied from {source} to {target}")
    return FINDINGS if refused else 0


def _line(path: Path) -> tuple[str, int]:
    try:
        found = inspect(path)
    except FieldAppError:
        return "cannot be read: “fieldapp store check” says why", UNREADABLE
    last = found.bodies[-1].time if found.bodies else "nothing kept yet"
    state = "DAMAGED: “fieldapp store check” says where" if found.why else "whole"
    return f"{len(found.bodies)} entries, last {last}, {state}", 1 if found.why else 0


def _checked(path: Path) -> int:
    try:
        found = inspect(path)
    except FieldAppError as fault:
        click.echo(str(fault))
        return UNREADABLE
    click.echo(_verdict(found))
    return FINDINGS if found.why else 0


def _verdict(found: Inspection) -> str:
    if found.why:
        return (
            f"{found.words}; entries before it that can be read: {len(found.bodies)}. "
            f"Keep the files as they are; “fieldapp store salvage” copies what can be read"
        )
    head = found.chain.head
    sound = f"{found.path}: sound, {head.sequence} entries, head {head.hash[:16]}…"
    return f"{sound}; its last {found.torn} bytes were never acknowledged" if found.torn else sound


def _write_new(path: Path, content: bytes) -> None:
    try:
        with path.open("xb") as file:
            file.write(content)
    except FileExistsError as there:
        raise click.ClickException(f"{path} is there already: name a new file.") from there
