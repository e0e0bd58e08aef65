"""What the line diagram on its own screen shows: the hookup as it is, and one part's steps.

Touches it passes on, besides those of the frame:
    "ask", part           kept as the place's part: that part's steps are shown
    "close valve", part   never gated: a valve was closed now
    "go", step / "page", start
"""

from dataclasses import dataclass, replace
from datetime import datetime

from fieldapp.checklist.facts import VALVES
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import Evaluation, StepStanding
from fieldapp.screens.frame_view import Desktop, FrameView, PlateView, frame_view
from fieldapp.screens.kit.diagram.diagram_view import Diagram
from fieldapp.screens.marks import mark_of_step
from fieldapp.screens.row_view import RowView
from fieldapp.screens.steps.steps_view import next_plate


@dataclass(frozen=True, slots=True)
class HookupView:
    """The line diagram, and of the part in question its name, its state and its steps."""

    frame: FrameView
    diagram: Diagram
    title: str
    under: str
    close: PlateView | None
    rows: tuple[RowView, ...]
    start: int


def hookup_view(
    job: Job, evaluation: Evaluation, now: datetime, desktop: Desktop, diagram: Diagram, *,
    part: str = "", start: int = 0,
) -> HookupView:  # fmt: skip
    """Return the line diagram, with the part that was touched."""
    steps = [evaluation.steps[s.id] for s in job.checklist.steps() if part and s.part == part]
    steps.sort(key=lambda standing: standing.in_order)
    return HookupView(
        frame=frame_view(job, evaluation, now, desktop, main=_next_plate(evaluation, part)),
        diagram=replace(diagram, here=part or None, flag=""),
        title=name_of(part, diagram) if part else "Touch a part",
        under=_under(part, diagram, steps),
        close=_close(part),
        rows=tuple(_row(standing) for standing in steps),
        start=start,
    )


def _next_plate(evaluation: Evaluation, part: str) -> PlateView:
    """Return the plate of the next step; beside a valve to close it is not the blue one."""
    coming = next_plate(evaluation)
    return replace(coming, kind="plain") if _close(part) else coming


def name_of(part: str, diagram: Diagram) -> str:
    """Return what a part is called, with its tag on site.

    >>> name_of("vacuum_gauge", Diagram("T2"))
    'Vacuum gauge'
    """
    tag = diagram.tag_of(part)
    name = part.replace("_", " ")
    return f"{name[:1].upper()}{name[1:]}{f' {tag}' if tag else ''}"


def _under(part: str, diagram: Diagram, steps: list[StepStanding]) -> str:
    if not part:
        return "Its state and steps then stand here. A valve can be closed here at any time."
    state = diagram.state_of(part)
    content = diagram.content_of(part)
    words = f"holds {content}" if content != "unknown" else "" if state == "fitted" else state
    if words == "unknown":
        words = "state not known"
    still = sum(not standing.in_order for standing in steps)
    count = f"{still} of {len(steps)} steps open" if steps else "no step is about it alone"
    return ", ".join(filter(None, (words, count))).capitalize() + "."


def _close(part: str) -> PlateView | None:
    if part not in VALVES:
        return None
    return PlateView("close valve", "Closed now", "the time is kept", "main", (part,))


def _row(standing: StepStanding) -> RowView:
    return RowView("go", (standing.step.id,), standing.step.title, "", mark_of_step(standing),
                   standing.state)  # fmt: skip
