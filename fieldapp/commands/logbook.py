"""`fieldapp logbook`: the weeks after a hookup, line by line, in words or as JSON."""

import json
from dataclasses import asdict
from datetime import datetime
from textwrap import fill

import click

from fieldapp.commands.setting import Setting
from fieldapp.commands.width import width
from fieldapp.job.job import Job
from fieldapp.journal.jobs import Jobs, NoSuchJobError
from fieldapp.logbook.book import logbook_of
from fieldapp.logbook.course import courses_of
from fieldapp.logbook.shapes import Draw, Logbook
from fieldapp.logbook.wording import (
    REST_TELLS,
    due_words,
    enough_words,
    figure,
    line_words,
    removed_words,
)

HEADS = ("day", "date", "list", "L", "in mg/kg", "out", "oil °C", "kg since", "kg in all")
WIDTHS = (5, 12, 23, 8, 8, 5, 6, 8, 9)
WIDE = 96


@click.command(short_help="Say what the weeks after a hookup add up to.")
@click.argument("number", metavar="JOB")
@click.option("--json", "as_json", is_flag=True, help="Print the logbook as JSON.")
@click.pass_obj
def logbook(setting: Setting, number: str, *, as_json: bool) -> int:
    """Add up the visits after hookup JOB: water removed, when to come back, whether it is dry.

    JOB is the number of the hookup, or of a list that follows it.
    """
    jobs = Jobs(setting.home, setting.clock)
    try:
        book = logbook_of(next(c for c in courses_of(_course_jobs(jobs, number))))
    finally:
        jobs.close()
    click.echo(_as_json(book) if as_json else _in_words(book, setting.clock()))
    return 0


def _course_jobs(jobs: Jobs, number: str) -> list[Job]:
    """Return the hookup and what follows it; jobs of other hookups stay shut."""
    known = jobs.numbers()
    if number not in known:
        raise NoSuchJobError(number, jobs.home)
    hookup = jobs.open(number).job.follows or number
    beside = [each for each in known if each == hookup or each.startswith(f"{hookup}.")]
    found = [jobs.open(each).job for each in beside]
    return [job for job in found if (job.follows or job.number) == hookup]


def _as_json(book: Logbook) -> str:
    return json.dumps(asdict(book), indent=2, ensure_ascii=False, default=_moment)


def _moment(value: object) -> str:
    assert isinstance(value, datetime)  # noqa: S101 - nothing else in it is not plain
    return value.isoformat()


def _in_words(book: Logbook, now: datetime) -> str:
    """Return the answers first, then the ledger, the scale, the rest test, and the notes."""
    return "\n".join((
        f"Logbook of {book.number}: {book.unit}, {book.site}",
        "",
        _line("Water removed", removed_words(book)),
        _line("To come out", enough_words(book.enough)),
        _line("Next", due_words(book.due, now)),
        *((_line("Cartridges", book.change),) if book.change else ()),
        _line("Dry?", book.dryness.sentence),
        "",
        _row(HEADS),
        *(_row(line_words(line)) for line in book.lines),
        *_notes(book),
    ))  # fmt: skip


def _notes(book: Logbook) -> tuple[str, ...]:
    notes = [f"{line.number}: {note}." for line in book.lines for note in line.notes]
    notes += [f"{line.number} is not signed off." for line in book.lines if not line.signed]
    notes += [f"{weighing.number}: {weighing.sentence}" for weighing in book.weighings]
    notes += [_draw(draw) for draw in book.dryness.draws]
    notes += [f"{note}." for note in book.notes]
    return (
        "",
        *(fill(f"- {note}", width(WIDE), subsequent_indent="  ") for note in (*notes, REST_TELLS)),
    )


def _draw(draw: Draw) -> str:
    words = f"Rest, {draw.name}: {figure(draw.water, 1)} mg/kg at {figure(draw.oil, 1)} °C"
    if draw.paper is not None:
        words += f", paper {figure(draw.paper, 2)} and {figure(draw.second, 2)} %"
    return f"{words}; {'; '.join(draw.obstacles)}." if draw.obstacles else f"{words}."


def _line(label: str, words: str) -> str:
    return fill(f"{label:<15}{words}", width(WIDE), subsequent_indent=" " * 15)


def _row(columns: tuple[str, ...]) -> str:
    pairs = zip(columns, WIDTHS, strict=True)
    texts = (f"{c:<{w}}" if at in (1, 2) else f"{c:>{w}}" for at, (c, w) in enumerate(pairs))
    return "  ".join(texts).rstrip()
