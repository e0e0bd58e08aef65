"""Whether everything that a checklist names is there, comes in time, and measures the same."""

from collections.abc import Iterable, Iterator, Mapping

from fieldapp.checklist.facts import facts_by_id
from fieldapp.checklist.model import Checklist, Computed, Entry, Kind, Limits, Step
from fieldapp.checklist.order import (
    Tables,
    Values,
    bounds,
    check_gates,
    check_order,
    fault_name,
    measures,
    steps,
)
from fieldapp.checklist.problems import nearest
from fieldapp.checklist.shapes import IDENTIFIER, Document, Table
from fieldapp.checklist.values import TEXT, UNKNOWN, YES_NO, values_of, values_of_entry
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
    for step, table in steps(checklist, tables):
        _check_conditions(step, table, checklist, values)
        for number, entry in enumerate(step.entries):
            _check_entry(entry, table.below("entry", number), values)
    for number, computed in enumerate(checklist.computed):
        table = tables["computed", number]
        _check_formula(computed, table, catalogue)
        _check_bounds(computed.limits, computed.unit, table, values)
        known = [step.id for step in checklist.steps()]
        if computed.step and computed.step not in known:
            near = nearest(computed.step, known)
            table.fault(f"step “{computed.step}” is no step{near}", "step")
        _check_inputs(computed, table, checklist, values, catalogue)
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
    for name, table in _named_values(checklist, tables):
        if name in facts_by_id():
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


def _check_conditions(step: Step, table: Table, checklist: Checklist, values: Values) -> None:
    for key, name in (("when", step.when), ("unless", step.unless)):
        _check_value(table, key, name, values, YES_NO)
    happenings = [happening.id for happening in checklist.happenings]
    for key, names in (("undone_by", step.undone_by), ("causes", step.causes)):
        for name in names:
            if name not in happenings:
                what = f"{key} “{name}” is no happening{nearest(name, happenings)}"
                fault_name(table, what, key, name)


def _check_value(table: Table, key: str, name: str, values: Values, quantity: str) -> None:
    """Note if `name`, written at `key`, is no value, or of another quantity (any if "")."""
    if not name:
        return
    if name not in values:
        table.fault(f"{key} “{name}” is no value known here{nearest(name, values)}", key)
        return
    value = values[name]
    if value.series:
        table.fault(f"{key} “{name}” holds one number for each reading: here belongs one", key)
    elif quantity and value.quantity not in (UNKNOWN, quantity):
        table.fault(f"{key} “{name}” is {value.quantity}: here belongs {quantity}", key)


def _check_entry(entry: Entry, table: Table, values: Values) -> None:
    _check_value(table, "equals", entry.equals, values, TEXT)
    if entry.kind is Kind.CHOICE and entry.equals:
        _check_answers(entry, table)
    if entry.closed_within:
        _check_value(table, "closed_within", entry.closed_within.name, values, "time")
    for measure, below in measures(entry, table):
        _check_bounds(measure.limits, measure.unit, below, values)


def _check_bounds(limits: Limits, unit: str, table: Table, values: Values) -> None:
    quantity = UNITS[unit].quantity if unit in UNITS else UNKNOWN
    for key, bound in bounds(limits):
        _check_value(table.below("limits"), key, bound.name, values, quantity)


def _check_answers(entry: Entry, table: Table) -> None:
    fact = facts_by_id().get(entry.equals)
    answers = {option.text for option in entry.options}
    for text in fact.options if fact else ():
        if text not in answers:
            table.fault(f"options lacks “{text}”, which the job sheet can state: add it", "options")


def _check_formula(computed: Computed, table: Table, catalogue: Mapping[str, Formula]) -> None:
    if not computed.formula:
        return
    if computed.formula not in catalogue:
        known = nearest(computed.formula, catalogue, ": “fieldapp calc” lists them all")
        table.fault(f"formula “{computed.formula}” is not in the catalogue{known}", "formula")
        return
    quantity = catalogue[computed.formula].quantity
    if computed.unit in UNITS and UNITS[computed.unit].quantity != quantity:
        measures = f"unit “{computed.unit}” measures {UNITS[computed.unit].quantity}"
        table.fault(f"{measures}: {computed.formula} gives {quantity}", "unit")


def _check_inputs(
    computed: Computed,
    table: Table,
    checklist: Checklist,
    values: Values,
    catalogue: Mapping[str, Formula],
) -> None:
    formula = catalogue.get(computed.formula)
    given = dict(computed.inputs)
    wanted = {needed.name: needed.quantity for needed in formula.inputs} if formula else {}
    if not isinstance(table.any("inputs"), dict):
        return
    for name in wanted.keys() - given.keys():
        table.fault(f"inputs lacks “{name}” ({wanted[name]}) of {computed.formula}", "inputs")
    inputs = table.below("inputs")
    later = _from_here(checklist, computed)
    for name, text in given.items():
        if formula and name not in wanted:
            what = f"“{name}” is no input of {computed.formula}{nearest(name, wanted)}"
            inputs.fault(what, name)
        elif text in later:
            inputs.fault(f"{name} “{text}” is not worked out yet: move it further up", name)
        elif IDENTIFIER.fullmatch(text):
            _check_value(inputs, name, text, values, wanted.get(name, UNKNOWN))
        elif text:
            inputs.measured(text, wanted.get(name, ""), name)


def _from_here(checklist: Checklist, computed: Computed) -> set[str]:
    place = next(i for i, other in enumerate(checklist.computed) if other is computed)
    return {other.id for other in checklist.computed[place:]}
