"""`fieldapp verify`: whether records are whole, by whom they were signed, and every finding."""

import json
import sys
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

import click
from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TimeRemainingColumn

from fieldapp.commands.named import place
from fieldapp.commands.setting import Setting, UnreadableFileError, content_of
from fieldapp.commands.verify_report import (
    CODES,
    Report,
    as_json,
    in_words,
    relation_in_words,
    summary,
)
from fieldapp.commands.verify_trust import Believed
from fieldapp.errors import FieldAppError
from fieldapp.record.following import Relation, named_in, relations
from fieldapp.record.verification import verify as examine

MANY = 100  # without a terminal, progress is told in lines so far apart
FINDINGS = 1
LARGEST = 256 * 2**20  # bytes; a record of 300 pages with photos stays below a tenth of it


@click.command(short_help="Say whether records are whole and who signed them.")
@click.argument("paths", nargs=-1, required=True, type=place, metavar="FILE…")
@click.option(
    "--trust",
    type=place,
    metavar="PLACE",
    help="The office’s trust folder or file; else “trust” in the home, else beside the record.",
)
@click.option("--json", "as_data", is_flag=True, help="Print everything that was found as JSON.")
@click.pass_obj
def verify(setting: Setting, paths: tuple[Path, ...], trust: Path | None, *, as_data: bool) -> int:
    """Say whether each FILE, or each PDF in a folder, is whole and who signed it.

    Records that name each other are held against each other. Exit 0 all sound, 1 findings,
    2 a file cannot be read.
    """
    believed = Believed(setting.home, trust)
    files = [file for path in paths for file in _files_in(path)]
    reports = []
    for file in _followed(files):
        reports.append(_examined(file, setting, believed))
        if not as_data:
            _tell(reports[-1])
    found = _together(reports)
    _conclude(reports, found, as_data=as_data)
    wrong = [FINDINGS for relation in found if not relation.right]
    return max([*wrong, *(CODES[report.verdict] for report in reports)])


def _files_in(path: Path) -> Iterable[Path]:
    """Return the PDFs of a folder and of those in it; else the path itself."""
    if not path.is_dir():
        return [path]
    found = (file for file in path.rglob("*") if file.suffix.lower() == ".pdf" and file.is_file())
    return sorted(found) or [path]


def _followed(files: Sequence[Path]) -> Iterator[Path]:
    """Go through the files, showing how far it is: as a bar, or without a terminal in lines."""
    screen = Console(stderr=True)
    if not screen.is_terminal:
        for number, file in enumerate(files):
            if number and number % MANY == 0:
                click.echo(f"{number:,} of {len(files):,} files", err=True)
            yield file
        return
    with Progress(
        BarColumn(), MofNCompleteColumn(), TimeRemainingColumn(),
        console=screen, transient=True, disable=len(files) == 1,
        redirect_stdout=sys.stdout.isatty(), redirect_stderr=False,
    ) as bar:  # fmt: skip
        yield from bar.track(files)


def _examined(path: Path, setting: Setting, believed: Believed) -> Report:
    """Return what is found about a file; whatever is wrong with it, the next has its turn."""
    if path.is_dir():
        return Report(path, complaint=f"{path}: holds no PDF: name the folder of the records")
    if path.is_file() and path.stat().st_size > LARGEST:
        return Report(path, complaint=f"{path}: far too large for a record: check the name")
    try:
        content = content_of(path)
        trust = believed.for_record(path)
        found = examine(content, trust.roster if trust else None, now=setting.clock())
    except UnreadableFileError as fault:
        return Report(path, complaint=str(fault))
    except FieldAppError as fault:
        return Report(path, complaint=f"{path}: {fault}")
    return Report(path, found, trust)


def _tell(report: Report) -> None:
    if report.findings is None:
        click.echo(report.complaint, err=True)
    else:
        click.echo(in_words(report))


def _together(reports: Sequence[Report]) -> tuple[Relation, ...]:
    """Hold the records that can be believed against each other, also one that a lead sent back."""
    return relations(
        [
            named_in(str(report.path), report.findings.record)
            for report in reports
            if report.findings
            and report.findings.record
            and (report.findings.sound or report.findings.awaits_lead)
        ]
    )


def _conclude(reports: Sequence[Report], found: tuple[Relation, ...], *, as_data: bool) -> None:
    if as_data:
        told = json.dumps(as_json(reports, found), indent=2, ensure_ascii=False)
        click.echo(told.encode(errors="replace").decode())  # what a forger put in may be no letter
        return
    for relation in found:
        click.echo(relation_in_words(relation))
    if len(reports) > 1:
        click.echo(summary(reports, found))
