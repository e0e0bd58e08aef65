"""What is said of each subject of a step, what deviates, and when the step was done."""

from collections.abc import Mapping

from fieldapp.checklist.model import Step
from fieldapp.job.job import Job
from fieldapp.judgement.asking import asked_for, because
from fieldapp.judgement.deviations import Deviation, deviation_of
from fieldapp.judgement.staleness import Done, done_of
from fieldapp.judgement.subjects import verdict_of, verdict_of_computed
from fieldapp.judgement.values import Values
from fieldapp.judgement.verdict import MAY_BE_LEFT_OUT, NOT_NEEDED, Place, Verdict


def verdicts_of(step: Step, job: Job, values: Values) -> dict[str, Verdict]:
    """Return the verdict of every subject of a step: entries, and computed values it judges."""
    if not asked_for(step, values.replies):
        words = because(step, job.checklist, values.replies)
        left_out = Verdict(Place.NOT_NEEDED, f"Not needed: {words}.") if words else NOT_NEEDED
        return {entry.id: left_out for entry in step.entries}
    return _if_asked_for(step, job, values)


def deviations_of(step: Step, verdicts: Mapping[str, Verdict], job: Job) -> tuple[Deviation, ...]:
    """Return what of a step is outside its limits, or too near."""
    return tuple(
        deviation_of(step, subject, verdict, job.state)
        for subject, verdict in verdicts.items()
        if verdict.place in (Place.TOO_NEAR, Place.OUTSIDE)
    )


def done_now(
    step: Step, verdicts: Mapping[str, Verdict], deviations: tuple[Deviation, ...], job: Job,
    values: Values,
) -> Done | None:  # fmt: skip
    """Return when a step was done; one that is no longer asked for was done if it was whole.

    What it set stays true: a valve that was opened does not close because an answer changed.
    """
    if asked_for(step, values.replies):
        return done_of(step, verdicts, deviations, job)
    verdicts = _if_asked_for(step, job, values)
    return done_of(step, verdicts, deviations_of(step, verdicts, job), job)


def _if_asked_for(step: Step, job: Job, values: Values) -> dict[str, Verdict]:
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
