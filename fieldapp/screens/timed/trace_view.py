"""What the screen of a trace shows: the curve so far and where it ends, or a table of readings.

Touches it passes on, besides those of the frame:
    "start"                                a new attempt
    "ask", part                            what is asked for next, kept as the place's part:
                                           "" nothing, a column (and the moment it was read),
                                           "end", "correct SEQUENCE COLUMN", "why SEQUENCE COLUMN"
    "typed", text, column                  what stands typed in a column
    "reading", {column: text} [, moment]   one reading; without a moment it is taken now
    "end", note                            the attempt ends
    "correct reading", sequence, {column: text}, reason
    "go", step
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime

from fieldapp.checklist.model import Column, Entry
from fieldapp.job.job import Job
from fieldapp.job.state import Attempt
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.judgement.words import people_unit
from fieldapp.screens.body_view import VerdictView
from fieldapp.screens.frame_view import Desktop, FrameView
from fieldapp.screens.kit.chart.chart_view import ChartData
from fieldapp.screens.kit.chart.two_touch_keys import ReadingKeys
from fieldapp.screens.kit.diagram.diagram_view import Diagram
from fieldapp.screens.timed.trace_asked import Timed, as_it_runs, asked_column, asked_note
from fieldapp.screens.timed.trace_chart import pull_chart, reading_keys, whole_minutes
from fieldapp.screens.timed.trace_note_view import NoteView
from fieldapp.screens.timed.trace_pad_view import PadView
from fieldapp.screens.timed.trace_plates import trace_frame
from fieldapp.screens.timed.trace_pull import Aim, Course, aim_of, course_of, is_pull
from fieldapp.screens.timed.trace_table_view import TableView, table_view
from fieldapp.screens.timed.trace_words import pull_verdict, target_words


@dataclass(frozen=True, slots=True)
class PullView:
    """The chart and the keys of a pull; without keys nothing runs and `tries` are told."""

    chart: ChartData
    keys: ReadingKeys | None
    column: str
    unit: str
    target: str
    tries: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TraceView:
    """One trace; of pull, table, pad and note the last that is there fills the sheet."""

    frame: FrameView
    task: str
    due: str
    late: bool
    text: str
    signal_word: str
    caution: str
    verdict: VerdictView
    diagram: Diagram | None = None
    pull: PullView | None = None
    table: TableView | None = None
    pad: PadView | None = None
    note: NoteView | None = None


def trace_view(
    job: Job, evaluation: Evaluation, entry: Entry, now: datetime, desktop: Desktop, *,
    part: str = "", typed: Mapping[str, str] | None = None, diagram: Diagram | None = None,
) -> TraceView:  # fmt: skip
    """Return what is shown of a trace; `typed` is what stands typed by column."""
    timed = Timed(job, evaluation, entry, job.state.attempt(entry.id), now, part, typed or {})
    taken = timed.instrument(entry.columns[0]) if entry.columns else ""
    aim = aim_of(job, evaluation.values, entry, taken)
    table = None
    if not is_pull(entry) and timed.attempt is not None:
        table = table_view(entry, timed.attempt, dict(timed.typed), timed.due_words)
    verdict = _verdict(timed, aim)
    caution, due = timed.step.caution, timed.due
    return TraceView(
        frame=trace_frame(timed, desktop, verdict, table),
        task=_task(timed),
        due=timed.due_words,
        late=due is not None and due.seconds <= 0,
        text=timed.step.text,
        signal_word=caution.word if caution else "",
        caution=caution.text if caution else "",
        verdict=verdict,
        diagram=as_it_runs(diagram, timed) if timed.step.part else None,
        pull=_pull(timed, aim) if is_pull(entry) else None,
        table=table,
        pad=asked_column(timed),
        note=asked_note(timed),
    )


def _pull(timed: Timed, aim: Aim) -> PullView:
    column, attempts = timed.entry.columns[0], timed.job.state.attempts.get(timed.entry.id, ())
    course = course_of(attempts[-1], column, aim) if attempts else Course()
    keys = None
    if timed.due is not None and timed.attempt is not None:
        keys = reading_keys(course, timed.attempt, column, aim, timed.due)
    return PullView(
        chart=pull_chart(course, attempts, column, aim, timed.now),
        keys=keys,
        column=column.id,
        unit=people_unit(column.measure.unit).strip(),
        target=target_words(column, aim),
        tries=tuple(_try(n, a, column) for n, a in enumerate(attempts, 1) if a.ended),
    )


def _try(number: int, attempt: Attempt, column: Column) -> str:
    last = attempt.readings[-1].fields[column.id] if attempt.readings else "nothing read"
    unit = people_unit(column.measure.unit) if attempt.readings else ""
    note = f" “{attempt.note}”" if attempt.note else ""
    ended = f"{attempt.ended:%H:%M}" if attempt.ended else ""
    count = len(attempt.readings)
    words = f"Try {number}, {attempt.started:%H:%M} to {ended}"
    return f"{words}: {count} readings, down to {last}{unit}.{note}"


def _task(timed: Timed) -> str:
    if timed.runs and is_pull(timed.entry):
        column = timed.entry.columns[0]
        used = timed.job.sheet.instrument(timed.instrument(column))
        name = used.name.partition(",")[0].lower() if used else column.label.lower()
        return f"Read the {name}"
    return timed.entry.label


def _verdict(timed: Timed, aim: Aim) -> VerdictView:
    attempt = timed.attempt
    if attempt is None:
        often = whole_minutes(timed.entry)
        first = "Open the valve to the pump, then start." if is_pull(timed.entry) else "Start."
        count = timed.entry.readings
        return VerdictView("todo", first, f"A reading every {often}, {count} or more.")
    if not is_pull(timed.entry):
        return VerdictView("", f"{len(attempt.readings)} of {timed.entry.readings} rows kept.")
    column = timed.entry.columns[0]
    verdict = pull_verdict(course_of(attempt, column, aim), attempt, column, aim, timed.now)
    if verdict.mark == "proven":
        return replace(verdict, second=_after_reached(timed, attempt))
    return verdict if attempt.ended is None or verdict.mark == "failed" else _ended_short(verdict)


def _ended_short(verdict: VerdictView) -> VerdictView:
    return VerdictView("failed", verdict.sentence.replace("Not yet", "Ended short"), "")


def _after_reached(timed: Timed, attempt: Attempt) -> str:
    short = timed.entry.readings - len(attempt.readings)
    if short > 0:
        return f"Take {short} more readings."
    return "End it, then enter the pressure reached." if timed.runs else "Enter what was reached."
