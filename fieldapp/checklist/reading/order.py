"""Whether the steps of a checklist come in an order in which they can be done and judged."""

from collections.abc import Mapping

from fieldapp.checklist.facts import VALVES
from fieldapp.checklist.model import Checklist, Limits, Step
from fieldapp.checklist.reading.names import Tables, Values, bounds, fault_name, measures, steps
from fieldapp.checklist.reading.shapes import Table


def check_gates(checklist: Checklist, tables: Tables) -> None:
    """Note gates that no step opens, or only a later one."""
    known = {step.id for step in checklist.steps()}
    earlier: set[str] = set()
    for step, table in steps(checklist, tables):
        for name in step.needs:
            _check_gate(name, step, table, known, earlier)
        earlier.add(step.id)
        for name in step.until:
            if name not in known or name in earlier:
                what = f"until “{name}” is no step that comes later"
                fault_name(table, what, "until", name)


def _check_gate(name: str, step: Step, table: Table, known: set[str], earlier: set[str]) -> None:
    if name == step.id:
        what = f"needs “{name}” is this very step: it could never begin"
        fault_name(table, what, "needs", name)
    elif name not in known:
        fault_name(table, f"needs “{name}” is no step{table.nearest(name, known)}", "needs", name)
    elif name not in earlier:
        what = f"needs “{name}” comes later: put that step first, or take it out of needs"
        fault_name(table, what, "needs", name)


def check_states(checklist: Checklist, tables: Tables) -> None:
    """Note states that a step requires and that nothing before it can bring about."""
    reached = {(valve, "closed") for valve in VALVES}  # anybody may close a valve at any time
    for step, table in steps(checklist, tables):
        for part, state in step.requires:
            if (part, state) not in reached:
                what = f"no earlier step sets {part} = “{state}”: this step could never begin"
                table.below("requires").fault(what, part)
        reached |= set(step.sets)


def check_order(checklist: Checklist, tables: Tables, values: Values) -> None:
    """Note what rests on an entry of a later step: it could not be judged in time."""
    sources = sources_of(checklist, values)
    shown: dict[str, list[int]] = {}
    for number, computed in enumerate(checklist.computed):
        shown.setdefault(computed.step, []).append(number)
    late = {entry.id for step in checklist.steps() for entry in step.entries}
    for step, step_table in steps(checklist, tables):
        late -= {entry.id for entry in step.entries}
        for number, entry in enumerate(step.entries):
            for measure, table in measures(entry, step_table.below("entry", number)):
                _check_timely(measure.limits, table, sources, late)
        for number in shown.get(step.id, ()):
            computed, table = checklist.computed[number], tables["computed", number]
            _check_timely(computed.limits, table, sources, late)
            for name in sorted(sources[computed.id] & late):
                what = f"step “{step.id}” comes before “{name}”, which this value rests on"
                table.fault(f"{what}: name a later step", "step")


def _check_timely(
    limits: Limits, table: Table, sources: Mapping[str, set[str]], late: set[str]
) -> None:
    for key, bound in bounds(limits):
        for name in sorted(sources.get(bound.name, set()) & late):
            what = f"{key} “{bound.name}” rests on “{name}” of a later step"
            table.below("limits").fault(f"{what}: nobody can judge it in time", key)


def sources_of(checklist: Checklist, values: Values) -> dict[str, set[str]]:
    """Return, for each value, the entries that it rests on."""
    sources = {name: {value.entry} - {""} for name, value in values.items()}
    for computed in checklist.computed:
        rests = [sources.get(text, set()) for _, text in computed.inputs]
        sources[computed.id] = set().union(*rests)
    return sources
