"""The values of a job by name: facts, constants, readings, and what is worked out from them."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from fieldapp.checklist.model import Checklist, Column, Computed, Entry, Kind
from fieldapp.engineering.catalogue import FORMULAS, Formula
from fieldapp.engineering.validity import OutsideValidity, said_in
from fieldapp.job.job import Job
from fieldapp.job.sheet import JobSheet
from fieldapp.job.state import Attempt, JobState, Reading
from fieldapp.judgement.asking import Answers, answers_of
from fieldapp.judgement.propagation import propagated
from fieldapp.judgement.words import people_unit
from fieldapp.units import (
    NotANumberError,
    UnknownUnitError,
    parse_number,
    parse_quantity,
    to_si,
)

_NOT_TAKEN = "was not taken"


@dataclass(frozen=True, slots=True)
class Value:
    """A number in SI, its expanded uncertainty (k = 2) in SI, and the number as written."""

    si: float
    uncertainty: float = 0.0
    written: Decimal | None = None
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Working:
    """How a computed value came about: its formula, inputs and outcome, or why there is none."""

    computed: Computed
    formula: Formula
    inputs: tuple[tuple[str, str, Value], ...]
    value: Value | None
    refusal: str = ""


@dataclass(frozen=True, slots=True)
class Values:
    """Every value known at a moment."""

    numbers: Mapping[str, Value]
    texts: Mapping[str, str]
    answers: Mapping[str, bool]
    workings: Mapping[str, Working]
    replies: Answers


def values_of(job: Job) -> Values:
    """Return all values that the job knows now; what is still missing is left out."""
    texts, answers = _words(job.checklist, job.sheet)
    numbers = dict(_sheet_numbers(job.checklist, job.sheet))
    for step in job.checklist.steps():
        for entry in step.entries:
            numbers.update(_entry_numbers(entry, job.state, job.sheet))
    not_taken = _not_taken(job)
    workings = {}
    for computed in job.checklist.computed:
        working = _worked_out(computed, numbers, not_taken)
        if working is None:
            continue
        workings[computed.id] = working
        if working.refusal.endswith(_NOT_TAKEN):
            not_taken[computed.id] = computed.label
        if working.value is not None:
            numbers[computed.id] = working.value
    return Values(numbers, texts, answers, workings, answers_of(job.checklist, job.state, answers))


def _words(checklist: Checklist, sheet: JobSheet) -> tuple[dict[str, str], dict[str, bool]]:
    texts = {name: text for name in sheet.facts if (text := sheet.text_of(name)) is not None}
    answers = {name: yes for name in sheet.facts if (yes := sheet.yes_no(name)) is not None}
    for question in checklist.questions:
        stated = sheet.owner_answer(question.id)
        answers[question.id] = question.otherwise if stated is None else stated
    return texts, answers


def _sheet_numbers(checklist: Checklist, sheet: JobSheet) -> list[tuple[str, Value]]:
    numbers = []
    for name in sheet.facts:
        quantity = sheet.number_of(name)
        if quantity is not None:
            numbers.append((name, _exact(quantity.number, quantity.unit.name)))
    for constant in checklist.constants:
        stated = sheet.owner_number(constant.id) if constant.owner else None
        number, unit = (
            (stated.number, stated.unit.name) if stated else (constant.number, constant.unit)
        )
        numbers.append((constant.id, _exact(number, unit)))
    return numbers


def _exact(number: Decimal, unit: str) -> Value:
    return Value(to_si(float(number), unit), 0.0, number, unit)


def _entry_numbers(entry: Entry, state: JobState, sheet: JobSheet) -> dict[str, Value]:
    match entry.kind:
        case Kind.NUMBER:
            given = state.latest(entry.id)
            if given is None or given.fields.get("missing"):
                return {}
            return {entry.id: reading_value(given.fields, "value", given.instrument, sheet)}
        case Kind.ALARM:
            return _alarm_numbers(entry, state, sheet)
        case Kind.TRACE | Kind.HOLD:
            attempt = state.attempt(entry.id)
            return _attempt_numbers(entry, attempt, sheet) if attempt else {}
    return {}


def _alarm_numbers(entry: Entry, state: JobState, sheet: JobSheet) -> dict[str, Value]:
    given = state.latest(entry.id)
    if given is None:
        return {}
    numbers = {}
    if given.fields.get("closed_after"):
        numbers[f"{entry.id}_closed_after"] = _exact(
            parse_number(given.fields["closed_after"]), "s"
        )
    if entry.measure and given.fields.get("value"):
        numbers[entry.id] = reading_value(given.fields, "value", given.instrument, sheet)
    return numbers


def reading_value(
    fields: Mapping[str, str], name: str, instrument: str, sheet: JobSheet, *, repeat: bool = False
) -> Value:
    """Return the number in `fields`, with the instrument's uncertainty or repeatability."""
    number, unit = parse_number(fields[name]), fields[f"{name}_unit"]
    found = sheet.instrument(instrument) if instrument else None
    uncertainty = Decimal(0)
    if found is not None:
        stated = found.repeatability_in(unit) if repeat else None
        uncertainty = found.uncertainty(number, unit) if stated is None else stated
    slope = to_si(1.0, unit) - to_si(0.0, unit)
    return Value(to_si(float(number), unit), float(uncertainty) * slope, number, unit)


def used_for(column: Column, reading: Reading) -> str:
    """Return the instrument with which a column of a reading was taken."""
    own = reading.fields.get(f"{column.id}_instrument", "")
    return own or reading.instrument or column.measure.instrument


def _attempt_numbers(entry: Entry, attempt: Attempt, sheet: JobSheet) -> dict[str, Value]:
    if not attempt.readings:
        if attempt.ended is None:
            return {}
        waited = (attempt.ended - attempt.started).total_seconds()
        return {f"{entry.id}_duration": Value(waited, 0.0, None, "s")}
    first, last = attempt.readings[0], attempt.readings[-1]
    seconds = (last.taken - first.taken).total_seconds()
    numbers = {f"{entry.id}_duration": Value(seconds, 0.0, None, "s")}
    ends: tuple[tuple[str, Reading], ...] = (("first", first), ("last", last))
    for column in entry.columns:
        for end, reading in ends:
            if column.id in reading.fields:
                # both ends come from one gauge, so what it repeats to decides, not its accuracy
                numbers[f"{column.id}_{end}"] = reading_value(
                    reading.fields, column.id, used_for(column, reading), sheet, repeat=True
                )
    return numbers


def _not_taken(job: Job) -> dict[str, str]:
    """Return the entries of which somebody said that they cannot be taken, by id and label."""
    return {
        entry.id: entry.label
        for step in job.checklist.steps()
        for entry in step.entries
        if (given := job.state.latest(entry.id)) is not None and given.fields.get("missing")
    }


def _worked_out(
    computed: Computed, numbers: Mapping[str, Value], not_taken: Mapping[str, str]
) -> Working | None:
    """Return the working of a computed value; None while an input is to come."""
    formula = FORMULAS[computed.formula]
    inputs: list[tuple[str, str, Value]] = []
    for name, source in computed.inputs:
        value = numbers.get(source) or stated(source)
        if value is None and source in not_taken:
            refusal = f"{not_taken[source]} {_NOT_TAKEN}"
            return Working(computed, formula, tuple(inputs), None, refusal)
        if value is None:
            return None
        inputs.append((name, source, value))
    si = {name: value.si for name, _, value in inputs}
    try:
        result = formula.calculate(**si)
    except OutsideValidity as refusal:
        units = {name: value.unit for name, _, value in inputs}
        return Working(computed, formula, tuple(inputs), None, said_in(refusal, units, people_unit))
    spreads = {name: value.uncertainty for name, _, value in inputs if value.uncertainty}
    uncertainty = propagated(formula.calculate, si, spreads, result)
    return Working(
        computed, formula, tuple(inputs), Value(result, uncertainty, None, computed.unit)
    )


def stated(source: str) -> Value | None:
    """Return a quantity written in the checklist itself, such as “20 min”."""
    try:
        quantity = parse_quantity(source)
    except (NotANumberError, UnknownUnitError):
        return None
    return _exact(quantity.number, quantity.unit.name)
