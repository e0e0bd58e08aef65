"""Judging a number that was read from an instrument."""

from datetime import datetime
from decimal import Decimal

from fieldapp.checklist.model import Measure, Waive
from fieldapp.job.job import Job
from fieldapp.job.sheet import Instrument
from fieldapp.job.state import Given, Reading
from fieldapp.judgement.values import Values, reading_value
from fieldapp.judgement.verdict import Place, Verdict, in_unit, judged, range_of
from fieldapp.judgement.words import people_unit
from fieldapp.units import rounded, written


def judged_number(
    measure: Measure, waive: Waive, given: Given | Reading, name: str, job: Job, values: Values
) -> Verdict:
    """Return the verdict of the number called `name` in what was given or read."""
    value = reading_value(given.fields, name, given.instrument, job.sheet)
    number, uncertainty = in_unit(value, measure.unit)
    limits = range_of(measure, values.numbers, rounded(uncertainty, measure.decimals + 2, "up"))
    verdict = judged(number, measure, limits, waive)
    moment = given.done_at if isinstance(given, Given) else given.taken
    found = job.sheet.instrument(given.instrument) if given.instrument else None
    if found is None or not verdict.place.good:
        return verdict
    words = _unfit(found, number, measure.unit, moment)
    return Verdict(Place.OUTSIDE, words, verdict.range, waive, verdict.margin) if words else verdict


def _unfit(instrument: Instrument, number: Decimal, unit: str, moment: datetime) -> str:
    """Return why a reading of an instrument proves nothing; "" where it does."""
    if instrument.overdue(moment.date()):
        days = (moment.date() - instrument.due).days
        past = "1 day" if days == 1 else f"{days} days"
        return f"{instrument.name} is {past} past its calibration."
    if not instrument.covers(number, unit):
        return f"{instrument.name}: this lies outside its range, {range_words(instrument)}."
    return ""


def range_words(instrument: Instrument) -> str:
    """Return from where to where an instrument reads; "" where the sheet does not say."""
    low, high = instrument.lowest, instrument.highest
    unit = people_unit(instrument.unit)
    if low and high:
        return f"{written(low.number)} to {written(high.number)}{people_unit(high.unit.name)}"
    if high:
        return f"up to {written(high.number)}{people_unit(high.unit.name)}"
    return f"from {written(low.number)}{unit} on" if low else ""
