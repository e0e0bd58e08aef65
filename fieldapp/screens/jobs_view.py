"""What the list of jobs shows: how far each has come, what is next, and journals that are hurt."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from fieldapp.actions.rules import LEAD
from fieldapp.checklist.model import Kind, Waive
from fieldapp.job.job import Job
from fieldapp.job.moments import span
from fieldapp.judgement.evaluation import Evaluation, StepState, evaluate
from fieldapp.screens.frame_view import PlateView, present_phase, share_in_order
from fieldapp.screens.row_view import ListView, PipeView, RowView
from fieldapp.screens.steps.steps_view import shortened

_ORDER = ("due now", "stopped", "to judge", "at work", "done", "not open")


@dataclass(frozen=True, slots=True)
class NotOpen:
    """A job whose journal cannot be opened, and the sentence that says why and what to do."""

    number: str
    sentence: str


def jobs_view(
    jobs: Sequence[Job | NotOpen], now: datetime, start: int, look: str, told: tuple[str, bool]
) -> ListView:
    """Return the list of jobs, the most urgent first."""
    rows = sorted(
        (_not_open(j) if isinstance(j, NotOpen) else _row(j, now) for j in jobs),
        key=lambda row: _ORDER.index(row.word),
    )
    other = "Night look" if look == "sun" else "Sun look"
    return ListView(
        title="Jobs",
        under=(f"{now.day} {now:%b}", f"{now:%H:%M}"),
        rail=(
            PlateView("new", "New job", "from a sheet"),
            PlateView("safe", "Stop and make safe", kind="warning"),
            PlateView("look", other),
        ),
        rows=tuple(rows),
        start=start,
        empty="No job is on this tablet yet. Touch “New job”.",
        told=told,
    )


def _not_open(job: NotOpen) -> RowView:
    return RowView("", (), job.number, job.sentence, "failed", "not open")


def _row(job: Job, now: datetime) -> RowView:
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
    if running_entry(job):
        return "due now", "now"
    unsettled = [d for d in evaluation.deviations if not d.settled]
    if any(d.verdict.waive is Waive.NEVER for d in unsettled):
        return "stopped", "failed"
    if unsettled and evaluation.next_step is not None and (
        evaluation.next_step.state is StepState.DEVIATION
    ):  # fmt: skip
        return "to judge", "deviation"
    return "at work", "now"


def running_entry(job: Job) -> str:
    """Return the trace or hold that runs now; "" if none does."""
    for step in job.checklist.steps():
        for entry in step.entries:
            if entry.kind not in (Kind.TRACE, Kind.HOLD):
                continue
            attempt = job.state.attempt(entry.id)
            if attempt is not None and attempt.ended is None:
                return entry.id
    return ""


def _next(job: Job, evaluation: Evaluation, word: str) -> str:
    running = running_entry(job)
    if running:
        return shortened(f"{job.checklist.step_of(running).title}", 44)
    if word == "done":
        return "Make the record"
    coming = evaluation.next_step
    return shortened(coming.step.title, 44) if coming else "Sign off"
