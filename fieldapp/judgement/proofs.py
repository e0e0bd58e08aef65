"""Judging what takes time: a shutdown proven, a trace read, a hold waited for."""

from dataclasses import replace

from fieldapp.checklist.model import Column, Entry, Kind, Limits, Measure
from fieldapp.job.job import Job
from fieldapp.job.moments import span
from fieldapp.job.state import Attempt, Given, Reading
from fieldapp.judgement.numbers import judged_number
from fieldapp.judgement.values import Values, used_for
from fieldapp.judgement.verdict import DONE, ORDER, Place, Verdict, judged, range_of
from fieldapp.units import parse_number


def alarm_verdict(entry: Entry, given: Given, job: Job, values: Values) -> Verdict:
    """Return whether a shutdown was proven: tripped, all seen, in time, at its set point."""
    fields = given.fields
    if fields["tripped"] != "yes":
        return Verdict(Place.OUTSIDE, "Failed: no trip.", waive=entry.waive)
    for place, check in enumerate(entry.checks):
        if fields.get(f"seen_{place}") != "yes":
            return Verdict(Place.OUTSIDE, f"Failed: not seen: {check}.", waive=entry.waive)
    verdicts = []
    if entry.closed_within is not None:
        closing = Measure("s", 1, Limits(high=entry.closed_within))
        verdicts.append(_closing(closing, given, entry, values))
    if entry.measure is not None:
        verdicts.append(judged_number(entry.measure, entry.waive, given, "value", job, values))
    if not verdicts:
        return Verdict(Place.INSIDE, "Proven.", waive=entry.waive)
    worst = min(verdicts, key=lambda verdict: ORDER.index(verdict.place))
    if worst.place.good:
        return Verdict(Place.INSIDE, f"Proven. {worst.sentence}", worst.range, entry.waive,
                       worst.margin)  # fmt: skip
    return Verdict(worst.place, f"Failed. {worst.sentence}", worst.range, entry.waive,
                   worst.margin)  # fmt: skip


def _closing(measure: Measure, given: Given, entry: Entry, values: Values) -> Verdict:
    number = parse_number(given.fields["closed_after"])
    verdict = judged(number, measure, range_of(measure, values.numbers), entry.waive)
    return Verdict(verdict.place, f"Closed after {given.fields['closed_after']} s: "
                   f"{verdict.sentence[0].lower()}{verdict.sentence[1:]}", verdict.range,
                   entry.waive, verdict.margin)  # fmt: skip


def timed_verdict(entry: Entry, attempt: Attempt, job: Job, values: Values) -> Verdict:
    """Return the verdict of the last attempt of a trace or a hold."""
    missing = _what_is_missing(entry, attempt)
    verdicts = [
        _column(column, reading, entry, job, values)
        for reading in attempt.readings
        for column in entry.columns
        if column.id in reading.fields
    ]
    worst = min(verdicts, key=lambda v: ORDER.index(v.place), default=DONE)
    if not worst.place.good:
        return worst
    if missing:
        return Verdict(Place.MISSING, missing)
    short = _held_too_short(entry, attempt)
    if short is not None or worst.place is Place.INSIDE:
        return short or worst
    kept = len(attempt.readings)
    return Verdict(worst.place, f"{kept} readings kept." if kept else "Done.", waive=entry.waive)


def _what_is_missing(entry: Entry, attempt: Attempt) -> str:
    taken = len(attempt.readings)
    if entry.kind is Kind.TRACE and taken < entry.readings:
        return f"{taken} of {entry.readings} readings taken."
    if entry.kind is Kind.HOLD and taken < len(entry.times) and entry.columns:
        return f"{taken} of {len(entry.times)} readings taken."
    return "" if attempt.ended else "Still running."


def _column(column: Column, reading: Reading, entry: Entry, job: Job, values: Values) -> Verdict:
    named = replace(reading, instrument=used_for(column, reading))
    verdict = judged_number(column.measure, entry.waive, named, column.id, job, values)
    words = (
        f"{column.label} at {reading.taken:%H:%M}: {verdict.sentence[0].lower()}"
        + (verdict.sentence[1:])
    )
    return Verdict(verdict.place, words, verdict.range, entry.waive, verdict.margin)


def _held_too_short(entry: Entry, attempt: Attempt) -> Verdict | None:
    if entry.kind is not Kind.HOLD:
        return None
    begin = attempt.readings[0].taken if attempt.readings else attempt.started
    end = attempt.readings[-1].taken if attempt.readings else attempt.ended
    assert end is not None  # noqa: S101 - a running hold is still missing
    short = (entry.times[-1] - entry.times[0]) * 60 - (end - begin).total_seconds()
    if short <= 0:
        return None
    return Verdict(Place.OUTSIDE, f"Held too short by {span(short)}.", waive=entry.waive)
