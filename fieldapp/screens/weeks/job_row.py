"""A job as a row: how far it has come, its state in a word, and what is next."""

from datetime import datetime

from fieldapp.actions.rules import LEAD
from fieldapp.checklist.model import Waive
from fieldapp.job.job import Job
from fieldapp.job.moments import span
from fieldapp.judgement.evaluation import Evaluation, StepState, evaluate
from fieldapp.screens.frame_view import present_phase, share_in_order
from fieldapp.screens.row_view import PipeView, RowView
from fieldapp.screens.steps.steps_view import shortened


def row_of_job(job: Job, now: datetime) -> RowView:
    """Return a job as a row of its own; a touch takes it in hand."""
    evaluation = evaluate(job, now)
    word, mark = _state(job, evaluation)
    here = present_phase(job, evaluation, "")
    phases = job.checklist.phases
    done = sum(all(evaluation.steps[s.id].in_order for s in p.steps) for p in phases)
    hurt = tuple(
        at for at, p in enumerate(phases) if any(evaluation.steps[s.id].deviations for s in p.steps)
    )
    count = sum(evaluation.steps[s.id].in_order for s in here.steps)
    age = span((now - job.state.log[-1].at).total_seconds()) if job.state.log else ""
    finished = word == "done"
    return RowView(
        touch="open job",
        details=(job.number,),
        first=job.sheet.text_of("unit") or job.number,
        second=job.sheet.text_of("site_name") or "",
        mark=mark,
        word=word,
        right=_next(job, evaluation, word),
        below=job.number,
        pipe=PipeView(len(phases), len(phases) if finished else min(done, phases.index(here)),
                      0.0 if finished else share_in_order(here, evaluation), hurt),
        under_pipe="signed, closed" if finished else f"{here.title}, {count} of {len(here.steps)}",
        age=age,
        here=word == "due now",
    )  # fmt: skip


def _state(job: Job, evaluation: Evaluation) -> tuple[str, str]:
    if job.state.signature(LEAD):
        return "done", "done"
    if job.running():
        return "due now", "now"
    unsettled = [d for d in evaluation.deviations if not d.settled]
    if any(d.verdict.waive is Waive.NEVER for d in unsettled):
        return "stopped", "failed"
    if unsettled and evaluation.next_step is not None and (
        evaluation.next_step.state is StepState.DEVIATION
    ):  # fmt: skip
        return "to judge", "deviation"
    return "at work", "now"


def _next(job: Job, evaluation: Evaluation, word: str) -> str:
    if running := job.running():
        return shortened(job.checklist.step_of(running[0][0].id).title, 44)
    if word == "done":
        return "Make the record"
    coming = evaluation.next_step
    return shortened(coming.step.title, 44) if coming else "Sign off"
