"""`fieldapp demo`: the invented job from job sheet to signed record, without a window."""

from pathlib import Path

import click
from rich.console import Console
from rich.progress import BarColumn, Progress, TextColumn

from fieldapp.commands.named import folder
from fieldapp.demo.player import Played, play, script, sheet_text

TOLD = ("correct", "happening", "explain", "accept", "leave")


@click.command(short_help="Play an invented job, from job sheet to signed record.")
@click.option(
    "--out",
    required=True,
    type=folder,
    metavar="FOLDER",
    help="New or empty folder for the demo's jobs, keys and record.",
)
def demo(out: Path) -> int:
    """Play an invented hookup through the app's own actions; the last line is the signed PDF."""
    from fieldapp.demo.recording import SECRET, write_record

    if out.exists() and any(out.iterdir()):
        raise click.ClickException(f"{out} is not empty: name a new folder for the demo")
    out.mkdir(parents=True, exist_ok=True)
    (out / "sheets").mkdir()
    (out / "sheets" / "sorrel-pass-t2.toml").write_text(sheet_text(), encoding="utf-8")
    screen = Console()
    with Progress(
        TextColumn("{task.description}"), BarColumn(), console=screen, transient=True
    ) as bar:
        task = bar.add_task("Playing the hookup", total=len(script()))

        def told(played: Played) -> None:
            bar.advance(task)
            if played.line.verb in TOLD:
                words = _words(played)
                bar.console.print(words, soft_wrap=True, markup=False, highlight=False)

        jobs = play(out, told)
    try:
        kept = jobs.open(jobs.numbers()[0])
        path = write_record(out, kept)
        events = len(kept.job.state.log)
    finally:
        jobs.close()
    click.echo(f"{events} events kept, technician and crew lead have signed.")
    click.echo(f"Look at it on the tablet's window: fieldapp --home {out}")
    click.echo(f"The secret of both people there, which is no secret: {SECRET}")
    click.echo(f"Check it:                          fieldapp verify {path}")
    click.echo(str(path))
    return 0


def _words(played: Played) -> str:
    line = played.line
    words = line.given.partition(":")[2]
    match line.verb:
        case "correct":
            what = f"corrects an entry to {line.given.partition(' ')[2]}: {line.note}"
        case "happening":
            what = f"reports: {line.note}"
        case "explain":
            what = f"says why something outside its limits is kept: {words.strip()}"
        case "accept":
            what = f"accepts a deviation: {words.strip()}"
        case _:
            what = f"leaves for the night: {line.given}"
    return f"{line.at:%a %H:%M}  {line.who} {what}"
