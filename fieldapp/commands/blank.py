"""`fieldapp blank`: a checklist on paper, to be filled in by hand when no tablet can be used."""

from pathlib import Path

import click

from fieldapp.checklist.reader import read_checklist
from fieldapp.commands.named import demand_new, file, place, write_new
from fieldapp.commands.setting import Setting, content_of
from fieldapp.engineering.catalogue import FORMULAS
from fieldapp.job.sheet_reader import read_sheet

PROBLEMS = 1
NAME = "checklist.toml"


@click.command(short_help="Print a checklist to be filled in by hand.")
@click.argument("checklist", metavar="CHECKLIST", type=place)
@click.option("--sheet", type=place, metavar="FILE", help="Print this job sheet's figures in it.")
@click.option("--out", required=True, type=file, metavar="FILE", help="New file, a PDF.")
@click.option("--paper", type=click.Choice(["a4", "letter"]), default="a4", show_default=True,
              help="Size of the pages.")  # fmt: skip
@click.pass_obj
def blank(setting: Setting, checklist: Path, sheet: Path | None, out: Path, paper: str) -> int:
    """Print CHECKLIST (its folder or file) with room to write, and the emergency card.

    Exit 0, or 1 with problems in CHECKLIST or job sheet.
    """
    from fieldapp.record.blank_pdf import blank_pdf
    from fieldapp.record.pages.kit.paper import A4, LETTER

    demand_new(out)
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
    write_new(out, blank_pdf(found, content, stated, paper=LETTER if paper == "letter" else A4))
    click.echo(str(out))
    return 0
