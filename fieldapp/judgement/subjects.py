"""Judging every subject of a job: each entry, and each computed value that has limits."""

from decimal import Decimal

from fieldapp.checklist.model import Computed, Entry, Kind, Measure, Waive
from fieldapp.job.job import Job
from fieldapp.job.moments import moment_of, span
from fieldapp.job.state import Given
from fieldapp.judgement.numbers import judged_number
from fieldapp.judgement.proofs import alarm_verdict, timed_verdict
from fieldapp.judgement.values import Values
from fieldapp.judgement.verdict import (
    DONE,
    MISSING,
    Place,
    Range,
    Verdict,
    in_unit,
    judged,
    range_of,
)
from fieldapp.judgement.words import said
from fieldapp.units import rounded


def verdict_of(entry: Entry, job: Job, values: Values) -> Verdict:
    """Return the verdict of an entry as it stands now."""
    if entry.kind in (Kind.TRACE, Kind.HOLD):
        attempt = job.state.attempt(entry.id)
        return MISSING if attempt is None else timed_verdict(entry, attempt, job, values)
    if entry.kind is Kind.SIGN:
        return DONE if job.state.signature(entry.role) else MISSING
    if entry.kind is Kind.ALARM and values.answers.get(f"{entry.trip}_fitted") is False:
        return _not_fitted(entry)
    given = job.state.latest(entry.id)
    if given is None:
        return MISSING
    return verdict_if(entry, given, job, values)


def verdict_if(entry: Entry, given: Given, job: Job, values: Values) -> Verdict:
    """Return the verdict that something given at an entry gets."""
    if given.fields.get("missing"):
        words = said(given.fields)
        return Verdict(Place.OUTSIDE, f"{words[:1].upper()}{words[1:]}.", waive=entry.waive)
    return _verdict_given(entry, given, job, values)


def _verdict_given(entry: Entry, given: Given, job: Job, values: Values) -> Verdict:
    match entry.kind:
        case Kind.NUMBER:
            assert entry.measure is not None  # noqa: S101 - the reader saw to it
            return judged_number(entry.measure, entry.waive, given, "value", job, values)
        case Kind.CHOICE:
            return _choice(entry, given.fields["value"], values)
        case Kind.TEXT | Kind.SERIAL if entry.equals:
            return _agrees(entry, given.fields["value"], values)
        case Kind.TIME:
            return _time(entry, given)
        case Kind.ALARM:
            return alarm_verdict(entry, given, job, values)
    return DONE


def verdict_of_computed(computed: Computed, values: Values) -> Verdict:
    """Return the verdict of a computed value that has limits."""
    working = values.workings.get(computed.id)
    if working is None:
        return MISSING
    measure = Measure(computed.unit, computed.decimals, computed.limits)
    if working.value is None:
        words = f"Cannot be worked out: {working.refusal}."
        return Verdict(Place.OUTSIDE, words, range_of(measure, values.numbers), computed.waive)
    number, uncertainty = in_unit(working.value, computed.unit)
    limits = range_of(measure, values.numbers, rounded(uncertainty, computed.decimals, "up"))
    number = rounded(number, computed.decimals + 3)
    return judged(_safe_side(number, computed.decimals, limits), measure, limits, computed.waive)


def _safe_side(number: Decimal, decimals: int, limits: Range) -> Decimal:
    """Return the number with its decimals, rounded towards the limit that is nearer."""
    if limits.high is None or (
        limits.low is not None and number - limits.low < limits.high - number
    ):
        return rounded(number, decimals, "down")
    return rounded(number, decimals, "up")


def _choice(entry: Entry, answer: str, values: Values) -> Verdict:
    if entry.equals:
        agreed = _agrees(entry, answer, values)
        if not agreed.place.good:
            return agreed
    option = next(option for option in entry.options if option.text == answer)
    if option.waive is not None:
        return Verdict(Place.OUTSIDE, f"Outside: “{answer}”.", waive=option.waive)
    if entry.equals:
        return agreed
    judges = any(other.waive is not None for other in entry.options)
    return Verdict(Place.INSIDE, "Agrees.", waive=entry.waive) if judges else DONE


def _agrees(entry: Entry, answer: str, values: Values) -> Verdict:
    expected = values.texts.get(entry.equals, "")
    if "".join(answer.split()).casefold() == "".join(expected.split()).casefold():
        return Verdict(Place.INSIDE, "Agrees with the job sheet.", waive=entry.waive)
    return Verdict(
        Place.OUTSIDE, f"Does not agree: the job sheet says “{expected}”.", waive=entry.waive
    )


def _time(entry: Entry, given: Given) -> Verdict:
    moment = moment_of(given.fields["value"], given.done_at)
    ahead = (moment - given.done_at).total_seconds()
    for low, high, words in (
        (entry.ahead_low, entry.ahead_high, "ahead"),
        (None if entry.age_high is None else -entry.age_high, None, "back"),
    ):
        if low is not None and ahead < low:
            by = span(low - ahead)
            what = f"Too soon by {by}." if words == "ahead" else f"Too old by {by}."
            return Verdict(Place.OUTSIDE, what, waive=entry.waive)
        if high is not None and ahead > high:
            return Verdict(
                Place.OUTSIDE, f"Too far ahead by {span(ahead - high)}.", waive=entry.waive
            )
    bounded = (entry.ahead_low, entry.ahead_high, entry.age_high) != (None, None, None)
    return Verdict(Place.INSIDE, "Inside.", waive=entry.waive) if bounded else DONE


def _not_fitted(entry: Entry) -> Verdict:
    if not entry.required:
        return Verdict(Place.NOT_NEEDED, "Not fitted on this skid.")
    words = "Not fitted, and required of every skid: the job stops here."
    return Verdict(Place.OUTSIDE, words, waive=Waive.NEVER)
