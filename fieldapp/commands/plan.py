"""`fieldapp plan`: the office's questions answered from a job sheet, in words or as a page."""

import json
import textwrap
from dataclasses import asdict
from pathlib import Path

import click

from fieldapp.commands.named import demand_new, file, place, write_new
from fieldapp.commands.setting import Setting, content_of
from fieldapp.commands.width import width
from fieldapp.job.sheet_reader import read_sheet
from fieldapp.plan.planning import plan_of
from fieldapp.plan.shapes import Answer, Plan
from fieldapp.plan.wording import PERMITS_NOTHING, figure_words, heading

PROBLEMS = 1
WIDE = 96


@click.command(short_help="Answer the office's questions from a job sheet.")
@click.argument("sheet", metavar="SHEET", type=place)
@click.option("--out", type=file, metavar="FILE", help="New file: write it as a PDF too.")
@click.option("--json", "as_json", is_flag=True, help="Print the plan as JSON.")
@click.pass_obj
def plan(setting: Setting, sheet: Path, out: Path | None, *, as_json: bool) -> int:
    """Say from SHEET how wet, how long, with what, and at what cost. Exit 0, or 1 with problems."""
    if out is not None:
        demand_new(out)
    found = read_sheet(content_of(sheet), setting.clock().date())
    if isinstance(found, tuple):
        for problem in found:
            click.echo(f"{sheet}:{problem}")
        return PROBLEMS
    made = plan_of(found)
    click.echo(_as_json(made) if as_json else _in_words(made))
    if out is not None:
        from fieldapp.record.plan_pdf import plan_pdf

        write_new(out, plan_pdf(made, setting.clock()))
        click.echo(str(out), err=as_json)
    return 0


def _as_json(made: Plan) -> str:
    return json.dumps(asdict(made), indent=2, ensure_ascii=False)


def _in_words(made: Plan) -> str:
    answers = "\n\n".join(_answer(answer) for answer in made.answers)
    return f"{heading(made)}\n{_lines(PERMITS_NOTHING, '')}\n\n{answers}"


def _answer(answer: Answer) -> str:
    lines = [_lines(answer.sentence, "  ")] if answer.sentence else []
    lines += [f"  {refusal}" for refusal in answer.refusals]
    for figure in answer.figures:
        lines.append(_lines(f"- {figure_words(figure)}", "  ", "    "))
        if figure.source:
            lines.append(_lines(figure.source, "      "))
    lines += ["  Put in:"] * bool(answer.inputs)
    for put in answer.inputs:
        lines.append(_lines(f"- {figure_words(put)} ({put.source})", "  ", "    "))
    lines += [_lines(note, "  ") for note in answer.notes]
    return "\n".join((answer.question, *lines))


def _lines(words: str, indent: str, further: str | None = None) -> str:
    return textwrap.fill(
        words, width(WIDE), initial_indent=indent, subsequent_indent=further or indent
    )
