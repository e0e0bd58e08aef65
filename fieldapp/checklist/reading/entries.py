"""Reads one entry of a step: the keys that every entry has, and those of its kind."""

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from difflib import get_close_matches
from itertools import pairwise

from fieldapp.checklist.facts import SHUTDOWNS
from fieldapp.checklist.model import (
    Column,
    Entry,
    Kind,
    Limits,
    Measure,
    Option,
    Rule,
    Waive,
)
from fieldapp.checklist.reading.limits import read_bound, read_limits
from fieldapp.checklist.reading.shapes import Table
from fieldapp.units import UNITS, to_si

ROLES = ("technician", "crew lead")
KEYS_OF_SOME_KIND = (
    "age", "ahead", "at", "checks", "closed_within", "columns", "decimals", "equals", "every",
    "expires", "instrument", "limits", "options", "other_person", "readings", "required", "role",
    "trip", "unit",
)  # fmt: skip
MOST_DECIMALS = 6
LONGEST_WAIT = 7 * 24 * 60


def read_entry(table: Table) -> Entry:
    """Return the entry that the table describes; what is wrong is noted."""
    kind = table.word("kind", tuple(Kind)) or _meant(table)
    entry = Entry(
        id=table.identifier("id"),
        kind=Kind(kind or "number"),
        label=table.text("label"),
        line=table.line(),
        waive=Waive(table.word("waive", tuple(Waive), "reason") or "reason"),
        basis=table.text("basis", needed=False),
        optional=table.truth("optional"),
    )
    if not kind:  # which of these keys belong here is not known then
        for key in KEYS_OF_SOME_KIND:
            table.has(key)
        table.close()
        return entry
    entry = _READERS[entry.kind](table, entry)
    table.close()
    if _is_judged(entry):
        require_basis(table)
    return entry


def _meant(table: Table) -> str:
    """Return the kind that a misspelt one is most like, so that nothing else is called wrong."""
    written = str(table.any("kind"))[:60].casefold()
    return next(iter(get_close_matches(written, tuple(Kind), n=1)), "")


def seconds(table: Table, key: str, *, needed: bool = False) -> float | None:
    """Return how many seconds the duration at the key is; None if there is none."""
    duration = table.quantity(key, "time", needed=needed)
    if duration is None:
        return None
    if duration.number <= 0:
        table.fault(f"{key} must be longer than nothing", key)
        return None
    return to_si(float(duration.number), duration.unit.name)


def require_basis(table: Table) -> None:
    """Note if the table does not say where its limit comes from."""
    if not table.has("basis"):
        table.fault('basis is missing: say where the limit comes from, or "common practice"')


def _is_judged(entry: Entry) -> bool:
    measures = (entry.measure, *(column.measure for column in entry.columns))
    limited = any(measure and measure.limits != Limits() for measure in measures)
    return limited or bool(entry.checks) or any(option.waive for option in entry.options)


def _plain(table: Table, entry: Entry) -> Entry:  # noqa: ARG001 - a confirmation has no more keys
    return entry


def _number(table: Table, entry: Entry) -> Entry:
    return replace(entry, measure=_measure(table))


def _measure(table: Table) -> Measure:
    unit = table.word("unit", tuple(UNITS))
    decimals = table.whole("decimals", 0, MOST_DECIMALS)
    instrument = table.identifier("instrument", needed=False)
    below = table.table("limits")
    limits = read_limits(below)
    if below and limits.rule is Rule.GUARDED and not table.has("instrument"):
        below.fault("rule “guarded” needs an instrument: name it beside the limits", "rule")
    return Measure(unit, decimals, limits, instrument)


def _choice(table: Table, entry: Entry) -> Entry:
    tables = table.tables("options", "option", around=_in(table))
    options = tuple(map(_option, tables))
    if len(options) < 2:  # noqa: PLR2004 - one answer is no choice
        table.fault("options must list two answers or more", "options")
    texts = [option.text.casefold() for option in options if option.text]
    for text in {text for text in texts if texts.count(text) > 1}:
        table.fault(f"options holds “{text}” twice: keep one of them", "options")
    return replace(entry, options=options, equals=table.identifier("equals", needed=False))


def _option(table: Table) -> Option:
    text = table.text("text")
    waive = table.word("waive", tuple(Waive), "")
    table.close()
    return Option(text, Waive(waive) if waive else None)


def _text(table: Table, entry: Entry) -> Entry:
    equals = table.identifier("equals", needed=False)
    return replace(entry, equals=equals, other_person=table.truth("other_person"))


def _time(table: Table, entry: Entry) -> Entry:
    ahead, age = table.table("ahead"), table.table("age")
    low = seconds(ahead, "min") if ahead else None
    high = seconds(ahead, "max") if ahead else None
    oldest = seconds(age, "max", needed=True) if age else None
    if ahead and not (ahead.has("min") or ahead.has("max")):
        ahead.fault("neither min nor max stands here: add one of them")
    if ahead and low is not None and high is not None and low > high:
        ahead.fault("min lies above max: nothing can be inside", "min")
    for below in filter(None, (ahead, age)):
        below.close()
    return replace(
        entry, ahead_low=low, ahead_high=high, age_high=oldest, expires=table.truth("expires")
    )


def _trace(table: Table, entry: Entry) -> Entry:
    every = seconds(table, "every", needed=True) or 0
    if every % 1:
        table.fault("every must be whole seconds", "every")
    readings = table.whole("readings", 2, 10_000)
    return replace(entry, columns=_columns(table), readings=readings, every=int(every))


def _hold(table: Table, entry: Entry) -> Entry:
    times = table.wholes("at", 0, LONGEST_WAIT)
    rising = all(first < second for first, second in pairwise(times))
    read = times or table.any("at") == []
    if read and (len(times) < 2 or times[0] != 0 or not rising):  # noqa: PLR2004
        table.fault("at must begin with 0 and rise: the minutes at which to read", "at")
    return replace(entry, columns=_columns(table, needed=False), times=times)


def _columns(table: Table, *, needed: bool = True) -> tuple[Column, ...]:
    tables = table.tables("columns", "column", needed=needed, around=_in(table))
    if table.has("columns") and not tables and table.any("columns") == []:
        table.fault("columns is empty: add what is read", "columns")
    return tuple(map(_column, tables))


def _column(table: Table) -> Column:
    column = Column(table.identifier("id"), table.text("label"), _measure(table))
    table.close()
    return column


def _alarm(table: Table, entry: Entry) -> Entry:
    trip = table.identifier("trip")
    if trip and trip not in SHUTDOWNS:
        known = table.nearest(trip, SHUTDOWNS, f": take one of {', '.join(SHUTDOWNS)}")
        table.fault(f"trip “{trip}” is no shutdown of a skid{known}", "trip")
    checks = table.texts("checks")
    if table.any("checks") == []:
        table.fault("checks is empty: list what must be seen", "checks")
    for key in ("decimals", "limits", "instrument"):
        if table.has(key) and not table.has("unit"):
            table.fault(f"{key} needs a unit: add unit = the trip value's", key)
    closed_within = read_bound(table, "closed_within")
    if closed_within and closed_within.number is not None and closed_within.number <= Decimal(0):
        table.fault("closed_within must be more than 0 seconds", "closed_within")
    return replace(
        entry,
        trip=trip,
        checks=checks,
        closed_within=closed_within,
        required=table.truth("required"),
        measure=_measure(table) if table.has("unit") else None,
    )


def _sign(table: Table, entry: Entry) -> Entry:
    return replace(entry, role=table.word("role", ROLES))


def _in(table: Table) -> str:
    return f"{table.where}, "


_READERS: dict[Kind, Callable[[Table, Entry], Entry]] = {
    Kind.CONFIRM: _plain,
    Kind.NUMBER: _number,
    Kind.CHOICE: _choice,
    Kind.TEXT: _text,
    Kind.SERIAL: _text,
    Kind.TIME: _time,
    Kind.TRACE: _trace,
    Kind.HOLD: _hold,
    Kind.ALARM: _alarm,
    Kind.PHOTO: _plain,
    Kind.SIGN: _sign,
}
