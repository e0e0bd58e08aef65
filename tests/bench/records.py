"""A long record beside the least that drawing its texts takes, and beside one half as long."""

from dataclasses import replace
from io import BytesIO
from pathlib import Path

from reportlab.pdfgen.canvas import Canvas

from fieldapp.demo.player import play
from fieldapp.record.chapters.shapes.shapes import PhaseRows, Row, StepRows
from fieldapp.record.chapters.shapes.shapes_of_sources import Content
from fieldapp.record.content import content_of, json_of
from fieldapp.record.pages.kit.lettering import REGULAR, printable, use_fonts
from fieldapp.record.rendering import rebuilt
from tests.bench.alternation import in_turn
from tests.bench.row import Row as Line
from tests.bench.row import spread_of

ROWS_FOR_EACH = 6.5  # 13,000 for the usual 2,000 times: about 330 pages
ON_A_PAGE, HIGH = 40, 18.0
TIMES = 5


def long_record(folder: Path, times: int) -> Line:
    """The signable PDF of a record of many rows, and their texts by ReportLab's canvas alone."""
    content = _long(_demo(folder), round(times * ROWS_FOR_EACH))
    data, rows = json_of(content), _rows(content)
    of_ours, of_outside = in_turn(lambda _: rebuilt(data), lambda _: _floor(rows), TIMES)
    return Line(
        name=f"a record of {len(rows):,} rows, tagged, its data attached",
        outside_name="the texts of its rows, ReportLab’s canvas alone",
        ours=spread_of(of_ours),
        outside=spread_of(of_outside),
        count=TIMES,
    )


def twice_as_long_record(folder: Path, times: int) -> Line:
    """A record of twice as many rows beside the record: twice the time, if it grows evenly."""
    demo, rows = _demo(folder), round(times * ROWS_FOR_EACH)
    one, two = json_of(_long(demo, rows)), json_of(_long(demo, 2 * rows))
    of_ours, of_outside = in_turn(lambda _: rebuilt(two), lambda _: rebuilt(one), TIMES)
    return Line(
        name=f"a record of {2 * rows:,} rows",
        outside_name=f"one of {rows:,}",
        ours=spread_of(of_ours),
        outside=spread_of(of_outside),
        count=TIMES,
    )


def _demo(folder: Path) -> Content:
    jobs = play(folder, lambda _: None)
    kept = jobs.open(jobs.numbers()[0])
    head = (kept.head.sequence, kept.head.hash)
    content = content_of(kept.job, kept.job.state.log[-1].at, head=head, version="0.0.0")
    jobs.close()
    return content


def _long(content: Content, rows: int) -> Content:
    """Return a record whose phases come again until there are so many rows, every value new."""
    phases: list[PhaseRows] = []
    left = rows
    while left > 0:
        for phase in content.phases:
            steps = [_part(step, left) for step in phase.steps]
            phases.append(replace(phase, steps=tuple(steps)))
            left -= sum(len(step.rows) for step in steps)
            if left <= 0:
                break
    return replace(content, phases=tuple(phases))


def _part(step: StepRows, number: int) -> StepRows:
    numbered = [
        replace(row, value=f"{number + place}.{place}") if row.kind == "number" else row
        for place, row in enumerate(step.rows)
    ]
    return replace(step, rows=tuple(numbered))


def _rows(content: Content) -> list[Row]:
    return [row for phase in content.phases for step in phase.steps for row in step.rows]


def _floor(rows: list[Row]) -> bytes:
    use_fonts()
    written = BytesIO()
    canvas = Canvas(written, invariant=1, initialFontName=REGULAR, pageCompression=1)
    for number, row in enumerate(rows):
        if number and number % ON_A_PAGE == 0:
            canvas.showPage()
        canvas.setFont(REGULAR, 7.8)
        texts = (row.at, row.label, row.value, row.unit, row.judgement.limits,
                 row.judgement.words, row.by)  # fmt: skip
        for place, words in enumerate(texts):
            y = 800 - HIGH * (number % ON_A_PAGE)
            canvas.drawString(40 + 70 * place, y, printable(words))
    canvas.save()
    return written.getvalue()
