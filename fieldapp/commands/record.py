"""`fieldapp record`: the record of a job as a PDF, signed when the crew unlock their keys."""

from pathlib import Path

import click

from fieldapp.commands.setting import Setting
from fieldapp.crew.roster import FOLDER, read_roster
from fieldapp.crew.unlocking import unlock_signer
from fieldapp.job.job import Job
from fieldapp.journal.jobs import Jobs


@click.command(short_help="Render the record of a job.")
@click.argument("number", metavar="JOB")
@click.option("--out", required=True, type=click.Path(path_type=Path, dir_okay=False))
@click.option("--sign", is_flag=True, help="Sign it: technician and crew lead unlock their keys.")
@click.pass_obj
def record(setting: Setting, number: str, out: Path, *, sign: bool) -> None:
    """Render, or render again, the record of JOB, and write it to a file."""
    from fieldapp.record.issuing import issued

    jobs = Jobs(setting.home, setting.clock)
    try:
        kept = jobs.open(number)
        pages = issued(kept.job, (kept.head.sequence, kept.head.hash), setting.clock())
        content = _signed(pages, kept.job, setting) if sign else pages
    finally:
        jobs.close()
    out.write_bytes(content)
    click.echo(str(out))


def _signed(pages: bytes, job: Job, setting: Setting) -> bytes:
    from fieldapp.record.issuing import signed_record

    roster = read_roster(setting.home / FOLDER)
    signers = [
        unlock_signer(
            roster,
            setting.home / "keys",
            event.by,
            click.prompt(f"Secret of {event.by}, {role}", hide_input=True),
            setting.clock(),
        )
        for role in ("technician", "crew lead")
        if (event := job.state.signature(role)) is not None
    ]
    return signed_record(pages, job, signers)
