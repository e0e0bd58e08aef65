"""What "something was touched" shows: the happenings as plates, and what each would reopen.

Touches it passes on, besides those of the frame:
    "ask", happening          kept as the place's part: what it would reopen is shown; "" for none
    "report", happening, note
    "page", start
"""

from dataclasses import dataclass, replace
from datetime import datetime

from fieldapp.job.events import Event, Reported
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import Evaluation, StepState, evaluate
from fieldapp.screens.frame_view import Desktop, FrameView, PlateView, frame_view

ACROSS, A_PAGE = 3, 9


@dataclass(frozen=True, slots=True)
class ReportView:
    """The happenings of one page; with one chosen, the steps that it reopens."""

    frame: FrameView
    title: str
    plates: tuple[PlateView, ...]
    start: int
    count: int
    happening: str = ""
    reopens: tuple[str, ...] = ()


def report_view(
    job: Job, evaluation: Evaluation, now: datetime, desktop: Desktop, *,
    part: str = "", start: int = 0,
) -> ReportView:  # fmt: skip
    """Return the happenings, or what the one in `part` would reopen."""
    happenings = job.checklist.happenings
    chosen = next((happening for happening in happenings if happening.id == part), None)
    main = None
    if chosen is not None:
        main = PlateView("report", "Report it", "with the time", "main", (chosen.id,))
    frame = frame_view(job, evaluation, now, desktop, main=main, report=False)
    if chosen is not None:
        back = PlateView("ask back", "Back", details=("",))
        frame = replace(frame, plates=(back, *frame.plates[1:]))
    return ReportView(
        frame=frame,
        title=chosen.label if chosen else "What was touched, or what has changed?",
        plates=tuple(
            PlateView("ask", happening.label, details=(happening.id,))
            for happening in happenings[start : start + A_PAGE]
        ),
        start=start,
        count=len(happenings),
        happening=chosen.id if chosen else "",
        reopens=reopened_by(job, evaluation, now, chosen.id, desktop.who) if chosen else (),
    )


def reopened_by(
    job: Job, evaluation: Evaluation, now: datetime, happening: str, who: str
) -> tuple[str, ...]:
    """Return the titles of the steps that must be done again once this is reported."""
    event = Event(job.state.next_sequence, now, who, Reported(happening))
    then = evaluate(job.with_events((event,)), now)
    return tuple(
        step.title
        for step in job.checklist.steps()
        if then.steps[step.id].state is StepState.STALE
        and evaluation.steps[step.id].state is not StepState.STALE
    )
