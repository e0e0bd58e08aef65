"""What the screen "what is open" shows: every step that is not in order, in groups, by pages.

Touches it passes on, besides those of the frame: "go", step / "page", start.
"""

from dataclasses import dataclass
from datetime import datetime

from fieldapp.actions.rules import LEAD
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import Evaluation, StepStanding, StepState, may_accept
from fieldapp.screens.frame_view import Desktop, FrameView, PlateView, frame_view
from fieldapp.screens.marks import mark_of_step
from fieldapp.screens.row_view import RowView
from fieldapp.screens.steps.steps_view import shortened

# The groups in the order in which they are shown.
GROUPS = (
    ("to do again", (StepState.STALE,)),
    ("to accept", (StepState.DEVIATION,)),
    ("to do now", (StepState.BEGUN, StepState.READY)),
    ("waits", (StepState.BLOCKED, StepState.HELD)),
)
_MARKS = {"to do again": "notyet", "to accept": "deviation", "to do now": "now", "waits": "todo"}


@dataclass(frozen=True, slots=True)
class GroupView:
    """How many steps are open in a group."""

    mark: str
    words: str


@dataclass(frozen=True, slots=True)
class OpenView:
    """What is open: counts by group and by phase, and the steps as rows."""

    frame: FrameView
    title: str
    groups: tuple[GroupView, ...]
    phases: str
    rows: tuple[RowView, ...]
    start: int


def open_view(
    job: Job, evaluation: Evaluation, now: datetime, desktop: Desktop, *, start: int = 0
) -> OpenView:
    """Return what is open, what to do again first."""
    found = [(name, s) for name, states in GROUPS for s in evaluation.open_steps
             if s.state in states]  # fmt: skip
    coming = evaluation.next_step
    signed = job.state.signature(LEAD) is not None
    first, second = ("Signed off", "see, record") if signed else ("Sign off", "nothing is open")
    main = PlateView("signoff", first, second, "main")
    if coming is not None:
        main = PlateView("go", "Next step", "", "main", (coming.step.id,))
    return OpenView(
        frame=frame_view(job, evaluation, now, desktop, main=main),
        title=_title(len(found)),
        groups=tuple(_group(name, found) for name, _ in GROUPS if any(n == name for n, _ in found)),
        phases=_phases(job, evaluation),
        rows=tuple(_row(name, standing, job) for name, standing in found),
        start=start,
    )


def _title(count: int) -> str:
    words = {0: "No step is open", 1: "One step is open"}
    return words.get(count, f"{count} steps are open")


def _group(name: str, found: list[tuple[str, StepStanding]]) -> GroupView:
    count = sum(group == name for group, _ in found)
    return GroupView(_MARKS[name], f"{count} {'wait' if name == 'waits' else name}")


def _phases(job: Job, evaluation: Evaluation) -> str:
    counts = (
        (phase.title, sum(not evaluation.steps[step.id].in_order for step in phase.steps))
        for phase in job.checklist.phases
    )
    return ", ".join(f"{title} {count}" for title, count in counts if count)


def _row(name: str, standing: StepStanding, job: Job) -> RowView:
    return RowView(
        touch="go",
        details=(standing.step.id,),
        first=standing.step.title,
        second=shortened(_why(name, standing, job), 150),
        mark=_MARKS[name] if name != "to do now" else mark_of_step(standing),
        word=name,
    )


def _why(name: str, standing: StepStanding, job: Job) -> str:
    unsettled = [deviation for deviation in standing.deviations if not deviation.settled]
    if name == "to accept" and unsettled:
        by = may_accept(unsettled[0].verdict.waive)
        return f"{unsettled[0].verdict.sentence} {by[:1].upper()}{by[1:]}."
    if name == "waits":
        titles = "; ".join(f"“{job.checklist.step(need).title}”" for need in standing.gate)
        return f"For {titles}." if titles else standing.why
    phase = next(p for p in job.checklist.phases if standing.step in p.steps)
    return standing.why if name == "to do again" else f"{phase.title}. {standing.why}"
