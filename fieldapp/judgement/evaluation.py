"""Where a job stands: every verdict, every gate, what is stale, what is open."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from fieldapp.checklist.model import Step, Waive
from fieldapp.job.job import Job
from fieldapp.judgement.asking import asked_by_facts, asked_for, because, conditions, corrected
from fieldapp.judgement.deviations import Deviation
from fieldapp.judgement.plant import not_as_required, states_of
from fieldapp.judgement.staleness import Done, why_stale
from fieldapp.judgement.step_verdicts import deviations_of, done_now, verdicts_of
from fieldapp.judgement.values import Values, values_of
from fieldapp.judgement.verdict import Place, Verdict


class StepState(StrEnum):
    """Where one step stands."""

    READY = "to do"
    BEGUN = "begun"
    BLOCKED = "waits"
    DEVIATION = "to accept"
    STALE = "to do again"
    HELD = "gate reopened"
    DONE = "done"
    NOT_NEEDED = "not needed"


@dataclass(frozen=True, slots=True)
class StepStanding:
    """One step: its state, why, the gates that are not in order, and its deviations.

    `unfit` says in words what of valves, pumps and volumes must be otherwise before it is done.
    """

    step: Step
    state: StepState
    why: str
    gate: tuple[str, ...]
    verdicts: Mapping[str, Verdict]
    deviations: tuple[Deviation, ...]
    done: Done | None
    unfit: tuple[str, ...] = ()

    @property
    def in_order(self) -> bool:
        """Say whether what this step holds back may go on."""
        return self.state in (StepState.DONE, StepState.NOT_NEEDED)


@dataclass(frozen=True, slots=True)
class Evaluation:
    """The whole job at a moment."""

    values: Values
    steps: Mapping[str, StepStanding]
    plant: Mapping[str, str]

    @property
    def open_steps(self) -> tuple[StepStanding, ...]:
        """Return the steps that are not in order."""
        return tuple(s for s in self.steps.values() if not s.in_order)

    @property
    def deviations(self) -> tuple[Deviation, ...]:
        """Return every deviation, settled or open."""
        return tuple(d for s in self.steps.values() for d in s.deviations)

    @property
    def next_step(self) -> StepStanding | None:
        """Return the first step that can be done now."""
        waiting = (StepState.BLOCKED, StepState.HELD)
        return next((s for s in self.open_steps if s.state not in waiting), None)


def evaluate(job: Job, now: datetime) -> Evaluation:
    """Return where the job stands at `now`."""
    values = values_of(job)
    verdicts = {step.id: verdicts_of(step, job, values) for step in job.checklist.steps()}
    deviations = {
        step.id: deviations_of(step, verdicts[step.id], job) for step in job.checklist.steps()
    }
    done = {
        step.id: done_now(step, verdicts[step.id], deviations[step.id], job, values)
        for step in job.checklist.steps()
    }
    skipped = {
        step.id
        for step in job.checklist.steps()
        if all(verdict.place is Place.NOT_NEEDED for verdict in verdicts[step.id].values())
    }
    stale = why_stale(job, done, skipped, now)
    plant = states_of(job, done)
    standings: dict[str, StepStanding] = {}
    for step in job.checklist.steps():
        gate = tuple(need for need in step.needs if not standings[need].in_order)
        found = _Found(
            step, gate, verdicts[step.id], deviations[step.id], done[step.id],
            stale.get(step.id, ""), not_as_required(step, plant), needed=step.id not in skipped,
            undecided=_undecided(step, job, values, standings),
        )  # fmt: skip
        state, why = _state_of(found, job, values)
        standings[step.id] = StepStanding(
            step,
            state,
            why,
            (*gate, *found.undecided),
            found.verdicts,
            found.deviations,
            found.done,
            found.unfit,
        )
    return Evaluation(values, standings, plant)


@dataclass(frozen=True, slots=True)
class _Found:
    """What was found out about a step, from which its state follows.

    `undecided` names the steps whose answer is not sure and decides whether this one is needed.
    """

    step: Step
    gate: tuple[str, ...]
    verdicts: Mapping[str, Verdict]
    deviations: tuple[Deviation, ...]
    done: Done | None
    stale: str
    unfit: tuple[str, ...]
    needed: bool
    undecided: tuple[str, ...]

    @property
    def waits(self) -> tuple[str, ...]:
        """Return the steps that this one waits for."""
        return (*self.gate, *self.undecided)


def _undecided(
    step: Step, job: Job, values: Values, standings: Mapping[str, StepStanding]
) -> tuple[str, ...]:
    """Return the earlier steps on whose answer it hangs, not sure yet, whether this is needed.

    Who says that a step can be left out must be in order; an answer that asks for it is heard
    at once.
    """
    wanted = asked_for(step, values.replies)
    if not wanted and not asked_by_facts(step, values.replies):
        return ()
    askers = {answer.entry: job.checklist.step_of(answer.entry).id for answer in conditions(step)}
    return tuple(
        asker
        for entry, asker in askers.items()
        if entry in values.replies.awaited or (not wanted and not standings[asker].in_order)
    )


def _state_of(found: _Found, job: Job, values: Values) -> tuple[StepState, str]:
    places = {verdict.place for verdict in found.verdicts.values()}
    if not found.needed:
        if found.undecided:
            return StepState.BLOCKED, _waits_for(found.undecided, job, values)
        return StepState.NOT_NEEDED, _not_needed(found.step, job, values)
    if found.stale:
        return StepState.STALE, found.stale
    if found.done:
        held = (StepState.HELD, _waits_for(found.waits, job, values))
        return held if found.waits else (StepState.DONE, "")
    return _unfinished(found, places, job, values)


def _not_needed(step: Step, job: Job, values: Values) -> str:
    words = because(step, job.checklist, values.replies)
    return f"Not needed: {words}." if words else "Not needed here."


def _unfinished(
    found: _Found, places: set[Place], job: Job, values: Values
) -> tuple[StepState, str]:
    unsettled = [deviation for deviation in found.deviations if not deviation.settled]
    if unsettled:
        return StepState.DEVIATION, unsettled[0].sentence
    if found.waits:
        return StepState.BLOCKED, _waits_for(found.waits, job, values)
    if found.unfit:
        return StepState.BLOCKED, " ".join(found.unfit)
    begun = places - {Place.MISSING, Place.NOT_NEEDED} or any(
        entry.id in job.state.attempts for entry in found.step.entries
    )
    if begun:
        return StepState.BEGUN, "Begun."
    words = because(found.step, job.checklist, values.replies)
    return StepState.READY, f"To do: {words}." if words else "To do."


def _waits_for(waits: tuple[str, ...], job: Job, values: Values) -> str:
    """Return in words what a step waits for; a corrected answer is given as the reason."""
    named = []
    for step in map(job.checklist.step, waits):
        asked = corrected(step, values.replies)
        words = f": {because(step, job.checklist, values.replies)}" if asked else ""
        named.append(f"“{step.title}”{words}")
    return f"Waits for {'; '.join(named)}."


def may_accept(waive: Waive) -> str:
    """Return in words who may accept a deviation of a class."""
    return {
        Waive.NEVER: "nobody may accept this",
        Waive.OWNER: "only the owner's engineer may accept this, with a document",
        Waive.LEAD: "the crew lead may accept this, with a condition",
        Waive.REASON: "the technician says why, the crew lead sees it",
    }[waive]
