"""`fieldapp check`: what is wrong in checklists and job sheets, all at once, with lines."""

import tomllib
from pathlib import Path

import click

from fieldapp.checklist.doubts.finding import doubts_in
from fieldapp.checklist.model import Checklist
from fieldapp.checklist.problems import Problem
from fieldapp.checklist.reader import read_checklist
from fieldapp.commands.named import place
from fieldapp.commands.setting import Setting, UnreadableFileError, content_of
from fieldapp.engineering.catalogue import FORMULAS
from fieldapp.job.sheet import JobSheet
from fieldapp.job.sheet_checks import check_instruments
from fieldapp.job.sheet_reader import read_sheet
from fieldapp.judgement.deciding import too_coarse

SHEET_TABLES = {"job", "site", "transformer", "skid", "crew"}


@click.command(short_help="Say what is wrong in checklists and job sheets.")
@click.argument("files", nargs=-1, required=True, type=place, metavar="FILE…")
@click.option(
    "--sheet", type=place, metavar="FILE", help="Look at checklists with this job sheet too."
)
@click.option("--strict", is_flag=True, help="Exit 1 for warnings too.")
@click.pass_obj
def check(setting: Setting, files: tuple[Path, ...], sheet: Path | None, *, strict: bool) -> int:
    """Say what is wrong in each FILE, as FILE:LINE: where: what.

    A line with “warning” is about something doubtful: it can be used as it is. Exit 0 sound,
    1 problems; with --strict also 1 for warnings.
    """
    stated = _read(content_of(sheet), setting) if sheet else None
    if sheet and not isinstance(stated, JobSheet):
        click.echo(f"{sheet}: this is no sound job sheet: check it first")
        return 1
    faulty = doubtful = 0
    for path in files:
        try:
            content = content_of(path)
        except UnreadableFileError as fault:
            click.echo(str(fault))
            faulty += 1
            continue
        found = _read(content, setting)
        if isinstance(found, tuple):
            faulty += 1
            _tell(path, found)
            continue
        unfit, doubts = _looked_at(found, content, stated)
        _tell(sheet or path, unfit)
        _tell(path, doubts, "warning: ")
        faulty += bool(unfit)
        doubtful += bool(doubts)
        if not unfit:
            click.echo(f"{path}: sound: {_what(found)}{_counted(len(doubts))}")
    return 1 if faulty or (strict and doubtful) else 0


Problems = tuple[Problem, ...]


def _looked_at(
    found: Checklist | JobSheet, content: bytes, stated: Checklist | JobSheet | Problems | None
) -> tuple[Problems, Problems]:
    """Return what does not fit the job sheet, and what is doubtful."""
    if isinstance(found, JobSheet):
        return (), ()
    doubts = doubts_in(content, FORMULAS)
    if not isinstance(stated, JobSheet):
        return (), doubts
    unfit = check_instruments(stated, found)
    return unfit, tuple(sorted((*doubts, *(() if unfit else too_coarse(found, stated)))))


def _tell(path: Path, problems: Problems, word: str = "") -> None:
    for problem in problems:
        click.echo(f"{path}:{problem.line}: {word}{problem.where}: {problem.what}")


def _counted(count: int) -> str:
    return f", {count} warning{'' if count == 1 else 's'}" if count else ""


def _read(content: bytes, setting: Setting) -> Checklist | JobSheet | Problems:
    if _is_sheet(content):
        return read_sheet(content, setting.clock().date())
    return read_checklist(content, FORMULAS)


def _is_sheet(content: bytes) -> bool:
    """Say whether a file means to be a job sheet: it has its tables and no phase."""
    try:
        tables = set(tomllib.loads(content.decode("utf-8-sig")))
    except (ValueError, RecursionError):
        text = content.decode("utf-8", "replace")
        return any(line.strip() == "[job]" for line in text.splitlines())
    return "phase" not in tables and bool(tables & SHEET_TABLES)


def _what(found: Checklist | JobSheet) -> str:
    if isinstance(found, JobSheet):
        return f"job sheet {found.number}, {len(found.crew)} people"
    steps = len(found.steps())
    return f"checklist “{found.title}”, revision {found.revision}, {steps} steps"
