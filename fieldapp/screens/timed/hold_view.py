"""What the screen of a hold shows: the clock, the reading that is due, and the verdict so far.

Touches it passes on are those of a trace (see `trace_view`): "start", "ask", "typed", "reading",
"end", "correct reading", "go".
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from fieldapp.checklist.model import Column, Entry
from fieldapp.job.job import Job
from fieldapp.job.state import Attempt
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.judgement.verdict import Place, in_unit, limit_sentence, range_of
from fieldapp.judgement.words import people_unit
from fieldapp.screens.body_view import VerdictView
from fieldapp.screens.entry.entry_plates import verdict_view
from fieldapp.screens.frame_view import Desktop, FrameView, PlateView
from fieldapp.screens.kit.chart.chart_view import ChartData
from fieldapp.screens.kit.diagram.diagram_view import Diagram
from fieldapp.screens.timed.hold_plates import hold_frame, late
from fieldapp.screens.timed.hold_rise import (
    LeakTest,
    column_chart,
    leak_test_of,
    rise_chart,
    rises,
    shape_words,
)
from fieldapp.screens.timed.trace_asked import Timed, as_it_runs, asked_column, asked_note
from fieldapp.screens.timed.trace_note_view import NoteView
from fieldapp.screens.timed.trace_pad_view import PadView
from fieldapp.screens.timed.trace_times import clock, planned
from fieldapp.units import rounded, written


@dataclass(frozen=True, slots=True)
class HoldRow:
    """One row of the readings: its minute, when it was or is due, and its figures."""

    minute: str
    at: str
    figures: tuple[str, ...]
    now: bool = False


@dataclass(frozen=True, slots=True)
class HoldView:
    """One hold; of pad and note the one that is there fills the sheet."""

    frame: FrameView
    task: str
    text: str
    signal_word: str
    caution: str
    clock: str
    of: str
    share: float
    due: str
    late: bool
    columns: tuple[str, ...]
    rows: tuple[HoldRow, ...]
    plates: tuple[PlateView, ...]
    verdict: VerdictView
    row: tuple[tuple[str, str], ...]
    chart: ChartData | None = None
    diagram: Diagram | None = None
    pad: PadView | None = None
    note: NoteView | None = None


def hold_view(
    job: Job, evaluation: Evaluation, entry: Entry, now: datetime, desktop: Desktop, *,
    part: str = "", typed: Mapping[str, str] | None = None, diagram: Diagram | None = None,
) -> HoldView:  # fmt: skip
    """Return what is shown of a hold; `typed` is what stands typed by column."""
    timed = Timed(job, evaluation, entry, job.state.attempt(entry.id), now, part, typed or {})
    test = leak_test_of(job, evaluation.values, entry)
    whole = (entry.times[-1] - entry.times[0]) * 60
    gone, caution = _gone(timed), timed.step.caution
    return HoldView(
        frame=hold_frame(timed, desktop, gone, whole),
        task=entry.label,
        text=timed.step.text,
        signal_word=caution.word if caution else "",
        caution=caution.text if caution else "",
        clock=clock(min(gone, whole) if not timed.runs else gone),
        of=f"of {clock(whole)}",
        share=min(1.0, gone / whole) if whole else 0.0,
        due=_due(timed),
        late=late(timed),
        columns=tuple(column.label for column in entry.columns),
        rows=_rows(timed),
        plates=_plates(timed),
        verdict=_verdict(timed, test, gone, whole),
        row=tuple((c.id, timed.typed.get(c.id, "")) for c in entry.columns),
        chart=_chart(timed, test),
        diagram=as_it_runs(diagram, timed),
        pad=asked_column(timed),
        note=asked_note(timed),
    )


def _gone(timed: Timed) -> float:
    """Return the seconds since the first reading, or since the start where nothing is read."""
    attempt = timed.attempt
    if attempt is None or (timed.entry.columns and not attempt.readings):
        return 0.0
    begin = attempt.readings[0].taken if attempt.readings else attempt.started
    end = attempt.ended or timed.now
    if attempt.ended and attempt.readings:
        end = attempt.readings[-1].taken
    return max(0.0, (end - begin).total_seconds())


def _due(timed: Timed) -> str:
    if not timed.runs:
        return ""
    if not timed.entry.columns:
        return _next_look(timed)
    due = timed.due
    return f"Reading {due.number} of {len(timed.entry.times)}: {due.words}" if due else ""


def _next_look(timed: Timed) -> str:
    """Return when to look next during a plain wait."""
    assert timed.attempt is not None  # noqa: S101 - it runs
    begin, times = timed.attempt.started, timed.entry.times
    for minute in times[1:]:
        at = begin + timedelta(minutes=minute - times[0])
        if at > timed.now:
            what = "Look again" if minute != times[-1] else "Over"
            return f"{what} at {at:%H:%M}, in {clock((at - timed.now).total_seconds())}"
    return "The time is over."


def _rows(timed: Timed) -> tuple[HoldRow, ...]:
    attempt, entry = timed.attempt, timed.entry
    readings = attempt.readings if attempt else ()
    rows = []
    for place, minute in enumerate(entry.times):
        if place < len(readings):
            reading = readings[place]
            figures = tuple(reading.fields.get(column.id, "") for column in entry.columns)
            rows.append(HoldRow(planned(minute), f"{reading.taken:%H:%M:%S}", figures))
            continue
        now = timed.runs and place == len(readings)
        at = _planned(attempt, entry, minute)
        typed = tuple(timed.typed.get(column.id, "") for column in entry.columns)
        rows.append(HoldRow(planned(minute), at, typed if now else ("",) * len(typed), now))
    return tuple(rows)


def _planned(attempt: Attempt | None, entry: Entry, minute: int) -> str:
    if attempt is None or attempt.ended is not None:
        return ""
    begin = attempt.readings[0].taken if attempt.readings else attempt.started
    return f"{begin + timedelta(minutes=minute - entry.times[0]):%H:%M:%S}"


def _plates(timed: Timed) -> tuple[PlateView, ...]:
    """Return the plates of the columns while a reading is to be taken."""
    if not timed.runs or timed.due is None:
        return ()
    return tuple(
        PlateView("ask column", timed.typed.get(column.id) or column.label,
                  _under(column, timed), "held" if timed.typed.get(column.id) else "plain",
                  (column.id,))
        for column in timed.entry.columns
    )  # fmt: skip


def _under(column: Column, timed: Timed) -> str:
    unit = people_unit(column.measure.unit).strip()
    return f"{column.label}, {unit}" if timed.typed.get(column.id) else f"type it, {unit}"


def _chart(timed: Timed, test: LeakTest | None) -> ChartData | None:
    attempts, entry = timed.job.state.attempts.get(timed.entry.id, ()), timed.entry
    if test is not None and test.allowed_rise is not None:
        return rise_chart(attempts, test, entry)
    if not entry.columns:
        return None
    column = entry.columns[0]
    limits = range_of(column.measure, timed.evaluation.values.numbers)
    limit = limits.high if limits.high is not None else limits.low
    words = limit_sentence(limits, column.measure).rstrip(".") if limit is not None else ""
    return column_chart(attempts, column, entry, limit, words[:1].lower() + words[1:])


def _verdict(timed: Timed, test: LeakTest | None, gone: float, whole: float) -> VerdictView:
    entry, attempt = timed.entry, timed.attempt
    if attempt is None:
        many = f"{len(entry.times)} readings in" if entry.columns else "A wait of"
        return VerdictView("todo", f"{many} {clock(whole)}.", "The first is taken at the start.")
    if test is not None and attempt.readings:
        return _leak_verdict(timed, test, attempt)
    standing = timed.evaluation.steps[timed.step.id].verdicts[entry.id]
    if standing.place is not Place.MISSING:
        return verdict_view(standing, kept=not timed.runs)
    if not entry.columns:
        over = gone >= whole
        return VerdictView("proven" if over else "notyet", "Waited long enough." if over else (
            f"Not yet: {clock(whole - gone)} to go."))  # fmt: skip
    return VerdictView("notyet", standing.sentence)


def _leak_verdict(timed: Timed, test: LeakTest, attempt: Attempt) -> VerdictView:
    values, computed = timed.evaluation.values, test.computed
    points = rises(attempt, test)
    if not points:
        return VerdictView("notyet", "These readings give no pressure.", "Look at the last one.")
    working = values.workings.get(computed.id)
    rise = f"{written(rounded(points[-1][1], 2))}{people_unit(test.pressure.measure.unit)}"
    if working is None or working.value is None:
        words = f"Rise {rise} in {round(points[-1][0])} min, corrected."
        return VerdictView("notyet", words, "The leak rate can be told after 20 min.")
    number, _ = in_unit(working.value, computed.unit)
    rate = f"{written(rounded(number, computed.decimals))}{people_unit(computed.unit)}"
    verdict = timed.evaluation.steps[timed.step.id].verdicts[computed.id]
    volume = next(value.si for name, _, value in working.inputs if name == "volume")
    shape = shape_words(attempt, test, volume, timed.job.sheet)
    then = "" if verdict.place.good else "Stop, find the leak. "
    shown = verdict_view(verdict)
    return VerdictView(shown.mark, f"Leak rate {rate}. {verdict.sentence}", then + shape)
