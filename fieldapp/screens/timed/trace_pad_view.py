"""What the keypad of a timed reading shows: one column, its earlier values, the verdict typed."""

from dataclasses import dataclass
from datetime import datetime

from fieldapp.checklist.model import Column, Entry
from fieldapp.job.job import Job
from fieldapp.job.state import Attempt, Reading
from fieldapp.judgement.values import Values
from fieldapp.judgement.verdict import judged, limit_sentence
from fieldapp.judgement.words import people_unit
from fieldapp.screens.body_view import AskingView, AttemptView, KeypadBody
from fieldapp.screens.draft import number_in, range_for
from fieldapp.screens.entry.entry_numbers import may_be_negative, ruler_of
from fieldapp.screens.entry.entry_plates import verdict_view
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.instruments_view import instrument_view, others_for
from fieldapp.units import is_unfinished

_MOST_EARLIER = 6


@dataclass(frozen=True, slots=True)
class PadView:
    """The keypad for one column: what is asked, at the left, and the keys, at the right."""

    column: str
    asking: AskingView
    body: KeypadBody


def pad_view(
    job: Job, values: Values, entry: Entry, column: Column, attempt: Attempt, typed: str,
    side: tuple[PlateView, ...], under: str, now: datetime, title: str = "", in_hand: str = "",
) -> PadView:  # fmt: skip
    """Return the keypad for a column of a timed entry; `in_hand` is the instrument taken."""
    wanted = in_hand or column.measure.instrument
    used = job.sheet.instrument(wanted) if wanted else None
    others = bool(in_hand) and len(others_for(job, column.measure)) > 1
    number = None if is_unfinished(typed) else number_in(typed)
    limits, uncertainty = range_for(column.measure, used, values, number)
    bounded = limits.low is not None or limits.high is not None or bool(limits.missing)
    verdict = None
    if number is not None and bounded:
        verdict = judged(number, column.measure, limits, entry.waive)
    return PadView(
        column=column.id,
        asking=AskingView(
            heading=entry.label,
            task=title or column.label,
            text=under,
            instrument=instrument_view(used, now, others=others) if used else None,
            earlier=earlier_of(column, attempt),
        ),
        body=KeypadBody(
            limit=limit_sentence(limits, column.measure),
            shown=typed,
            unit=people_unit(column.measure.unit).strip(),
            typed=typed,
            signed=may_be_negative(column.measure.unit),
            ruler=ruler_of(limits, column.measure, number, uncertainty) if bounded else None,
            verdict=verdict_view(verdict),
            side=side,
        ),
    )


def earlier_of(column: Column, attempt: Attempt) -> tuple[AttemptView, ...]:
    """Return what was read before in a column, the last few, oldest first."""
    unit = people_unit(column.measure.unit)
    return tuple(
        AttemptView("done", f"{reading.taken:%H:%M:%S}  {reading.fields[column.id]}{unit}")
        for reading in attempt.readings[-_MOST_EARLIER:]
        if column.id in reading.fields
    )


def whole(text: str) -> bool:
    """Say whether what is typed is a number that can be kept."""
    return number_in(text) is not None and not is_unfinished(text)


def slip_plate(attempt: Attempt, column: Column) -> PlateView:
    """Return the plate that corrects the last reading of a column."""
    if not attempt.readings:
        return PlateView("ask back", "not now", details=("",))
    last = attempt.readings[-1]
    return PlateView("ask correct", "last one was a slip", "correct it",
                     details=(f"correct {last.sequence} {column.id}",))  # fmt: skip


def reading_of(attempt: Attempt, sequence: int) -> Reading:
    """Return the reading of an attempt with that number."""
    return next(reading for reading in attempt.readings if reading.sequence == sequence)


def moment_in(part: str) -> datetime | None:
    """Return the moment that is named behind a column, if there is one.

    >>> moment_in("pressure 2026-06-16T12:36:31+02:00").minute
    36
    """
    _, _, moment = part.partition(" ")
    return datetime.fromisoformat(moment) if moment else None
