"""Reads the limits that a number must keep to."""

import re

from fieldapp.checklist.model import Bound, Limits, Rule
from fieldapp.checklist.reading.shapes import Table

_NUMBER_WITH_UNIT = re.compile(r"-?\d[^+*/()-]*")


def read_limits(table: Table | None) -> Limits:
    """Return the limits that the table states."""
    if table is None:
        return Limits()
    limits = Limits(
        low=read_bound(table, "min"),
        high=read_bound(table, "max"),
        about=read_bound(table, "about"),
        within=table.number("within"),
        within_percent=table.number("within_percent"),
        rule=Rule(table.word("rule", tuple(Rule), "simple") or "simple"),
    )
    table.close()
    _check_bounds(table, limits)
    return limits


def read_bound(table: Table, key: str) -> Bound | None:
    """Return a figure, or the name of a value, that stands at the key."""
    value = table.any(key)
    if isinstance(value, str) and _NUMBER_WITH_UNIT.fullmatch(value):
        table.fault(f"{key} “{value[:60]}”: write the number alone, no quotes and no unit", key)
        return None
    if isinstance(value, str):
        name = table.named(value, key)
        return Bound(name=name) if name else None
    number = table.number(key)
    return Bound(number=number) if number is not None else None


def _check_bounds(table: Table, limits: Limits) -> None:
    if not any(map(table.has, ("min", "max", "about"))):
        table.fault("no limit stands here: add min, max or about")
    if _crossed(limits.low, limits.high):
        table.fault("min lies above max: nothing can be inside", "min")
    spreads = [key for key in ("within", "within_percent") if table.has(key)]
    if table.has("about") and len(spreads) != 1:
        table.fault("about needs either within or within_percent beside it", "about")
    if spreads and not table.has("about"):
        table.fault(f"{spreads[0]} needs about = the figure in the middle", spreads[0])
    for key in spreads:
        spread = getattr(limits, key)
        if spread is not None and spread <= 0:
            table.fault(f"{key} must be more than 0", key)


def _crossed(low: Bound | None, high: Bound | None) -> bool:
    if low is None or high is None or low.number is None or high.number is None:
        return False
    return low.number > high.number
