"""Where the figures come from: formulas, agreed figures, the job sheet and the instruments."""

from datetime import date

from fieldapp.checklist.facts import facts_by_id
from fieldapp.checklist.model import Checklist, Kind
from fieldapp.job.job import Job
from fieldapp.job.sheet import FactValue
from fieldapp.job.sheet import Instrument as OnSheet
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.judgement.subjects import verdict_of_computed
from fieldapp.judgement.values import Value, Working, used_for
from fieldapp.judgement.verdict import Place, Verdict
from fieldapp.record.chapters.deviations import how_settled
from fieldapp.record.chapters.shapes.shapes_of_sources import (
    Agreed,
    Computation,
    Instrument,
    Stated,
    Term,
)
from fieldapp.record.chapters.words import (
    in_unit_text,
    judgement,
    plain,
    uncertainty_text,
    unit_sign,
)
from fieldapp.units import Quantity


def computations_of(job: Job, evaluation: Evaluation) -> tuple[Computation, ...]:
    """Return every computed value with its working, in the order of the checklist."""
    return tuple(
        _computation(working, job, evaluation) for working in evaluation.values.workings.values()
    )


def _computation(working: Working, job: Job, evaluation: Evaluation) -> Computation:
    computed, formula = working.computed, working.formula
    value, unit = working.value, computed.unit
    labels = labels_of(job.checklist)
    found = next((d for d in evaluation.deviations if d.subject == computed.id), None)
    return Computation(
        id=computed.id,
        label=computed.label,
        formula=formula.name,
        rule=formula.summary.rstrip("."),
        inputs=tuple(
            _term(name, source, given, job, labels) for name, source, given in working.inputs
        ),
        value=(
            "" if value is None else in_unit_text(value, unit, computed.decimals, computed.rounding)
        ),
        unit=unit_sign(unit),
        uncertainty="" if value is None else uncertainty_text(value, unit, computed.decimals),
        judgement=judgement(
            _verdict(working, evaluation), unit, settled=how_settled(found) if found else ""
        ),
        valid_for=formula.valid_for,
        source=formula.source,
    )


def _verdict(working: Working, evaluation: Evaluation) -> Verdict:
    if working.value is None:
        return Verdict(Place.OUTSIDE, f"Cannot be worked out: {working.refusal}.")
    if not working.computed.step:
        return Verdict(Place.NOTED, "Used as a limit or an input.")
    return verdict_of_computed(working.computed, evaluation.values)


def _term(name: str, source: str, value: Value, job: Job, labels: dict[str, str]) -> Term:
    unit = value.unit or _unit_of(source, job)
    decimals = next((c.decimals for c in job.checklist.computed if c.id == source), 0)
    text = in_unit_text(value, unit, decimals) if unit else ""
    return Term(name, labels.get(source, name.replace("_", " ")), text, unit_sign(unit))


def _unit_of(source: str, job: Job) -> str:
    return next((c.unit for c in job.checklist.computed if c.id == source), "s")


def labels_of(checklist: Checklist) -> dict[str, str]:
    """Return the label of every value by its name."""
    labels = {name: fact.label for name, fact in facts_by_id().items()}
    labels |= {constant.id: constant.label for constant in checklist.constants}
    labels |= {computed.id: computed.label for computed in checklist.computed}
    for step in checklist.steps():
        for entry in step.entries:
            labels[entry.id] = entry.label
            labels[f"{entry.id}_duration"] = f"{entry.label}, time"
            labels[f"{entry.id}_closed_after"] = f"{entry.label}, time to closed"
            for column in entry.columns:
                labels[f"{column.id}_first"] = f"{column.label}, first"
                labels[f"{column.id}_last"] = f"{column.label}, last"
    return labels


def agreed_of(job: Job) -> tuple[Agreed, ...]:
    """Return the figures and answers that were fixed before the job."""
    figures = []
    for constant in job.checklist.constants:
        stated = job.sheet.owner_number(constant.id) if constant.owner else None
        number, unit = (
            (stated.number, stated.unit.name) if stated else (constant.number, constant.unit)
        )
        source = "owner, by the job sheet" if stated else constant.source
        figures.append(Agreed(
            constant.id, constant.label, plain(number), unit_sign(unit), source
        ))  # fmt: skip
    for question in job.checklist.questions:
        answer = job.sheet.owner_answer(question.id)
        yes = question.otherwise if answer is None else answer
        source = "checklist" if answer is None else "owner, by the job sheet"
        figures.append(Agreed(question.id, question.label, "yes" if yes else "no", "", source))
    return tuple(figures)


def stated_of(job: Job) -> tuple[Stated, ...]:
    """Return the facts of the job sheet."""
    facts = facts_by_id()
    return tuple(
        Stated(name, facts[name].section, facts[name].label, _words(value))
        for name, value in job.sheet.facts.items()
        if name in facts
    )


def _words(value: FactValue) -> str:
    match value:
        case Quantity():
            return f"{plain(value.number)} {unit_sign(value.unit.name)}".strip()
        case bool():
            return "yes" if value else "no"
        case date():
            return value.isoformat()
    return str(value)


def instruments_of(job: Job, day: date) -> tuple[Instrument, ...]:
    """Return the instruments that were used, with what for and how long they still count."""
    used = _uses(job)
    return tuple(
        _instrument(found, used[found.id], day)
        for found in job.sheet.instruments
        if found.id in used
    )


def _uses(job: Job) -> dict[str, tuple[str, ...]]:
    """Return the labels of what each instrument was used for."""
    uses: dict[str, dict[str, None]] = {}
    for step in job.checklist.steps():
        for entry in step.entries:
            for given in job.state.given.get(entry.id, ()):
                if given.instrument:
                    uses.setdefault(given.instrument, {})[entry.label] = None
            if entry.kind in (Kind.TRACE, Kind.HOLD) and job.state.attempts.get(entry.id):
                readings = [r for a in job.state.attempts[entry.id] for r in a.readings]
                for column in entry.columns:
                    label = f"{entry.label}: {column.label}"
                    for used in {used_for(column, reading) for reading in readings} - {""}:
                        uses.setdefault(used, {})[label] = None
    return {name: tuple(labels) for name, labels in uses.items()}


def _instrument(found: OnSheet, used_for: tuple[str, ...], day: date) -> Instrument:
    whole = max(1, (found.due - found.calibrated).days)
    used_up = (day - found.calibrated).days
    return Instrument(
        id=found.id,
        name=found.name,
        serial=found.serial,
        used_for=used_for,
        accuracy=_accuracy(found),
        calibrated=found.calibrated.isoformat(),
        due=found.due.isoformat(),
        used_up_percent=max(0, min(100, round(100 * used_up / whole))),
        days_left=(found.due - day).days,
    )


def _accuracy(found: OnSheet) -> str:
    parts = []
    if found.accuracy:
        parts.append(f"{plain(found.accuracy.number)} {unit_sign(found.accuracy.unit.name)}")
    if found.of_reading:
        parts.append(f"{plain(found.of_reading)} % of reading")
    if found.of_span and found.span:
        span = f"{plain(found.span.number)} {unit_sign(found.span.unit.name)}"
        parts.append(f"{plain(found.of_span)} % of {span}")
    words = f"±({' + '.join(parts)})" if len(parts) > 1 else f"±{''.join(parts)}"
    if found.repeatability:
        repeats = f"{plain(found.repeatability.number)} {unit_sign(found.repeatability.unit.name)}"
        words += f"; repeats to {repeats}"
    return words
