"""Judging a number that was read from an instrument."""

from datetime import datetime

from fieldapp.checklist.model import Measure, Waive
from fieldapp.job.job import Job
from fieldapp.job.state import Given, Reading
from fieldapp.judgement.values import Values, reading_value
from fieldapp.judgement.verdict import Place, Verdict, in_unit, judged, range_of
from fieldapp.units import rounded


def judged_number(
    measure: Measure, waive: Waive, given: Given | Reading, name: str, job: Job, values: Values
) -> Verdict:
    """Return the verdict of the number called `name` in what was given or read."""
    value = reading_value(given.fields, name, given.instrument, job.sheet)
    number, uncertainty = in_unit(value, measure.unit)
    limits = range_of(measure, values.numbers, rounded(uncertainty, measure.decimals + 2, "up"))
    verdict = judged(number, measure, limits, waive)
    moment = given.done_at if isinstance(given, Given) else given.taken
    return _in_date(verdict, given.instrument, moment, job, waive)


def _in_date(
    verdict: Verdict, instrument: str, moment: datetime, job: Job, waive: Waive
) -> Verdict:
    """Return the verdict, or that the instrument is past its calibration."""
    found = job.sheet.instrument(instrument) if instrument else None
    if found is None or not verdict.place.good or not found.overdue(moment.date()):
        return verdict
    days = (moment.date() - found.due).days
    words = f"{found.name} is {days} days past its calibration."
    return Verdict(Place.OUTSIDE, words, verdict.range, waive, verdict.margin)
