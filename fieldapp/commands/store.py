"""`fieldapp store`: what is kept here, whether it is whole, and copies of it."""

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

import click

from fieldapp.checklist.problems import in_one_line
from fieldapp.commands.named import demand_new, file, write_new
from fieldapp.commands.setting import Setting, demand_file
from fieldapp.commands.store_copies import backup, hand_over, receive, restore
from fieldapp.commands.store_statements import conflict, gap, settle
from fieldapp.crew.tablet.taking_in import held_roster
from fieldapp.errors import FieldAppError
from fieldapp.handover.pictures import named_by
from fieldapp.handover.second_place import last_backup
from fieldapp.handover.vouching import gap_vouched
from fieldapp.job.events import GapStated, event_of
from fieldapp.journal.exporting import as_csv, as_json
from fieldapp.journal.folders import FolderClosedError
from fieldapp.journal.jobs import journals_of, numbers_in
from fieldapp.journal.lines.reading import Inspection, inspect, sound_inspection, whole_lines
from fieldapp.journal.pictures import check as check_pictures
from fieldapp.journal.tablets.gap import NoGapError, gap_in
from fieldapp.journal.tablets.story import Conflict, told
from fieldapp.journal.tablets.union import ParallelStoriesError, events_of, kept_by
from fieldapp.journal.tablets.wording import entries

FINDINGS, UNREADABLE = 1, 2
_CANNOT_BE_READ = "cannot be read: “fieldapp store check” says why"


@click.group(short_help="List, check, export and copy what is kept.")
def store() -> None:
    """Look after the journals of the jobs. No entry that is kept is ever changed."""


@store.command("list")
@click.pass_obj
def listing(setting: Setting) -> int:
    """List the jobs and their journals. Exit 0 all can be read, 1 some cannot."""
    faulty = 0
    numbers = numbers_in(setting.home)
    for number in numbers:
        for name, words, code in _lines(setting.home, number):
            click.echo(f"{number}  {name}  {words}")
            faulty = max(faulty, code)
    if not numbers:
        click.echo(f"{setting.home}: no jobs are kept here")
    if copied := last_backup(setting.home):
        click.echo(copied)
    return 1 if faulty else 0


@store.command()
@click.argument("number", metavar="[JOB]", required=False)
@click.pass_obj
def check(setting: Setting, number: str | None) -> int:
    """Check every entry, link, head and picture of JOB, or of all.

    Exit 0 sound, 1 something is damaged, missing or to be settled, 2 unreadable.
    """
    numbers = (number,) if number else numbers_in(setting.home)
    if not numbers:
        click.echo(f"{setting.home}: no jobs are kept here")
    return max((_checked(setting, each) for each in numbers), default=0)


@store.command(short_help="Copy the whole entries out of a damaged journal.")
@click.argument("journal", type=file)
@click.option("--out", required=True, type=file, metavar="FILE", help="New file.")
def salvage(journal: Path, out: Path) -> int:
    """Write the entries of JOURNAL that are whole to a new file. Exit 0 all, 1 not all."""
    demand_new(out)
    demand_file(journal)
    found = inspect(journal)
    lines = whole_lines(found.raw)
    if not lines:
        click.echo(f"{journal}: holds no whole entry; nothing was written")
        return FINDINGS
    write_new(out, b"".join(lines))
    if not found.words:
        click.echo(f"{out}: all {entries(len(lines))}; {journal} is sound")
        return 0
    before = len(found.bodies)
    click.echo(found.words)
    click.echo(f"{out}: entries that are whole: {before} before it, {len(lines) - before} after it")
    return FINDINGS


@store.command(short_help="Write the events of a job as JSON or CSV.")
@click.argument("number", metavar="JOB")
@click.option("--out", required=True, type=file, metavar="FILE",
              help="New file; its name ends in .json or .csv.")  # fmt: skip
@click.pass_obj
def export(setting: Setting, number: str, out: Path) -> int:
    """Write the events of JOB to a new file, as JSON or CSV by its name."""
    if out.suffix not in (".json", ".csv"):
        raise click.ClickException(f"{out}: end the name in .json or .csv")
    demand_new(out)
    found = [sound_inspection(path) for path in journals_of(setting.home, number, needed=True)]
    bodies = tuple(body for each in found for body in each.bodies)
    heads = " ".join(each.chain.head.hash for each in found)
    text = as_csv(bodies) if out.suffix == ".csv" else as_json(bodies, heads)
    write_new(out, text.encode())
    click.echo(str(out))
    return 0


for command in (backup, restore, hand_over, receive, gap, conflict, settle):
    store.add_command(command)


def _lines(home: Path, number: str) -> Iterator[tuple[str, str, int]]:
    try:
        found = journals_of(home, number)
    except FolderClosedError:
        yield "?", _CANNOT_BE_READ, UNREADABLE
        return
    for path in found:
        yield (path.stem, *_line(path))


def _line(path: Path) -> tuple[str, int]:
    try:
        found = inspect(path)
    except FieldAppError:
        return _CANNOT_BE_READ, UNREADABLE
    last = _moment(found.bodies[-1].time) if found.bodies else "nothing kept yet"
    state = "DAMAGED: “fieldapp store check” says where" if found.why else "whole"
    return f"{entries(len(found.bodies))}, last {last}, {state}", 1 if found.why else 0


def _moment(text: str) -> str:
    return f"{datetime.fromisoformat(text):%Y-%m-%d %H:%M %z}"


def _checked(setting: Setting, number: str) -> int:
    try:
        return _checked_job(setting, number)
    except FolderClosedError as fault:
        click.echo(str(fault))
        return UNREADABLE


def _checked_job(setting: Setting, number: str) -> int:
    code, found = 0, []
    for path in journals_of(setting.home, number, needed=True):
        try:
            found.append(inspect(path))
        except FieldAppError as fault:
            click.echo(str(fault))
            code = UNREADABLE
    for each in found:
        click.echo(_verdict(each))
    for words in _gaps(setting, found):
        click.echo(words)
    faults = [*_pictures_wrong(setting.home / "jobs" / number, found), *_apart(found)]
    for words in faults:
        click.echo(f"{number}: {words}")
    return max(code, FINDINGS if faults or any(each.why for each in found) else 0)


def _gaps(setting: Setting, found: list[Inspection]) -> Iterator[str]:
    for each in found:
        for document in events_of(each.bodies):
            if document["what"]["kind"] == GapStated.__name__:
                event = event_of(document)
                by = in_one_line(event.by)
                yield (
                    f"{each.path}: a gap stated by {by}, {event.at:%Y-%m-%d %H:%M}, "
                    f"{gap_vouched(event, held_roster(setting.home))}"
                )


def _pictures_wrong(folder: Path, found: list[Inspection]) -> tuple[str, ...]:
    return check_pictures(folder, named_by(body for each in found for body in each.bodies))


def _apart(found: list[Inspection]) -> Iterator[str]:
    if not any(each.why for each in found):
        story = told(kept_by(found))
        if isinstance(story, Conflict):
            yield str(ParallelStoriesError(story))


def _verdict(found: Inspection) -> str:
    if found.why:
        return (
            f"{found.words}; entries before it that can be read: {len(found.bodies)}. "
            f"Keep the files as they are; “fieldapp store salvage” copies what can be read"
            f"{_way_on(found.path)}"
        )
    head = found.chain.head
    sound = f"{found.path}: sound, {entries(head.sequence)}, head {head.hash[:16]}…"
    return f"{sound}; its last {found.torn} bytes were never acknowledged" if found.torn else sound


def _way_on(path: Path) -> str:
    try:
        gap_in(path)
    except NoGapError:
        return ""
    return ". If no backup has the rest, “fieldapp store gap” lets work go on"
