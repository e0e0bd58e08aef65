"""Doubts about conditions: answers that decide nothing, and values that may never come."""

from collections.abc import Mapping

from fieldapp.checklist.model import Answer, Checklist, Entry, Kind, Limits, Step, Waive
from fieldapp.checklist.reading.conditions import answers_of
from fieldapp.checklist.reading.names import Tables, bounds, measures, steps
from fieldapp.checklist.reading.order import sources_of
from fieldapp.checklist.reading.shapes import Table
from fieldapp.checklist.values import values_of

Condition = tuple[str, object]


def doubt_conditions(checklist: Checklist, tables: Tables) -> None:
    """Note conditions that are always true, and limits that rest on a step that may not be."""
    entries = {entry.id: entry for step in checklist.steps() for entry in step.entries}
    for step, table in steps(checklist, tables):
        for key, answer in (("when", step.when_answer), ("unless", step.unless_answer)):
            if answer is not None:
                _doubt_answer(answer, entries[answer.entry], table.below(key))
        if step.when_answer is not None:
            _doubt_beginning(step, checklist, entries[step.when_answer.entry], table.below("when"))
    _doubt_sources(checklist, tables)


def _doubt_beginning(step: Step, checklist: Checklist, entry: Entry, table: Table) -> None:
    """Note answers that bring a step up and hold back for ever what it needs."""
    first = needed_by(step, checklist)
    asked = {each.id for other in checklist.steps() if other.id in first for each in other.entries}
    refused = {option.text for option in entry.options if option.waive is Waive.NEVER}
    for text in step.when_answer.texts if step.when_answer and entry.id in asked else ():
        if text in refused:
            what = f"“{text}” is accepted by nobody: a step that needs “{entry.id}” never begins"
            table.fault(what, "is")


def needed_by(step: Step, checklist: Checklist) -> set[str]:
    """Return the steps that must be in order before this one, near and far."""
    found = set(step.needs)
    for other in reversed(checklist.steps()):
        if other.id in found:
            found |= set(other.needs)
    return found


def _doubt_answer(answer: Answer, entry: Entry, table: Table) -> None:
    if entry.kind is Kind.CONFIRM and not entry.optional:
        what = f"“{entry.id}” is always confirmed in the end: write it into needs, or ask by choice"
        table.fault(what, "entry")
    elif entry.kind is Kind.CHOICE and set(answer.texts) >= set(answers_of(entry)):
        table.fault(f"every answer of “{entry.id}” stands here: this decides nothing", "is")


def _doubt_sources(checklist: Checklist, tables: Tables) -> None:
    """Note limits that could never be judged, because the step of their value is not needed."""
    sources = sources_of(checklist, values_of(checklist))
    asked = {entry.id: conditions(step) for step in checklist.steps() for entry in step.entries}
    own = {step.id: conditions(step) for step in checklist.steps()}
    for step, table in steps(checklist, tables):
        for number, entry in enumerate(step.entries):
            for measure, below in measures(entry, table.below("entry", number)):
                _doubt_limits(measure.limits, below, sources, asked, own[step.id])
    for number, computed in enumerate(checklist.computed):
        if computed.judged:
            table = tables["computed", number]
            for name in sorted(sources[computed.id]):
                if asked[name] - own[computed.step]:
                    what = f"rests on “{name}”, whose step may not be needed: then it stays open"
                    table.fault(what, "inputs")


def _doubt_limits(
    limits: Limits,
    table: Table,
    sources: Mapping[str, set[str]],
    asked: Mapping[str, frozenset[Condition]],
    own: frozenset[Condition],
) -> None:
    for key, bound in bounds(limits):
        for name in sorted(sources.get(bound.name, set())):
            if asked[name] - own:
                what = f"{key} rests on “{name}”, whose step may not be needed: then it stays open"
                table.below("limits").fault(what, key)


def conditions(step: Step) -> frozenset[Condition]:
    """Return everything on which it depends whether a step is needed."""
    found: dict[str, object] = {
        "when": step.when,
        "unless": step.unless,
        "when answer": step.when_answer,
        "unless answer": step.unless_answer,
    }
    return frozenset((key, value) for key, value in found.items() if value)
