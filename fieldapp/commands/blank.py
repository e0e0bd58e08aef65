"""`fieldapp blank`: a checklist on paper, to be filled in by hand when no tablet can be used."""

from pathlib import Path

import click

from fieldapp.checklist.reader import read_checklist
from fieldapp.commands.setting import Setting, content_of
from fieldapp.engineering.catalogue import FORMULAS
from fieldapp.job.sheet_reader import read_sheet

PROBLEMS = 1
NAME = "checklist.toml"


@click.command(short_help="Print a checklist to be filled in by hand.")
@click.argument("checklist", metavar="CHECKLIST", type=click.Path(path_type=Path))
@click.option(
    "--sheet", type=click.Path(path_type=Path), help="Print this job sheet's figures in it."
)
@click.option("--out", required=True, type=click.Path(path_type=Path, dir_okay=False))
@click.option("--paper", type=click.Choice(["a4", "letter"]), default="a4", show_default=True)
@click.pass_obj
def blank(setting: Setting, checklist: Path, sheet: Path | None, out: Path, paper: str) -> int:
    """Print CHECKLIST (its folder or file) with room to write, and the emergency card."""
    from fieldapp.record.blank_pdf import blank_pdf
    from fieldapp.record.pages.paper import A4, LETTER

    path = checklist / NAME if checklist.is_dir() else checklist
    content = content_of(path)
    found = read_checklist(content, FORMULAS)
    stated = read_sheet(content_of(sheet), setting.clock().date()) if sheet else None
    problems = [(path, one) for one in found] if isinstance(found, tuple) else []
    if sheet and isinstance(stated, tuple):
        problems += [(sheet, one) for one in stated]
    for where, problem in problems:
        click.echo(f"{where}:{problem}")
    if isinstance(found, tuple) or isinstance(stated, tuple):
        return PROBLEMS
    out.write_bytes(blank_pdf(found, content, stated, paper=LETTER if paper == "letter" else A4))
    click.echo(str(out))
    return 0
