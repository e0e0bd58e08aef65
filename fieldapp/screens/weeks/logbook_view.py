"""What the logbook shows: three answers, the water over the days, and the ledger line by line."""

from dataclasses import dataclass
from datetime import datetime
from math import ceil

from fieldapp.logbook.course import Course
from fieldapp.logbook.shapes import Line, Logbook
from fieldapp.logbook.wording import (
    due_words,
    enough_words,
    figure,
    line_words,
    range_words,
)
from fieldapp.screens.frame_view import FrameView, PhaseView, PlateView
from fieldapp.screens.kit.chart.chart_view import ChartData

HEADS = ("day", "date", "list", "L", "in", "out", "°C", "kg", "kg in all")
BEGIN = PlateView("follow", "Begin", "a checklist", "main")
ROUTE = (
    ("Hookup", ("hookup",)),
    ("Drying", ("visit", "cartridge_change", "alarm_response")),
    ("Rest test", ("rest_test",)),
    ("Disconnect", ("disconnection",)),
)
_DRY_WORDS = {
    "not known": "not known", "resting": "resting", "to decide": "to decide", "dry": "dry enough",
    "not dry": "not dry yet",
}  # fmt: skip
LEAST_DAYS, LEAST_WATER = 7.0, 1.0
MOST_TICKS = 5


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer in large letters, and what it is of."""

    large: str
    under: str


@dataclass(frozen=True, slots=True)
class LogbookView:
    """The logbook of a course; `rows` are the ledger's columns, the newest first."""

    frame: FrameView
    answers: tuple[Answer, ...]
    sentences: tuple[str, ...]
    chart: ChartData | None
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    start: int


def logbook_view(
    book: Logbook, course: Course, now: datetime, start: int, told: tuple[str, bool]
) -> LogbookView:
    """Return the logbook of a course."""
    words, stopped = told
    plates = (
        PlateView("back", "Back"),
        PlateView("safe", "Stop and make safe", kind="warning"),
        PlateView("course here", "Checklists", "of this hookup"),
        *((BEGIN,) if course.hookup else ()),
    )
    return LogbookView(
        frame=FrameView(
            unit=book.unit, site=book.site, phases=_route(course), clock=f"{now:%H:%M}",
            plates=plates, refused=words, not_saved=words if stopped else "",
        ),
        answers=_answers(book, now),
        sentences=_sentences(book, now),
        chart=_chart(book) if len(book.lines) > 1 else None,
        heads=HEADS,
        rows=tuple(_columns(line) for line in reversed(book.lines)),
        start=start,
    )  # fmt: skip


def _columns(line: Line) -> tuple[str, ...]:
    """Return the columns of a line, the date without the hour and the list in short."""
    day, _, title, *figures = line_words(line)
    return (day, f"{line.at:%d %b}", title.partition(",")[0], *figures)


def _answers(book: Logbook, now: datetime) -> tuple[Answer, ...]:
    at_least = "at least " if book.at_least else ""
    out = Answer(f"{at_least}{figure(book.removed.water, 1)} kg",
                 f"water out so far ({range_words(book.removed)})")  # fmt: skip
    due = book.due
    if due.latest is None:
        coming = Answer("–", due.what or "nothing is due")
    elif due.late(now):
        coming = Answer(f"{due.latest:%d %b}", f"{due.what}: late")
    elif due.earliest is not None:
        coming = Answer(f"{due.earliest:%d %b} to {due.latest:%d %b}", due.what)
    else:
        coming = Answer(f"{due.latest:%d %b}", f"next: {due.what}, {due.latest:%H:%M}")
    dry = Answer(_DRY_WORDS[book.dryness.state], "whether the paper is dry")
    return (out, coming, dry)


def _sentences(book: Logbook, now: datetime) -> tuple[str, ...]:
    """Return what matters most in sentences: due, dry, how much is enough, the cartridges."""
    enough = enough_words(book.enough)
    last = [weighing.sentence for weighing in book.weighings[-1:]]
    notes = [f"{line.title}, {line.at:%d %b}: {note}." for line in book.lines[-2:]
             for note in line.notes]  # fmt: skip
    words = (due_words(book.due, now), book.dryness.sentence, f"To come out: {enough}.",
             f"Cartridges: {book.change}" if book.change else "", *last, *notes)  # fmt: skip
    return tuple(word for word in words if word)


def _route(course: Course) -> tuple[PhaseView, ...]:
    """Return how far a course has come: what was begun last is now."""
    begun = {job.checklist.id for job in course.jobs}
    reached = [at for at, (_, ids) in enumerate(ROUTE) if begun.intersection(ids)]
    last = max(reached, default=0)
    return tuple(
        PhaseView(name, "now" if at == last else "done" if at < last else "todo")
        for at, (name, _) in enumerate(ROUTE)
    )


def _chart(book: Logbook) -> ChartData:
    points = tuple((line.day, line.total.water) for line in book.lines)
    enough = book.enough.likely
    days = max(LEAST_DAYS, points[-1][0]) * 1.1
    highest = 1.2 * max(LEAST_WATER, book.removed.high, enough or 0.0)
    step = _tick(highest, (0.5, 1, 2, 5, 10, 20, 50, 100, 500))
    weeks = int(_tick(days, (1, 2, 5, 7, 14, 28, 56, 112, 364)))
    return ChartData(
        time_span=(0.0, days),
        value_span=(0.0, highest),
        time_ticks=tuple(
            (float(day), f"day {day}" if day else "0") for day in range(0, int(days) + 1, weeks)
        ),
        value_ticks=tuple((step * at, f"{step * at:g}") for at in range(int(highest / step) + 1)),
        points=points,
        fit=points,
        target=enough,
        target_words=f"to come out: {enough:.0f} kg" if enough else "",
        target_label=f"{enough:.0f}" if enough else "",
        value_text=f"{points[-1][1]:.1f}",
        unit="kg",
        value_beside=f"{range_words(book.removed)} kg",
    )


def _tick(highest: float, steps: tuple[float, ...]) -> float:
    """Return the smallest step that needs at most five ticks; a typing slip may need a larger."""
    return next(
        (step for step in steps if highest / step <= MOST_TICKS), ceil(highest / MOST_TICKS)
    )
