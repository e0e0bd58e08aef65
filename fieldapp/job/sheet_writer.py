"""Writes a job sheet as TOML from what was typed on the tablet."""

from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from datetime import date
from types import MappingProxyType

import tomlkit
from tomlkit.items import AoT, Table

from fieldapp.checklist.facts import SHUTDOWNS, Fact, FactKind, facts_by_id
from fieldapp.job.sheet_facts import COUNTED, SECTIONS, key_of
from fieldapp.units import NotANumberError, parse_number

Typed = Mapping[str, str]
NOTHING: Typed = MappingProxyType({})
YES, NO = "yes", "no"
_SHARES = ("accuracy_of_reading", "accuracy_of_span")
_WIDTHS = ("accuracy", "span", "repeatability", "lowest", "highest")
_DAYS = ("calibrated", "due")


def write_sheet(
    facts: Typed,
    instruments: Sequence[Typed] = (),
    crew: Sequence[Typed] = (),
    owner: Typed = NOTHING,
) -> str:
    """Return the text of a job sheet; numbers stay as typed, with their unit behind them.

    What cannot be a fact is written as it stands, so that reading the sheet tells its line.
    """
    document = tomlkit.document()
    for section, members in SECTIONS.items():
        document.add(section, _section(facts, members))
    document.add("shutdown", _shutdowns(facts))
    if owner:
        document.add("owner", _table((name, _answer(text)) for name, text in owner.items()))
    document.add("instrument", _list(_instrument(typed) for typed in instruments))
    document.add("crew", _list(_table(typed.items()) for typed in crew))
    return tomlkit.dumps(document)


def _section(facts: Typed, members: Sequence[Fact]) -> Table:
    stated = ((key_of(fact), _fact(fact, facts.get(fact.id, ""))) for fact in members)
    return _table(stated)


def _shutdowns(facts: Typed) -> Table:
    known = facts_by_id()
    below = tomlkit.table(is_super_table=True)
    for name in SHUTDOWNS:
        members = [known[i] for i in (f"{name}_fitted", f"{name}_set_point") if i in known]
        below.add(name, _section(facts, members))
    return below


def _fact(fact: Fact, typed: str) -> object:
    match fact.kind:
        case FactKind.NUMBER if fact.unit == COUNTED:
            return int(typed) if typed.strip().isdecimal() else typed
        case FactKind.NUMBER:
            return _with_unit(typed, fact.unit)
        case FactKind.DATE:
            return _day(typed)
        case FactKind.YES_NO:
            return _answer(typed)
    return typed


def _instrument(typed: Typed) -> Table:
    fields: dict[str, object] = dict(typed)
    fields |= {key: _with_unit(typed[key], "%") for key in _SHARES if key in typed}
    unit = typed.get("unit", "")
    fields |= {key: _with_unit(typed[key], unit) for key in _WIDTHS if key in typed}
    fields |= {key: _day(typed[key]) for key in _DAYS if key in typed}
    return _table(fields.items())


def _with_unit(typed: str, unit: str) -> str:
    with suppress(NotANumberError):
        parse_number(typed)
        return f"{typed.strip()} {unit}"
    return typed


def _day(typed: str) -> object:
    with suppress(ValueError):
        return date.fromisoformat(typed.strip())
    return typed


def _answer(typed: str) -> object:
    return {YES: True, NO: False}.get(typed.strip().casefold(), typed)


def _table(pairs: Iterable[tuple[str, object]]) -> Table:
    """Return a table of all pairs but those where nothing was typed."""
    table = tomlkit.table()
    for key, value in pairs:
        if not isinstance(value, str) or value.strip():
            table.add(key, value)
    return table


def _list(tables: Iterable[Table]) -> AoT:
    array = tomlkit.aot()
    for table in tables:
        array.append(table)
    return array
