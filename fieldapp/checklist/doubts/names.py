"""Doubts about names: what is defined and never used."""

from collections.abc import Iterator

from fieldapp.checklist.model import Checklist, Entry, Limits, Step
from fieldapp.checklist.reading.names import Tables, bounds

CONSTANT = "no limit and no formula uses this constant: take it out, or use it"
QUESTION = "no step asks this question in when or unless: take it out, or use it"
HAPPENING = "no step is undone_by this: people would report it for nothing"
COMPUTED = "nothing uses this value and no step shows it: add step, or take it out"


def doubt_names(checklist: Checklist, tables: Tables) -> None:
    """Note constants, questions, happenings and computed values of which nothing comes."""
    used = used_names(checklist)
    undone = {name for step in checklist.steps() for name in step.undone_by}
    shown = {computed.id for computed in checklist.computed if computed.step}
    for key, named, known, what in (
        ("constant", [one.id for one in checklist.constants], used, CONSTANT),
        ("question", [one.id for one in checklist.questions], used, QUESTION),
        ("happening", [one.id for one in checklist.happenings], undone, HAPPENING),
        ("computed", [one.id for one in checklist.computed], used | shown, COMPUTED),
    ):
        for number, name in enumerate(named):
            if name not in known:
                tables[key, number].fault(what, "id")


def used_names(checklist: Checklist) -> set[str]:
    """Return every name that a limit, a formula or a condition of the checklist uses."""
    used = {text for computed in checklist.computed for _, text in computed.inputs}
    for computed in checklist.computed:
        used |= set(_named(computed.limits))
    for step in checklist.steps():
        used |= set(_used_by_step(step))
    return used


def _used_by_step(step: Step) -> Iterator[str]:
    yield from (step.when, step.unless)
    for answer in (step.when_answer, step.unless_answer):
        if answer is not None:
            yield answer.entry
    for entry in step.entries:
        yield from _used_by_entry(entry)


def _used_by_entry(entry: Entry) -> Iterator[str]:
    yield entry.equals
    if entry.closed_within is not None:
        yield entry.closed_within.name
    for measure in (entry.measure, *(column.measure for column in entry.columns)):
        if measure is not None:
            yield from _named(measure.limits)


def _named(limits: Limits) -> Iterator[str]:
    return (bound.name for _, bound in bounds(limits))
