"""Where a job stands: every verdict, every gate, what is stale, what is open."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from fieldapp.checklist.model import Step, Waive
from fieldapp.job.job import Job
from fieldapp.judgement.deviations import Deviation, deviation_of
from fieldapp.judgement.plant import not_as_required, states_of
from fieldapp.judgement.staleness import Done, done_of, why_stale
from fieldapp.judgement.subjects import verdict_of, verdict_of_computed
from fieldapp.judgement.values import Values, values_of
from fieldapp.judgement.verdict import MAY_BE_LEFT_OUT, NOT_NEEDED, Place, Verdict


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
        step.id: tuple(
            deviation_of(step, subject, verdict, job.state)
            for subject, verdict in verdicts[step.id].items()
            if verdict.place in (Place.TOO_NEAR, Place.OUTSIDE)
        )
        for step in job.checklist.steps()
    }
    done = {
        step.id: done_of(step, verdicts[step.id], deviations[step.id], job)
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
        )  # fmt: skip
        state, why = _state_of(found, job)
        standings[step.id] = StepStanding(
            step, state, why, gate, found.verdicts, found.deviations, found.done, found.unfit
        )
    return Evaluation(values, standings, plant)


@dataclass(frozen=True, slots=True)
class _Found:
    """What was found out about a step, from which its state follows."""

    step: Step
    gate: tuple[str, ...]
    verdicts: Mapping[str, Verdict]
    deviations: tuple[Deviation, ...]
    done: Done | None
    stale: str
    unfit: tuple[str, ...]
    needed: bool


def verdicts_of(step: Step, job: Job, values: Values) -> dict[str, Verdict]:
    """Return the verdict of every subject of a step: entries, and computed values it judges."""
    if not applies(step, values):
        return {entry.id: NOT_NEEDED for entry in step.entries}
    verdicts = {}
    for entry in step.entries:
        verdict = verdict_of(entry, job, values)
        if entry.optional and verdict.place is Place.MISSING:
            verdict = MAY_BE_LEFT_OUT
        verdicts[entry.id] = verdict
    if all(verdict.place is Place.NOT_NEEDED for verdict in verdicts.values()):
        return verdicts
    for computed in job.checklist.computed:
        if computed.step == step.id and computed.judged:
            verdicts[computed.id] = verdict_of_computed(computed, values)
    return verdicts


def applies(step: Step, values: Values) -> bool:
    """Say whether a step is needed on this job."""
    if step.when and not values.answers.get(step.when, False):
        return False
    return not (step.unless and values.answers.get(step.unless, False))


def _state_of(found: _Found, job: Job) -> tuple[StepState, str]:
    places = {verdict.place for verdict in found.verdicts.values()}
    if not found.needed:
        return StepState.NOT_NEEDED, "Not needed here."
    if found.stale:
        return StepState.STALE, found.stale
    if found.done:
        held = (StepState.HELD, _waits_for(found.gate, job))
        return held if found.gate else (StepState.DONE, "")
    return _unfinished(found, places, job)


def _unfinished(found: _Found, places: set[Place], job: Job) -> tuple[StepState, str]:
    unsettled = [deviation for deviation in found.deviations if not deviation.settled]
    if unsettled:
        return StepState.DEVIATION, unsettled[0].sentence
    if found.gate:
        return StepState.BLOCKED, _waits_for(found.gate, job)
    if found.unfit:
        return StepState.BLOCKED, " ".join(found.unfit)
    begun = places - {Place.MISSING, Place.NOT_NEEDED} or any(
        entry.id in job.state.attempts for entry in found.step.entries
    )
    return (StepState.BEGUN, "Begun.") if begun else (StepState.READY, "To do.")


def _waits_for(gate: tuple[str, ...], job: Job) -> str:
    titles = "; ".join(f"“{job.checklist.step(need).title}”" for need in gate)
    return f"Waits for {titles}."


def may_accept(waive: Waive) -> str:
    """Return in words who may accept a deviation of a class."""
    return {
        Waive.NEVER: "nobody may accept this",
        Waive.OWNER: "only the owner's engineer may accept this, with a document",
        Waive.LEAD: "the crew lead may accept this, with a condition",
        Waive.REASON: "the technician says why, the crew lead sees it",
    }[waive]
