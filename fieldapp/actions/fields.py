"""Whether what a person gave at an entry is what the entry asks for."""

import re
from collections.abc import Mapping
from datetime import datetime

from fieldapp.checklist.model import Entry, Kind, Measure
from fieldapp.job.events import Fields
from fieldapp.job.moments import NotATimeError, moment_of
from fieldapp.units import NotANumberError, UnknownUnitError, parse_number, unit_named

LONGEST_TEXT = 2000
LARGEST = 10**9
MAY_BE_MISSING = (Kind.NUMBER, Kind.SERIAL, Kind.PHOTO)
"""What a broken instrument, an unreadable plate or a place out of reach can keep from being taken.

The field `missing` then says why, and stands alone.
"""
_SHA256 = re.compile(r"[0-9a-f]{64}")


def faults_of(entry: Entry, fields: Fields, *, who: str, at: datetime) -> tuple[str, ...]:
    """Return what is wrong with `fields`, each in a sentence; nothing if they can be kept."""
    if "missing" in fields:
        return _missing_faults(entry, fields)
    faults: tuple[str, ...] = (f"this is not typed in: a {entry.kind} is done in its own way",)
    match entry.kind:
        case Kind.TEXT | Kind.SERIAL:
            faults = _text_faults(entry, fields, who)
        case Kind.NUMBER:
            assert entry.measure is not None  # noqa: S101 - the reader saw to it
            faults = _number_faults(fields, "value", entry.measure)
        case Kind.CONFIRM | Kind.CHOICE:
            faults = _answer_faults(entry, fields)
        case Kind.TIME:
            faults = _time_faults(entry, fields, at)
        case Kind.ALARM:
            faults = _alarm_faults(entry, fields)
        case Kind.PHOTO:
            faults = _photo_faults(fields)
    return faults


def _missing_faults(entry: Entry, fields: Fields) -> tuple[str, ...]:
    """Return why an entry cannot be left without what it asks for."""
    if entry.kind not in MAY_BE_MISSING:
        return (f"a {entry.kind} is given, or left to do",)
    if set(fields) != {"missing"}:
        return ("give it, or say why it cannot be taken: not both",)
    if not fields["missing"].strip():
        return ("say why it cannot be taken",)
    if len(fields["missing"]) > LONGEST_TEXT:
        return (f"longer than {LONGEST_TEXT} characters: shorten it",)
    return ()


def reading_faults(entry: Entry, fields: Fields) -> tuple[str, ...]:
    """Return what is wrong with one timed reading."""
    columns = {column.id: column for column in entry.columns}
    unknown = [name for name in fields if _column_of(name) not in columns]
    if unknown:
        return (f"there is no column {', '.join(unknown)}",)
    return tuple(
        f"{column.label}: {fault}"
        for column in entry.columns
        for fault in _number_faults(fields, column.id, column.measure)
    )


def _column_of(name: str) -> str:
    """Return the column that a field of a reading belongs to: its number, unit or instrument."""
    return name.removesuffix("_unit").removesuffix("_instrument")


def _answer_faults(entry: Entry, fields: Fields) -> tuple[str, ...]:
    answers = tuple(option.text for option in entry.options) or ("yes",)
    if fields.get("value") in answers:
        return ()
    if entry.kind is Kind.CONFIRM:
        return ("confirm it, or leave it to do",)
    return (f"choose one of: {', '.join(answers)}",)


def _number_faults(fields: Fields, name: str, measure: Measure) -> tuple[str, ...]:
    try:
        number = parse_number(fields.get(name, ""))
        unit = unit_named(fields.get(f"{name}_unit", ""))
    except (NotANumberError, UnknownUnitError) as fault:
        return (str(fault),)
    if abs(number) > LARGEST:
        return ("no instrument shows that: read it again",)
    wanted = unit_named(measure.unit)
    if unit.quantity != wanted.quantity:
        return (f"{unit.name} is {unit.quantity}, but this asks for {wanted.quantity}",)
    return ()


def _text_faults(entry: Entry, fields: Fields, who: str) -> tuple[str, ...]:
    text = fields.get("value", "").strip()
    if not text:
        return ("nothing was written",)
    if len(text) > LONGEST_TEXT:
        return (f"longer than {LONGEST_TEXT} characters: shorten it",)
    if entry.other_person and text.casefold() == who.casefold():
        return (f"a second person must look: {who} is the one who enters",)
    return ()


def _photo_faults(fields: Fields) -> tuple[str, ...]:
    if not fields.get("photo", "").strip():
        return ("no picture was chosen",)
    if not _SHA256.fullmatch(fields.get("sha256", "")):
        return ("the picture was not kept: choose it again",)
    return ()


def _time_faults(entry: Entry, fields: Fields, at: datetime) -> tuple[str, ...]:
    try:
        moment = moment_of(fields.get("value", ""), at)
    except NotATimeError as fault:
        return (str(fault),)
    if entry.age_high is not None and moment > at:
        return (f"{fields['value']} lies in the future: give the date on the report",)
    return ()


def _alarm_faults(entry: Entry, fields: Fields) -> tuple[str, ...]:
    names = ["tripped", *(f"seen_{place}" for place in range(len(entry.checks)))]
    if fields.get("tripped") == "no":
        names = ["tripped"]
    faults = [
        f"say yes or no: {_check_words(entry, name)}"
        for name in names
        if fields.get(name) not in {"yes", "no"}
    ]
    if fields.get("tripped") != "yes":
        return tuple(faults)
    if entry.closed_within is not None:
        seconds = {"s": fields.get("closed_after", ""), "s_unit": "s"}
        faults += [f"time to closed: {f}" for f in _number_faults(seconds, "s", Measure("s", 1))]
    if entry.measure is not None:
        faults += [f"tripped at: {f}" for f in _number_faults(fields, "value", entry.measure)]
    return tuple(faults)


def _check_words(entry: Entry, name: str) -> str:
    return "tripped" if name == "tripped" else entry.checks[int(name.removeprefix("seen_"))]


def with_units(entry: Entry, fields: Mapping[str, str]) -> Fields:
    """Return the fields with the entry's own unit wherever none was given."""
    measures = {"value": entry.measure} if entry.measure else {}
    measures |= {column.id: column.measure for column in entry.columns}
    units = {
        f"{name}_unit": measure.unit
        for name, measure in measures.items()
        if name in fields and f"{name}_unit" not in fields
    }
    return {**fields, **units}
