"""How a record words what the job knows: units, limits, verdicts, values and people's initials."""

from collections.abc import Iterable
from datetime import datetime, timedelta
from decimal import Decimal

from fieldapp.checklist.model import Entry, Kind
from fieldapp.job.events import Fields
from fieldapp.job.moments import span
from fieldapp.judgement.values import Value, Values
from fieldapp.judgement.verdict import Place, Range, Verdict, in_unit
from fieldapp.judgement.words import people_unit, said
from fieldapp.record.chapters.shapes.shapes import Judgement
from fieldapp.units import rounded, written

SPACE = "\u00a0"
OVERDUE = "past its calibration"


def unit_sign(unit: str) -> str:
    """Return a unit as people read it.

    >>> unit_sign("degC")
    '°C'
    """
    return people_unit(unit).strip(SPACE)


def plain(number: Decimal) -> str:
    """Return a number with an ASCII minus, as the data keeps it."""
    return f"{number:f}"


def figure(value: float | Decimal, decimals: int, towards: str = "nearest") -> str:
    """Return a number with so many decimals, as the data keeps it."""
    text = plain(rounded(value, decimals, towards))
    return text.lstrip("-") if not text.strip("-0.") else text


def in_unit_text(value: Value, unit: str, decimals: int, towards: str = "nearest") -> str:
    """Return a value in a unit: as written, if it was written in it, else with its decimals."""
    number, _ = in_unit(value, unit)
    if value.written is not None and value.unit == unit:
        return plain(number)
    return figure(number, decimals, towards)


def uncertainty_text(value: Value, unit: str, decimals: int) -> str:
    """Return the expanded uncertainty, rounded up; nothing where there is none."""
    _, spread = in_unit(value, unit)
    if spread >= Decimal(10) ** 8:
        return "cannot be given"
    return figure(spread, decimals, "up") if spread else ""


def limit_words(limits: Range) -> str:
    """Return limits without their unit, for a column of their own.

    >>> limit_words(Range(low=Decimal("3.0"), high=Decimal("5.0")))
    '3.0 to 5.0'
    """
    if limits.missing:
        return "not known yet"
    if limits.low is not None and limits.high is not None:
        return f"{written(limits.low)} to {written(limits.high)}"
    if limits.high is not None:
        return f"at most {written(limits.high)}"
    return "" if limits.low is None else f"at least {written(limits.low)}"


def judgement(
    verdict: Verdict, unit: str = "", *, limits: str = "", settled: str = ""
) -> Judgement:
    """Return a verdict for the record; `settled` says how something outside was settled."""
    bounds = verdict.range
    words = _short(verdict, unit)
    return Judgement(
        place=str(verdict.place),
        words=f"{words}, {settled}" if settled else words,
        sentence=verdict.sentence,
        limits=limits or limit_words(bounds),
        low="" if bounds.low is None else plain(bounds.low),
        high="" if bounds.high is None else plain(bounds.high),
        guard=plain(bounds.guard) if bounds.guard else "",
    )


def _short(verdict: Verdict, unit: str) -> str:
    if verdict.place is Place.TOO_NEAR:
        return "too near for this instrument"
    if verdict.place is Place.NOTED:
        return "noted"
    if verdict.place is Place.OUTSIDE and OVERDUE in verdict.sentence:
        return OVERDUE
    text = verdict.sentence.rstrip(".").removesuffix(" with the job sheet")
    if unit:
        text = text.removesuffix(people_unit(unit))
    return f"{text[:1].lower()}{text[1:]}"


def entry_limits(entry: Entry, values: Values) -> str:
    """Return what an entry without a number has to be, in words."""
    if entry.equals:
        return f"job sheet: {values.texts.get(entry.equals, 'nothing stated')}"
    match entry.kind:
        case Kind.CHOICE if any(option.waive is not None for option in entry.options):
            return " or ".join(o.text for o in entry.options if o.waive is None)
        case Kind.TIME:
            return _time_limits(entry)
        case Kind.TEXT if entry.other_person:
            return "another person"
    return ""


def _time_limits(entry: Entry) -> str:
    words = []
    if entry.ahead_low is not None:
        words.append(f"{span(entry.ahead_low)} ahead or more")
    if entry.ahead_high is not None:
        words.append(f"at most {span(entry.ahead_high)} ahead")
    if entry.age_high is not None:
        words.append(f"at most {span(entry.age_high)} old")
    return ", ".join(words)


def typed(fields: Fields, name: str = "value") -> str:
    """Return what was typed, on one line."""
    return said(fields) if name == "value" else " ".join(fields.get(name, "").split())


def value_of(entry: Entry, fields: Fields) -> tuple[str, str]:
    """Return what was given at an entry and its unit."""
    if entry.kind is Kind.CONFIRM:
        return "", ""
    if entry.kind is Kind.ALARM:
        if fields.get("tripped") != "yes":
            return "no trip", ""
        if not fields.get("value"):
            return "trip", ""
    unit = fields.get("value_unit", "")
    return typed(fields), unit_sign(unit) if unit else ""


def stamp(at: datetime) -> str:
    """Return a moment as the data keeps it."""
    return at.isoformat(timespec="seconds")


def offset_words(at: datetime) -> str:
    """Return the clock's distance from UTC.

    >>> offset_words(datetime.fromisoformat("2026-06-16T07:10+02:00"))
    'UTC+02:00'
    """
    offset = at.utcoffset() or timedelta()
    sign = "-" if offset < timedelta() else "+"
    minutes = abs(int(offset.total_seconds() // 60))
    return f"UTC{sign}{minutes // 60:02d}:{minutes % 60:02d}"


def initials_of(names: Iterable[str]) -> dict[str, str]:
    """Return initials that belong to one person only.

    >>> initials_of(["Ada Moor", "Al Moon"])
    {'Ada Moor': 'AM', 'Al Moon': 'AM2'}
    """
    found: dict[str, str] = {}
    for name in names:
        short = "".join(word[0].upper() for word in name.split() if word[0].isalnum())[:3] or "?"
        place, candidate = 2, short
        while candidate in found.values():
            candidate, place = f"{short}{place}", place + 1
        found.setdefault(name, candidate)
    return found
