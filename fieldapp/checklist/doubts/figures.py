"""Doubts about figures: limits between which nothing fits, and numbers of which nothing comes."""

from decimal import Decimal

from fieldapp.checklist.doubts.names import used_names
from fieldapp.checklist.model import Bound, Checklist, Entry, Kind, Limits, Measure
from fieldapp.checklist.reading.names import Tables, measures, steps
from fieldapp.checklist.reading.shapes import Table

TOO_NARROW = (
    "limits lie closer together than the last figure that is entered: no reading can decide"
)


def doubt_figures(checklist: Checklist, tables: Tables) -> None:
    """Note limits finer than what is read, and numbers that are kept for no stated reason."""
    used = used_names(checklist)
    for step, step_table in steps(checklist, tables):
        for number, entry in enumerate(step.entries):
            table = step_table.below("entry", number)
            for measure, below in measures(entry, table):
                _doubt_limits(measure, below)
            if _comes_to_nothing(entry, used):
                what = "has no limits and nothing uses it: say in basis why it is kept"
                table.fault(what, "id")
            if entry.options and all(option.waive for option in entry.options):
                table.fault("every answer is outside: nobody can do this step in order", "options")


def _comes_to_nothing(entry: Entry, used: set[str]) -> bool:
    return (
        entry.kind is Kind.NUMBER
        and entry.measure is not None
        and entry.measure.limits == Limits()
        and entry.id not in used
        and not entry.basis
    )


def _doubt_limits(measure: Measure, table: Table) -> None:
    limits, step = measure.limits, Decimal(1).scaleb(-measure.decimals)
    low, high = _number(limits.low), _number(limits.high)
    for key, number in (("min", low), ("max", high), ("within", limits.within)):
        if number is not None and number % step:
            finer = f"finer than decimals = {measure.decimals} lets anybody enter"
            table.below("limits").fault(f"{key} {number} is {finer}", key)
    between = low is None or high is None or low <= high - high % step
    if not between or (limits.within is not None and 2 * limits.within < step):
        table.below("limits").fault(TOO_NARROW)


def _number(bound: Bound | None) -> Decimal | None:
    return bound.number if bound is not None else None
