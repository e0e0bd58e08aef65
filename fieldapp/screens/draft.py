"""Judges what stands typed and is not kept: the same judgement that it gets once it is."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from fieldapp.actions.fields import faults_of, with_units
from fieldapp.checklist.model import Entry, Kind, Measure
from fieldapp.job.job import Job
from fieldapp.job.sheet import Instrument
from fieldapp.job.state import Given
from fieldapp.judgement.subjects import verdict_if
from fieldapp.judgement.values import Values
from fieldapp.judgement.verdict import Range, Verdict, range_of
from fieldapp.units import NotANumberError, is_unfinished, parse_number, rounded


@dataclass(frozen=True, slots=True)
class Draft:
    """What stands typed at an entry, who typed it, when, and with which instrument."""

    fields: Mapping[str, str]
    instrument: str
    who: str
    at: datetime


def given_of(entry: Entry, draft: Draft) -> Given:
    """Return the draft as if it were kept now."""
    return Given(-1, -1, draft.at, draft.at, draft.who, with_units(entry, draft.fields),
                 draft.instrument, "", -1)  # fmt: skip


def verdict_of_draft(entry: Entry, draft: Draft, job: Job, values: Values) -> Verdict | None:
    """Return the verdict that the draft would get; None while it is not whole."""
    fields = with_units(entry, draft.fields)
    if faults_of(entry, fields, who=draft.who, at=draft.at):
        return None
    if entry.kind is Kind.NUMBER and is_unfinished(fields["value"]):
        return None
    return verdict_if(entry, given_of(entry, draft), job, values)


def number_in(text: str) -> Decimal | None:
    """Return the number typed; None while it is none."""
    try:
        return parse_number(text)
    except NotANumberError:
        return None


def range_for(
    measure: Measure, instrument: Instrument | None, values: Values, number: Decimal | None
) -> tuple[Range, Decimal]:
    """Return the limits of a measure and the uncertainty of a reading, or of one at the limit."""
    plain = range_of(measure, values.numbers)
    at = number if number is not None else plain.high if plain.high is not None else plain.low
    if instrument is None or at is None:
        return plain, Decimal(0)
    uncertainty = instrument.uncertainty(at, measure.unit)
    guard = rounded(uncertainty, measure.decimals + 2, "up")
    return range_of(measure, values.numbers, guard), uncertainty
