"""What is said of one reading or answer: inside, too near, outside, and by how much."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from math import isfinite

from fieldapp.checklist.model import Bound, Limits, Measure, Rule, Waive
from fieldapp.judgement.values import Value
from fieldapp.judgement.words import people_unit
from fieldapp.units import difference_from_si, from_si, rounded, written

MOST_DECIMALS = 9


class Place(StrEnum):
    """Where something stands against its limits."""

    MISSING = "missing"
    NOT_NEEDED = "not needed"
    NOTED = "noted"
    DONE = "done"
    INSIDE = "inside"
    TOO_NEAR = "too near"
    OUTSIDE = "outside"

    @property
    def good(self) -> bool:
        """Say whether nothing need be explained or accepted."""
        return self in (Place.NOT_NEEDED, Place.NOTED, Place.DONE, Place.INSIDE)


@dataclass(frozen=True, slots=True)
class Range:
    """The limits worked out for this site, in the entry's unit; `guard` is taken off inside."""

    low: Decimal | None = None
    high: Decimal | None = None
    guard: Decimal = Decimal(0)
    missing: str = ""


@dataclass(frozen=True, slots=True)
class Verdict:
    """One judgement: its place, a sentence, the limits it was judged by, who may accept it."""

    place: Place
    sentence: str
    range: Range = Range()
    waive: Waive = Waive.REASON
    margin: Decimal | None = None


MISSING = Verdict(Place.MISSING, "To do.")
DONE = Verdict(Place.DONE, "Done.")
NOT_NEEDED = Verdict(Place.NOT_NEEDED, "Not needed here.")
MAY_BE_LEFT_OUT = Verdict(Place.NOT_NEEDED, "May be left out.")
ORDER = (Place.OUTSIDE, Place.TOO_NEAR, Place.INSIDE, Place.NOTED, Place.DONE)
"""Places from the worst to the best."""


def range_of(
    measure: Measure, numbers: Mapping[str, Value], uncertainty: Decimal = Decimal(0)
) -> Range:
    """Return the limits of a measure with every name replaced by its value.

    A limit that is worked out is rounded to the entry's decimals towards the safe side: a
    maximum down, a minimum up. One that somebody stated stays as stated.
    """
    limits = measure.limits
    named = [b for b in (limits.low, limits.high, limits.about) if b is not None and b.name]
    missing = next((b.name for b in named if b.name not in numbers), "")
    if missing:
        return Range(missing=missing)
    lows = [] if limits.low is None else [_bound(limits.low, measure, numbers, "up")]
    highs = [] if limits.high is None else [_bound(limits.high, measure, numbers, "down")]
    if limits.about is not None:
        low, high = _about(limits, limits.about, measure, numbers)
        lows.append(low)
        highs.append(high)
    guard = uncertainty if limits.rule is Rule.GUARDED else Decimal(0)
    return Range(max(lows, default=None), min(highs, default=None), guard)


def _bound(bound: Bound, measure: Measure, numbers: Mapping[str, Value], towards: str) -> Decimal:
    if bound.number is not None:
        return bound.number
    value = numbers[bound.name]
    if value.written is not None and value.unit == measure.unit:
        return value.written
    return rounded(from_si(value.si, measure.unit), measure.decimals, towards)


def _about(
    limits: Limits, about: Bound, measure: Measure, numbers: Mapping[str, Value]
) -> tuple[Decimal, Decimal]:
    middle = (
        about.number
        if about.number is not None
        else Decimal(repr(from_si(numbers[about.name].si, measure.unit)))
    )
    width = (
        limits.within
        if limits.within is not None
        else (abs(middle) * (limits.within_percent or Decimal(0)) / 100)
    )
    return (
        rounded(middle - width, measure.decimals, "up"),
        rounded(middle + width, measure.decimals, "down"),
    )


def judged(number: Decimal, measure: Measure, limits: Range, waive: Waive) -> Verdict:
    """Return the verdict of a number, given in the entry's unit.

    The guarded rule is ILAC-G8:09/2019, 4.2.2: inside means inside by the uncertainty.
    """
    if limits.missing:
        words = f"Cannot be judged yet: {limits.missing.replace('_', ' ')} is missing."
        return Verdict(Place.OUTSIDE, words, limits, waive)
    if limits.low is None and limits.high is None:
        return Verdict(Place.NOTED, "Noted.", limits, waive)
    gaps = []
    if limits.high is not None:
        gaps.append((limits.high - number, number + limits.guard))
    if limits.low is not None:
        gaps.append((number - limits.low, number - limits.guard))
    gap, could = min(gaps)
    return _placed(gap, could, limits, measure, waive)


def _placed(gap: Decimal, could: Decimal, limits: Range, measure: Measure, waive: Waive) -> Verdict:
    unit = people_unit(measure.unit)
    if gap < 0:
        by = written(_excess(-gap, measure.decimals))
        return Verdict(Place.OUTSIDE, f"Outside by {by}{unit}.", limits, waive, gap)
    if gap < limits.guard:
        farthest = written(rounded(could, measure.decimals))
        words = f"Too near the limit for this instrument: it could be {farthest}{unit}."
        return Verdict(Place.TOO_NEAR, words, limits, waive, gap - limits.guard)
    margin = gap - limits.guard
    by = written(rounded(margin, measure.decimals, "down"))
    if limits.guard == 0 and margin == 0:
        return Verdict(Place.INSIDE, "Inside, on the limit.", limits, waive, margin)
    return Verdict(Place.INSIDE, f"Inside by {by}{unit}.", limits, waive, margin)


def _excess(excess: Decimal, decimals: int) -> Decimal:
    """Return how far outside, never nought: with more decimals where it is small."""
    while rounded(excess, decimals, "down") == 0 and decimals < MOST_DECIMALS:
        decimals += 1
    return rounded(excess, decimals, "up")


def in_unit(value: Value, unit: str) -> tuple[Decimal, Decimal]:
    """Return a value and its uncertainty in a unit, as decimals."""
    if value.written is not None and value.unit == unit:
        number = value.written
    else:
        number = Decimal(repr(from_si(value.si, unit)))
    if not isfinite(value.uncertainty):
        return number, Decimal("1e9")
    return number, Decimal(repr(difference_from_si(value.uncertainty, unit)))


def limit_sentence(limits: Range, measure: Measure) -> str:
    """Return the limits in words, as shown before anything is typed."""
    unit = people_unit(measure.unit)
    if limits.missing:
        return f"The limit waits for {limits.missing.replace('_', ' ')}."
    if limits.low is not None and limits.high is not None:
        sentence = f"{written(limits.low)} to {written(limits.high)}{unit}."
    elif limits.high is not None:
        sentence = f"At most {written(limits.high)}{unit}."
    elif limits.low is not None:
        sentence = f"At least {written(limits.low)}{unit}."
    else:
        return "No limit: noted."
    return sentence + _guard_words(limits, measure)


def _guard_words(limits: Range, measure: Measure) -> str:
    if not limits.guard:
        return ""
    low = limits.low and rounded(limits.low + limits.guard, measure.decimals, "up")
    high = limits.high and rounded(limits.high - limits.guard, measure.decimals, "down")
    if low is not None and high is not None and low > high:
        return " This instrument cannot decide here: take a finer one."
    words = [f"{written(low)} or more"] if low is not None else []
    words += [f"{written(high)} or less"] if high is not None else []
    return f" With this instrument, {' and '.join(words)}."
