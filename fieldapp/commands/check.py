"""`fieldapp check`: what is wrong in checklists and job sheets, all at once, with lines."""

import tomllib
from pathlib import Path

import click

from fieldapp.checklist.model import Checklist
from fieldapp.checklist.problems import Problem
from fieldapp.checklist.reader import read_checklist
from fieldapp.commands.setting import Setting, UnreadableFileError, content_of
from fieldapp.engineering.catalogue import FORMULAS
from fieldapp.job.sheet import JobSheet
from fieldapp.job.sheet_reader import read_sheet

SHEET_TABLES = {"job", "site", "transformer", "skid", "crew"}


@click.command(short_help="Say what is wrong in checklists and job sheets.")
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.pass_obj
def check(setting: Setting, files: tuple[Path, ...]) -> int:
    """Say what is wrong in FILES, each as FILE:LINE: where: what. Exit 0 sound, 1 problems."""
    faulty = 0
    for path in files:
        try:
            found = _read(content_of(path), setting)
        except UnreadableFileError as fault:
            click.echo(str(fault))
            faulty += 1
            continue
        if isinstance(found, tuple):
            faulty += 1
            for problem in found:
                click.echo(f"{path}:{problem}")
        else:
            click.echo(f"{path}: sound: {_what(found)}")
    return 1 if faulty else 0


def _read(content: bytes, setting: Setting) -> Checklist | JobSheet | tuple[Problem, ...]:
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
