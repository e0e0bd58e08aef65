"""Whether everything that a checklist names is there, comes in time, and measures the same."""

from collections.abc import Iterable, Iterator, Mapping

from fieldapp.checklist.facts import facts_by_id
from fieldapp.checklist.model import Checklist, Computed, Entry, Kind, Limits, Step
from fieldapp.checklist.reading.conditions import check_conditions
from fieldapp.checklist.reading.document import Document
from fieldapp.checklist.reading.names import (
    Tables,
    Values,
    bounds,
    check_value,
    fault_name,
    measures,
    steps,
)
from fieldapp.checklist.reading.order import check_gates, check_order, check_states
from fieldapp.checklist.reading.shapes import IDENTIFIER, Table
from fieldapp.checklist.values import TEXT, UNKNOWN, values_of, values_of_entry
from fieldapp.engineering.catalogue import Formula
from fieldapp.units import UNITS


def check_references(
    checklist: Checklist, document: Document, catalogue: Mapping[str, Formula]
) -> None:
    """Note in `document` every name of the checklist that does not hold."""
    tables = document.tables
    values = {name: value for name, value in values_of(checklist).items() if name}
    _check_repeats(checklist, tables)
    check_gates(checklist, tables)
    check_states(checklist, tables)
    check_conditions(checklist, tables, values)
    happenings = {happening.id for happening in checklist.happenings}
    for step, table in steps(checklist, tables):
        _check_happenings(step, table, happenings)
        for number, entry in enumerate(step.entries):
            _check_entry(entry, table.below("entry", number), values)
    _check_computed(checklist, tables, values, catalogue)
    check_order(checklist, tables, values)


def _entries(checklist: Checklist, tables: Tables) -> Iterator[tuple[Entry, Table]]:
    for step, table in steps(checklist, tables):
        for number, entry in enumerate(step.entries):
            yield entry, table.below("entry", number)


def _check_repeats(checklist: Checklist, tables: Tables) -> None:
    _check_unique((phase.id, tables["phase", i]) for i, phase in enumerate(checklist.phases))
    _check_unique((step.id, table) for step, table in steps(checklist, tables))
    happenings = enumerate(checklist.happenings)
    _check_unique((happening.id, tables["happening", i]) for i, happening in happenings)
    facts = facts_by_id()
    for name, table in _named_values(checklist, tables):
        if name in facts:
            table.fault(f"“{name}” is a fact of the job sheet: take another id", "id")
    _check_unique(_named_values(checklist, tables))


def _named_values(checklist: Checklist, tables: Tables) -> Iterator[tuple[str, Table]]:
    for i, constant in enumerate(checklist.constants):
        yield constant.id, tables["constant", i]
    for i, question in enumerate(checklist.questions):
        yield question.id, tables["question", i]
    for i, computed in enumerate(checklist.computed):
        yield computed.id, tables["computed", i]
    for entry, table in _entries(checklist, tables):
        columns = {column.id: i for i, column in enumerate(entry.columns)}
        plain = [column.id for column in entry.columns]
        for i, name in enumerate(plain):
            if columns[name] != i:  # of twins, the values know the last one only
                yield name, table.below("columns", i)
        for name in values_of_entry(entry):
            yield name, table.below("columns", columns[name]) if name in columns else table


def _check_unique(named: Iterable[tuple[str, Table]]) -> None:
    first: dict[str, Table] = {}
    for name, table in sorted(named, key=lambda pair: pair[1].line()):
        if name and name in first:
            line = first[name].line("id")
            table.fault(f"the name “{name}” is taken on line {line}: take another id", "id")
        first.setdefault(name, table)


def _check_happenings(step: Step, table: Table, happenings: set[str]) -> None:
    for key, names in (("undone_by", step.undone_by), ("causes", step.causes)):
        for name in names:
            if name not in happenings:
                what = f"{key} “{name}” is no happening{table.nearest(name, happenings)}"
                fault_name(table, what, key, name)


def _check_entry(entry: Entry, table: Table, values: Values) -> None:
    if entry.equals in values and values[entry.equals].entry:
        what = f"equals “{entry.equals}” is an entry: only with the job sheet can it be compared"
        table.fault(what, "equals")
    else:
        check_value(table, "equals", entry.equals, values, TEXT)
    if entry.kind is Kind.CHOICE and entry.equals:
        _check_answers(entry, table)
    if entry.closed_within:
        check_value(table, "closed_within", entry.closed_within.name, values, "time")
    for measure, below in measures(entry, table):
        _check_bounds(measure.limits, measure.unit, below, values)


def _check_bounds(limits: Limits, unit: str, table: Table, values: Values) -> None:
    quantity = UNITS[unit].quantity if unit in UNITS else UNKNOWN
    for key, bound in bounds(limits):
        check_value(table.below("limits"), key, bound.name, values, quantity)


def _check_answers(entry: Entry, table: Table) -> None:
    fact = facts_by_id().get(entry.equals)
    answers = {option.text for option in entry.options}
    for text in fact.options if fact else ():
        if text not in answers:
            table.fault(f"options lacks “{text}”, which the job sheet can state: add it", "options")


def _check_computed(
    checklist: Checklist, tables: Tables, values: Values, catalogue: Mapping[str, Formula]
) -> None:
    known = {step.id for step in checklist.steps()}
    later = {computed.id for computed in checklist.computed}
    for number, computed in enumerate(checklist.computed):
        table = tables["computed", number]
        if computed.step and computed.step not in known:
            near = table.nearest(computed.step, known)
            table.fault(f"step “{computed.step}” is no step{near}", "step")
        _check_bounds(computed.limits, computed.unit, table, values)
        formula = _checked_formula(computed, table, catalogue)
        wanted = {needed.name: needed.quantity for needed in formula.inputs} if formula else {}
        if isinstance(table.any("inputs"), dict):
            if formula:
                _check_names(computed, wanted, table)
            _check_inputs(computed, wanted, table.below("inputs"), values, later)
        later.discard(computed.id)


def _checked_formula(
    computed: Computed, table: Table, catalogue: Mapping[str, Formula]
) -> Formula | None:
    formula = catalogue.get(computed.formula)
    if formula is None and computed.formula:
        known = table.nearest(computed.formula, catalogue, ": “fieldapp calc” lists them all")
        table.fault(f"formula “{computed.formula}” is not in the catalogue{known}", "formula")
    quantity = UNITS[computed.unit].quantity if computed.unit in UNITS else UNKNOWN
    if formula and quantity not in (UNKNOWN, formula.quantity):
        gives = f"{computed.formula} gives {formula.quantity}"
        table.fault(f"unit “{computed.unit}” measures {quantity}: {gives}", "unit")
    return formula


def _check_names(computed: Computed, wanted: Mapping[str, str], table: Table) -> None:
    given = dict(computed.inputs)
    for name in wanted.keys() - given.keys():
        table.fault(f"inputs lacks “{name}” ({wanted[name]}) of {computed.formula}", "inputs")
    for name in given.keys() - wanted.keys():
        near = table.nearest(name, wanted)
        table.below("inputs").fault(f"“{name}” is no input of {computed.formula}{near}", name)


def _check_inputs(
    computed: Computed, wanted: Mapping[str, str], table: Table, values: Values, later: set[str]
) -> None:
    for name, text in computed.inputs:
        if text in later:
            table.fault(f"{name} “{text}” is not worked out yet: move it further up", name)
        elif IDENTIFIER.fullmatch(text):
            check_value(table, name, text, values, wanted.get(name, UNKNOWN))
        elif text:
            table.measured(text, wanted.get(name, UNKNOWN), name)
