"""Walks through a checklist with its tables of the file, and asks what a name stands for."""

from collections.abc import Iterator, Mapping

from fieldapp.checklist.model import Bound, Checklist, Entry, Limits, Measure, Step
from fieldapp.checklist.reading.locate import Path
from fieldapp.checklist.reading.shapes import Table
from fieldapp.checklist.values import UNKNOWN, Value

Tables = Mapping[Path, Table]
Values = Mapping[str, Value]


def steps(checklist: Checklist, tables: Tables) -> Iterator[tuple[Step, Table]]:
    """Return every step with its table of the file."""
    for i, phase in enumerate(checklist.phases):
        for j, step in enumerate(phase.steps):
            yield step, tables["phase", i, "step", j]


def measures(entry: Entry, table: Table) -> Iterator[tuple[Measure, Table]]:
    """Return what the entry measures, each with the table that says so."""
    if entry.measure:
        yield entry.measure, table
    for number, column in enumerate(entry.columns):
        yield column.measure, table.below("columns", number)


def bounds(limits: Limits) -> Iterator[tuple[str, Bound]]:
    """Return the limits that are named, each with its key."""
    for key, bound in (("min", limits.low), ("max", limits.high), ("about", limits.about)):
        if bound and bound.name:
            yield key, bound


def fault_name(table: Table, what: str, key: str, name: str) -> None:
    """Note what is wrong with the member `name` of the list at the key."""
    members = table.any(key)
    table.fault(what, key, members.index(name) if isinstance(members, list) else 0)


def check_value(table: Table, key: str, name: str, values: Values, quantity: str) -> None:
    """Note if `name`, written at `key`, is no value, or of another quantity (any if "")."""
    if not name:
        return
    if name not in values:
        table.fault(f"{key} “{name}” is no value known here{table.nearest(name, values)}", key)
        return
    value = values[name]
    if value.series:
        table.fault(f"{key} “{name}” holds one number for each reading: here belongs one", key)
    elif quantity and value.quantity not in (UNKNOWN, quantity):
        table.fault(f"{key} “{name}” is {value.quantity}: here belongs {quantity}", key)
