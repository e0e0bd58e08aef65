"""What the screens show of an instrument: the one in hand, and the others that could be taken."""

from collections.abc import Iterator
from datetime import date, datetime

from fieldapp.checklist.model import Checklist, Entry, Measure
from fieldapp.job.events import Entered, Read
from fieldapp.job.job import Job
from fieldapp.job.sheet import Instrument
from fieldapp.judgement.numbers import range_words
from fieldapp.judgement.words import people_unit
from fieldapp.screens.body_view import InstrumentView
from fieldapp.screens.frame_view import FrameView, PlateView
from fieldapp.screens.row_view import ListView, RowView
from fieldapp.units import unit_named, written

_MONTHS_FROM = 60
"""Days from which what is left is said in months."""


def others_for(job: Job, measure: Measure | None) -> tuple[Instrument, ...]:
    """Return the instruments of the job sheet that read what a measure asks for."""
    if measure is None or not measure.instrument:
        return ()
    asked = unit_named(measure.unit).quantity
    return tuple(i for i in job.sheet.instruments if unit_named(i.unit).quantity == asked)


def last_used(job: Job, wanted: str, entry: Entry) -> str:
    """Return the instrument that last stood for `wanted` in the phase of an entry.

    One is chosen once a phase; it is still in hand when the app has been started again.
    """
    phase = next(p for p in job.checklist.phases
                 if any(entry in step.entries for step in p.steps))  # fmt: skip
    here = {other.id for step in phase.steps for other in step.entries}
    for event in reversed(job.state.log):
        if isinstance(event.what, Entered | Read) and event.what.entry in here:
            for named, used in _uses(job.checklist, event.what):
                if named == wanted and job.sheet.instrument(used):
                    return used
    return wanted


def _uses(checklist: Checklist, what: Entered | Read) -> Iterator[tuple[str, str]]:
    entry = checklist.entry(what.entry)
    if entry.measure and what.instrument:
        yield entry.measure.instrument, what.instrument
    for column in entry.columns:
        used = what.fields.get(f"{column.id}_instrument", "") or what.instrument
        if used and column.measure.instrument:
            yield column.measure.instrument, used


def instrument_view(
    instrument: Instrument, now: datetime, *, others: bool = False
) -> InstrumentView:  # fmt: skip
    """Return the instrument's block: name, accuracy (k = 2), calibration and time left.

    With `others` that could be taken instead, it answers to a touch.
    """
    calibrated = f"calibrated {instrument.calibrated.day} {instrument.calibrated:%b %Y}"
    name, short = instrument.name, instrument.name.split(",")[0]
    names = (f"{name}, {instrument.serial}", name, f"{short}, {instrument.serial}", short,
             instrument.serial)  # fmt: skip
    return InstrumentView(
        names, accuracy_words(instrument), f"{calibrated}, {due_words(instrument, now.date())}",
        instrument.overdue(now.date()), others,
    )  # fmt: skip


def accuracy_words(instrument: Instrument) -> str:
    """Return by how much an instrument may be off."""
    parts = []
    if instrument.of_reading:
        parts.append(f"{written(instrument.of_reading)} %")
    if instrument.of_span and instrument.span:
        parts.append(f"{written(instrument.of_span)} % of {written(instrument.span.number)}")
    if instrument.accuracy:
        unit = people_unit(instrument.accuracy.unit.name)
        parts.append(f"{written(instrument.accuracy.number)}{unit}")
    return f"± ({' + '.join(parts)})" if len(parts) > 1 else f"± {parts[0]}" if parts else ""


def due_words(instrument: Instrument, today: date) -> str:
    """Return how long the calibration still holds, or since when it does not."""
    days = (instrument.due - today).days
    if instrument.overdue(today):
        return f"overdue by {-days} days"
    months = days // 30
    return f"in date {months} more months" if days >= _MONTHS_FROM else f"in date {days} more days"


def instruments_view(
    job: Job, measure: Measure, label: str, in_hand: str, now: datetime, start: int,
    frame: FrameView,
) -> ListView:  # fmt: skip
    """Return the instruments to choose from; the one in hand is marked."""
    rows = tuple(_row(one, now, here=one.id == in_hand) for one in others_for(job, measure))
    return ListView(
        title="Read with what?",
        under=(label, "Its accuracy is in the verdict."),
        rail=(PlateView("sheet", "Job sheet", "of this job"),),
        rows=rows,
        start=start,
        frame=frame,
    )


def _row(instrument: Instrument, now: datetime, *, here: bool) -> RowView:
    overdue = instrument.overdue(now.date())
    word = "in hand" if here else "overdue" if overdue else "ready"
    mark = "done" if here else "failed" if overdue else "todo"
    covered = range_words(instrument)
    second = f"{accuracy_words(instrument)}, {due_words(instrument, now.date())}"
    return RowView(
        "instrument", (instrument.id,), f"{instrument.name}, {instrument.serial}",
        f"{second}. Reads {covered}." if covered else f"{second}.", mark, word, here=here,
    )  # fmt: skip
