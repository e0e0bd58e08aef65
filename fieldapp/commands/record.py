"""`fieldapp record`: the record of a job as a PDF, signed when the crew unlock their keys."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from fieldapp.commands.asking import secret_of
from fieldapp.commands.named import demand_new, file
from fieldapp.commands.setting import Setting
from fieldapp.crew.people import Role
from fieldapp.crew.roster import FOLDER, read_roster
from fieldapp.crew.tablet.taking_in import held_roster
from fieldapp.crew.unlocking import unlock_signer, why_not_ready
from fieldapp.job.job import Job
from fieldapp.journal.jobs import Jobs
from fieldapp.journal.sign_off import as_signed_off
from fieldapp.whole import write_whole

if TYPE_CHECKING:
    from fieldapp.record.issuing import Surroundings

PAPERS = ("a4", "letter")


@click.command(short_help="Render the record of a job.")
@click.argument("number", metavar="JOB")
@click.option(
    "--out",
    type=file,
    metavar="FILE",
    help="New file; if not given, one named after the job in the home's folder of records.",
)
@click.option("--paper", type=click.Choice(PAPERS), default="a4", show_default=True,
              help="Size of the pages.")  # fmt: skip
@click.option("--sign", is_flag=True, help="Sign it: technician and crew lead unlock their keys.")
@click.option("--json", "as_json", is_flag=True, help="Print the data that the PDF would carry.")
@click.pass_obj
def record(
    setting: Setting, number: str, out: Path | None, paper: str, *, sign: bool, as_json: bool
) -> None:
    """Render, or render again, the record of JOB, and write it to a file.

    A file named with --out, and a signed record, is never written over.
    """
    from fieldapp.record.issuing import issued_whole

    if as_json and (out or sign):
        raise click.UsageError("--json prints the data alone: leave out --out and --sign.")
    if out is not None:
        demand_new(out)
    jobs = Jobs(setting.home, setting.clock)
    try:
        kept = jobs.open(number)
        place = out or _place(setting.home, kept.job, signed=sign)  # before secrets are asked
        around = _around(setting, jobs.folder(number), paper)
        told = as_signed_off(kept, jobs.folder(number))
        head = (told.head.sequence, told.head.hash)
        record_json, pages = issued_whole(told.job, head, setting.clock(), around)
        content = _signed(pages, told.job, setting) if sign else pages
    finally:
        jobs.close()
    if as_json:
        click.echo(record_json, nl=False)
        return
    write_whole(place, content)
    click.echo(str(place))


def _place(home: Path, job: Job, *, signed: bool) -> Path:
    """Return where a record lies if no file is named; a signed one is never written over."""
    from fieldapp.record.filing import RecordIsThereError, record_place, unsigned_place

    if not signed:
        return unsigned_place(home, job)
    place = record_place(home, job)
    if place.exists():
        raise RecordIsThereError(place)
    return place


def _around(setting: Setting, folder: Path, paper: str) -> "Surroundings":
    from fieldapp.record.issuing import Surroundings
    from fieldapp.record.pages.kit.paper import A4, LETTER

    roster = held_roster(setting.home)
    return Surroundings(roster, folder, LETTER if paper == "letter" else A4)


def _signed(pages: bytes, job: Job, setting: Setting) -> bytes:
    from fieldapp.record.issuing import signed_record
    from fieldapp.record.signing import CannotSignError

    roster, keys = read_roster(setting.home / FOLDER), setting.home / "keys"
    signing = [(role, event) for role in Role if (event := job.state.signature(role)) is not None]
    for role, event in signing:
        problem = why_not_ready(roster, keys, event.by, role, event.at)
        if problem:
            raise CannotSignError(event.by, problem)
    signers = [
        unlock_signer(
            roster,
            keys,
            event.by,
            secret_of(f"{event.by}, {role}"),
            setting.clock(),
        )
        for role, event in signing
    ]
    return signed_record(pages, job, signers)
