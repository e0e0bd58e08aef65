"""What is in force at a moment: permits and blocks with their time, valves open, pumps running."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from fieldapp.checklist.model import Kind, Step
from fieldapp.job.events import Blocked, Restored
from fieldapp.job.job import Job
from fieldapp.job.moments import NotATimeError, moment_of
from fieldapp.job.state import Given
from fieldapp.judgement.evaluation import Evaluation

SOON = 30 * 60.0
# What lets oil or air past while the pump stands; valves inside the shut loop do not.
OUTWARD = ("suction_tank_valve", "return_tank_valve", "vessel_bleed", "return_bleed")


@dataclass(frozen=True, slots=True)
class InForce:
    """One thing that is in force, or was: what, by whom and since when, until when, and its end.

    `step` is the step that brings it to an end, `sequence` the event of what was blocked outside
    the list (-1 if the list says it). `ended_by` is who restored it or handed it back.
    """

    what: str
    words: str
    since: datetime
    by: str
    until: datetime | None = None
    step: str = ""
    sequence: int = -1
    ended: datetime | None = None
    ended_by: str = ""

    def seconds_left(self, now: datetime) -> float | None:
        """Return how long it still holds; below zero it ran out; None without an end."""
        return None if self.until is None else (self.until - now).total_seconds()

    def urgency(self, now: datetime) -> tuple[int, float]:
        """Return what sorts the most urgent first: run out, soon, then the rest."""
        left = self.seconds_left(now)
        return (1, 0.0) if left is None else (0 if left < SOON else 2, left)


def in_force(job: Job, evaluation: Evaluation, now: datetime) -> tuple[InForce, ...]:
    """Return what is in force now, the most urgent first."""
    found = (fact for fact in facts_of(job, evaluation) if fact.ended is None)
    return tuple(sorted(found, key=lambda fact: fact.urgency(now)))


def facts_of(job: Job, evaluation: Evaluation) -> tuple[InForce, ...]:
    """Return everything that was ever in force, in the order in which it began."""
    found = (
        *_by_list(job, evaluation),
        *_beside_list(job),
        *_running(job),
        *_plant(job, evaluation),
    )
    return tuple(sorted(found, key=lambda fact: fact.since))


def _by_list(job: Job, evaluation: Evaluation) -> list[InForce]:
    """Return the permits and blocks of the list: steps with a time that expires."""
    found = []
    for step in job.checklist.steps():
        expiring = next((entry for entry in step.entries if entry.expires), None)
        given = job.state.latest(expiring.id) if expiring else None
        if expiring is None or given is None or "missing" in given.fields:
            continue
        ended, by, closing = _end_of(step, job, evaluation, given)
        by_whom, words = _named(step, job)
        found.append(InForce(
            what=_what(step), words=words, since=_first(job, expiring.id).done_at,
            by=by_whom or given.by, until=_moment(given.fields.get("value", ""), given.done_at),
            step=closing, ended=ended, ended_by=by,
        ))  # fmt: skip
    return found


def _end_of(
    step: Step, job: Job, evaluation: Evaluation, given: Given
) -> tuple[datetime | None, str, str]:
    """Return when and by whom it was brought to an end, and the step that does so."""
    done = [evaluation.steps[name].done for name in step.until]
    closing = step.until[-1] if step.until else ""
    if not done or any(moment is None or moment.last_sequence < given.since for moment in done):
        return None, "", closing
    last = max((moment for moment in done if moment), key=lambda moment: moment.last_sequence)
    person, _ = _named(job.checklist.step(closing), job)
    return last.at, person or last.by, closing


def _named(step: Step, job: Job) -> tuple[str, str]:
    """Return the person that a step names, and its other texts in a sentence."""
    person, words = "", []
    for entry in step.entries:
        given = job.state.latest(entry.id)
        value = given.fields.get("value", "") if given else ""
        if not value or entry.expires or entry.kind not in (Kind.TEXT, Kind.SERIAL):
            continue
        if entry.other_person:
            person = value
        else:
            words.append(value)
    return person, "; ".join(words)


def _what(step: Step) -> str:
    expiring = next(entry for entry in step.entries if entry.expires)
    return "Permit" if "permit" in expiring.id else expiring.label.removesuffix(" until")


def _first(job: Job, entry: str) -> Given:
    return job.state.given[entry][0]


def _beside_list(job: Job) -> list[InForce]:
    """Return what was blocked outside the list, with who restored it."""
    restored = {
        event.what.sequence: event
        for event in job.state.of(Restored)
        if isinstance(event.what, Restored)
    }
    found = []
    for event in job.state.of(Blocked):
        what = event.what
        assert isinstance(what, Blocked)  # noqa: S101 - asked for just now
        end = restored.get(event.sequence)
        by = end.what.person if end and isinstance(end.what, Restored) else ""
        found.append(InForce(
            what=what.what, words="", since=event.at, by=", ".join(filter(None, (what.person,
            what.role))), until=_moment(what.until, event.at), sequence=event.sequence,
            ended=end.at if end else None, ended_by=by,
        ))  # fmt: skip
    return found


def _running(job: Job) -> list[InForce]:
    """Return the holds and traces that run now."""
    found = ((entry, attempt, job.checklist.step_of(entry.id)) for entry, attempt in job.running())
    return [
        InForce(f"{entry.label} runs", step.title, attempt.started, attempt.by, step=step.id)
        for entry, attempt, step in found
    ]


def _plant(job: Job, evaluation: Evaluation) -> list[InForce]:
    """Return valves left open while the pump stands, and a vacuum pump that is not gone."""
    plant: Mapping[str, str] = evaluation.plant
    wanted = [("vacuum_pump", "runs")]
    if plant.get("oil_pump") != "runs":
        wanted += [(valve, "open") for valve in OUTWARD]
    found = []
    for part, state in wanted:
        if plant.get(part) == state and (step := _setter(job, evaluation, part, state)):
            done = evaluation.steps[step.id].done
            if done is not None:
                words = f"The {part.replace('_', ' ')} {'is open' if state == 'open' else state}"
                found.append(InForce(words, "", done.at, done.by))
    return found


def _setter(job: Job, evaluation: Evaluation, part: str, state: str) -> Step | None:
    """Return the step that brought a part into its state last."""
    steps = [
        (done.last_sequence, step.id)
        for step in job.checklist.steps()
        if (part, state) in step.sets and (done := evaluation.steps[step.id].done) is not None
    ]
    return job.checklist.step(max(steps)[1]) if steps else None


def _moment(text: str, near: datetime) -> datetime | None:
    try:
        return moment_of(text, near) if text else None
    except NotATimeError:
        return None
