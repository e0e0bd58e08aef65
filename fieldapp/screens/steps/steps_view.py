"""What the list of a phase's steps shows: the state of each, and why it waits."""

from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import Evaluation, StepStanding, StepState
from fieldapp.screens.frame_view import FrameView, PlateView, present_phase
from fieldapp.screens.marks import mark_of_step
from fieldapp.screens.row_view import ListView, RowView

_LONGEST = 150

LONGEST_NAME = 12
"""Of a picture file: cameras write no spaces at which a name could wrap."""


def steps_view(
    job: Job, evaluation: Evaluation, step: str, start: int, frame: FrameView
) -> ListView:  # fmt: skip
    """Return the steps of the phase that holds `step`."""
    phase = present_phase(job, evaluation, step)
    phases = job.checklist.phases
    at = phases.index(phase)
    standings = [evaluation.steps[member.id] for member in phase.steps]
    count = sum(s.in_order for s in standings)
    coming = evaluation.next_step
    rows = tuple(_row(s, job, here=s is coming) for s in standings)
    return ListView(
        title=phase.title,
        under=(f"{count} of {len(standings)}", "in order"),
        rail=(
            _phase_plate(phases[at - 1].title if at else "", phases[at - 1].steps[0].id, "before"),
            _phase_plate(
                phases[at + 1].title if at + 1 < len(phases) else "",
                phases[(at + 1) % len(phases)].steps[0].id,
                "after",
            ),
        ),
        rows=rows,
        start=start,
        frame=frame,
    )


def first_shown(job: Job, evaluation: Evaluation, step: str, rows: int = 5) -> int:
    """Return the row to begin with, so that the next step is among those shown."""
    phase = present_phase(job, evaluation, step)
    coming = evaluation.next_step
    wanted = coming.step if coming and coming.step in phase.steps else phase.steps[0]
    return phase.steps.index(wanted) // rows * rows


def next_plate(evaluation: Evaluation) -> PlateView:
    """Return the blue plate that leads to the next step."""
    coming = evaluation.next_step
    if coming is None:
        held = evaluation.open_steps
        if held:
            return PlateView("what waits", "What waits", f"{len(held)} steps", "main")
        return PlateView("signoff", "All in order", "sign, record", "main")
    return PlateView("next step", shortened(coming.step.title, 40), "", "main")


def why_words(standing: StepStanding, job: Job) -> str:
    """Return in one sentence why a step stands where it stands; of many gates the first."""
    if standing.state in (StepState.BLOCKED, StepState.HELD) and standing.gate:
        first = f"Waits for “{job.checklist.step(standing.gate[0]).title}”"
        more = len(standing.gate) - 1
        return f"{first} and {more} more." if more else standing.why
    if standing.state is StepState.DONE and standing.done is not None:
        done = f"{standing.done.at:%H:%M}, {standing.done.by}."
        return f"{done} {standing.deviations[0].verdict.sentence}" if standing.deviations else done
    return standing.why


def shortened(text: str, most: int) -> str:
    """Return a text of at most so many characters, cut between words."""
    if len(text) <= most:
        return text
    return text[: most - 1].rsplit(" ", 1)[0].rstrip(",;:") + "…"


def shortened_name(name: str) -> str:
    """Return the end of a file's name: cameras begin all of them alike.

    >>> shortened_name("IMG_20260616_101500.jpg")
    '…_101500.jpg'
    """
    return name if len(name) <= LONGEST_NAME else f"…{name[-LONGEST_NAME + 1 :]}"


def _row(standing: StepStanding, job: Job, *, here: bool) -> RowView:
    return RowView(
        touch="go",
        details=(standing.step.id,),
        first=standing.step.title,
        second="" if standing.state is StepState.READY else why(standing, job),
        mark="now" if here else mark_of_step(standing),
        word=standing.state,
        here=here,
    )


def why(standing: StepStanding, job: Job) -> str:
    """Return why a step stands where it stands, as short as a row allows."""
    return shortened(why_words(standing, job), _LONGEST)


def _phase_plate(title: str, step: str, word: str) -> PlateView:
    if not title:
        return PlateView(f"phase {word}", "none", f"phase {word}", "waiting")
    return PlateView(f"phase {word}", title, f"phase {word}", details=(step,))
