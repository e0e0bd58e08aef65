"""The values that a checklist can use by name, and the quantity of each."""

from dataclasses import dataclass

from fieldapp.checklist.facts import Fact, FactKind, facts_by_id
from fieldapp.checklist.model import Checklist, Column, Entry, Kind
from fieldapp.units import UNITS

TEXT = "text"
YES_NO = "yes or no"
DATE = "date"
DATE_AND_TIME = "date and time"
TABLE = "table of readings"
SHUTDOWN = "shutdown"
PICTURE = "picture"
SIGNATURE = "signature"
UNKNOWN = ""


@dataclass(frozen=True, slots=True)
class Value:
    """What a name stands for: a quantity with its unit, a text, a date or the like.

    A `series` holds one number for each reading. `entry` is the entry that gives the value.
    """

    quantity: str
    unit: str = ""
    series: bool = False
    entry: str = ""


def values_of(checklist: Checklist) -> dict[str, Value]:
    """Return every value of the job sheet and the checklist by name."""
    values = fact_values()
    values |= {constant.id: measured(constant.unit) for constant in checklist.constants}
    values |= {question.id: Value(YES_NO) for question in checklist.questions}
    for step in checklist.steps():
        for entry in step.entries:
            values |= values_of_entry(entry)
    values |= {computed.id: measured(computed.unit) for computed in checklist.computed}
    return values


def measured(unit: str, *, series: bool = False, entry: str = "") -> Value:
    """Return what a number with this unit is; a unit that is not known has no quantity."""
    return Value(UNITS[unit].quantity if unit in UNITS else UNKNOWN, unit, series, entry)


def fact_values() -> dict[str, Value]:
    """Return the values that every job sheet states."""
    return {name: _fact_value(fact) for name, fact in facts_by_id().items()}


def _fact_value(fact: Fact) -> Value:
    if fact.kind is FactKind.NUMBER:
        return measured(fact.unit)
    return Value({FactKind.YES_NO: YES_NO, FactKind.DATE: DATE}.get(fact.kind, TEXT))


def values_of_entry(entry: Entry) -> dict[str, Value]:
    """Return the values that an entry gives, its own name first."""
    values = {entry.id: _own_value(entry)}
    if entry.kind in (Kind.TRACE, Kind.HOLD):
        values[f"{entry.id}_times"] = measured("s", series=True, entry=entry.id)
    if entry.kind is Kind.HOLD:
        values[f"{entry.id}_duration"] = measured("s", entry=entry.id)
    if entry.kind is Kind.ALARM:
        values[f"{entry.id}_closed_after"] = measured("s", entry=entry.id)
    for column in entry.columns:
        values |= _values_of_column(column, entry.id)
    return values


def _own_value(entry: Entry) -> Value:
    if entry.measure:
        return measured(entry.measure.unit, entry=entry.id)
    plain = {
        Kind.CONFIRM: YES_NO,
        Kind.CHOICE: TEXT,
        Kind.TEXT: TEXT,
        Kind.SERIAL: TEXT,
        Kind.TIME: DATE_AND_TIME,
        Kind.TRACE: TABLE,
        Kind.HOLD: TABLE,
        Kind.ALARM: SHUTDOWN,
        Kind.PHOTO: PICTURE,
        Kind.SIGN: SIGNATURE,
    }
    return Value(plain.get(entry.kind, UNKNOWN), entry=entry.id)


def _values_of_column(column: Column, entry: str) -> dict[str, Value]:
    unit = column.measure.unit
    return {
        column.id: Value(TABLE, entry=entry),
        f"{column.id}_first": measured(unit, entry=entry),
        f"{column.id}_last": measured(unit, entry=entry),
        f"{column.id}_series": measured(unit, series=True, entry=entry),
    }
