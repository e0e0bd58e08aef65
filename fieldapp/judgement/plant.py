"""What is true of valves, pumps and volumes now, by the steps done and the valves closed."""

from collections.abc import Mapping

from fieldapp.checklist.model import Step
from fieldapp.job.events import Closed
from fieldapp.job.job import Job
from fieldapp.judgement.settlements import left_by_settlements
from fieldapp.judgement.staleness import Done


def states_of(job: Job, done: Mapping[str, Done | None]) -> dict[str, str]:
    """Return the state of each part that is known; what came last holds."""
    found = [
        (moment.last_sequence, part, state)
        for step in job.checklist.steps()
        if (moment := done.get(step.id)) is not None
        for part, state in step.sets
    ]
    found += [
        (event.sequence, event.what.part, "closed")
        for event in job.state.of(Closed)
        if isinstance(event.what, Closed)
    ]
    found += [(left.sequence, part, "") for left in left_by_settlements(job) for part in left.parts]
    last = {part: state for _, part, state in sorted(found, key=lambda item: item[0])}
    return {part: state for part, state in last.items() if state}


def not_as_required(step: Step, states: Mapping[str, str]) -> tuple[str, ...]:
    """Return in words what must be otherwise before a step may be done."""
    return tuple(
        f"The {part.replace('_', ' ')} must be {state}; "
        f"it is {states.get(part, 'not known to be so')}."
        for part, state in step.requires
        if states.get(part) != state
    )
