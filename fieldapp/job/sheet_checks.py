"""Whether a job sheet fits the checklist that a job is to begin with."""

from collections.abc import Collection, Iterator

from fieldapp.checklist.model import Checklist, Constant, Measure, Rule, Step
from fieldapp.checklist.problems import Problem, nearest, without_mark
from fieldapp.checklist.reading.locate import Lines
from fieldapp.job.sheet import Instrument, JobSheet, OwnerValue
from fieldapp.units import UNITS, Quantity


def owner_names(checklist: Checklist) -> frozenset[str]:
    """Return what a checklist asks the owner: its questions, and its constants open to them."""
    constants = {constant.id for constant in checklist.constants if constant.owner}
    return frozenset(constants | {question.id for question in checklist.questions})


def check_owner(
    sheet: JobSheet, checklist: Checklist, others: Collection[str] = ()
) -> tuple[Problem, ...]:
    """Return what is wrong in the sheet's [owner] table, for this checklist.

    One sheet serves every list of a job: what the `others` ask the owner may stand there too.
    """
    lines = Lines(without_mark(sheet.text))
    asked = owner_names(checklist)
    found = (
        (name, _owner_fault(name, value, checklist))
        for name, value in sheet.owner.items()
        if name in asked or name not in others
    )
    problems = (
        Problem(lines.line_of(("owner", name)), "[owner]", what) for name, what in found if what
    )
    return tuple(sorted(problems))


def _owner_fault(name: str, value: OwnerValue, checklist: Checklist) -> str:
    constants = {constant.id: constant for constant in checklist.constants}
    questions = {question.id for question in checklist.questions}
    if name in constants:
        return _constant_fault(constants[name], value)
    if name in questions:
        return "" if isinstance(value, bool) else f"{name} is a question: write true or false"
    near = nearest(name, owner_names(checklist))
    return f"{name} is nothing that “{checklist.title}” asks the owner{near}"


def _constant_fault(constant: Constant, value: OwnerValue) -> str:
    if not constant.owner:
        return f"{constant.id} is fixed by the checklist: take it out"
    quantity = UNITS[constant.unit].quantity
    if not isinstance(value, Quantity):
        return f"{constant.id} is a figure: write it like “{constant.number} {constant.unit}”"
    if value.unit.quantity != quantity:
        return (
            f"{constant.id} in {value.unit.name} is {value.unit.quantity}: here belongs {quantity}"
        )
    return ""


def check_instruments(sheet: JobSheet, checklist: Checklist) -> tuple[Problem, ...]:
    """Return which instruments of the checklist the sheet lacks, or has in another quantity."""
    lines = Lines(without_mark(sheet.text))
    order = {found.id: number for number, found in enumerate(sheet.instruments)}
    faults: dict[str, Problem] = {}
    for step, measure in _readings(checklist):
        what = _instrument_fault(sheet.instrument(measure.instrument), measure, step)
        place = order.get(measure.instrument)
        line = lines.line_of(("instrument",) if place is None else ("instrument", place))
        if what:
            where = f'instrument "{measure.instrument}"'
            faults.setdefault(measure.instrument, Problem(line, where, what))
    return tuple(sorted(faults.values()))


def _readings(checklist: Checklist) -> Iterator[tuple[Step, Measure]]:
    for step in checklist.steps():
        for entry in step.entries:
            measures = (entry.measure, *(column.measure for column in entry.columns))
            yield from ((step, found) for found in measures if found and found.instrument)


def _instrument_fault(instrument: Instrument | None, measure: Measure, step: Step) -> str:
    if instrument is None:
        return f"is missing: step “{step.title}” reads it, so add it as [[instrument]]"
    asked, own = UNITS[measure.unit].quantity, UNITS[instrument.unit].quantity
    if measure.limits.rule is Rule.GUARDED and asked != own:
        return f"measures {own}, but step “{step.title}” judges {asked} by its accuracy"
    return ""
