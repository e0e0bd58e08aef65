"""What stands around every screen of a job: the route above, the plates below, what went wrong.

A view carries its frame as `frame`; the widget `frame.Frame` draws it over the whole sheet.
The content lies between: from 90 to 676 dp on a wide sheet, from 140 to 1046 on a tall one.
"""

from dataclasses import dataclass
from datetime import datetime

from fieldapp.checklist.model import Phase, Waive
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import Evaluation, StepState

_LONGEST_NAME, _LONGEST_WORD = 24, 12
"""Letters of a name, and of a word in it, that a plate of the foot has room for."""


@dataclass(frozen=True, slots=True)
class PlateView:
    """A plate: the name of its touch, its words, and its kind (see `kit.plate`)."""

    name: str
    first: str
    second: str = ""
    kind: str = "plain"
    details: tuple[str, ...] = ()
    sign: str = ""


@dataclass(frozen=True, slots=True)
class PhaseView:
    """A phase of the route: todo, now, done, unneeded or failed."""

    name: str
    state: str
    deviation: bool = False


@dataclass(frozen=True, slots=True)
class FrameView:
    """The route, the plates of the foot from left to right, and why the last act was not done."""

    unit: str = ""
    site: str = ""
    phases: tuple[PhaseView, ...] = ()
    part: float = 0.0
    clock: str = ""
    plates: tuple[PlateView, ...] = ()
    refused: str = ""
    not_saved: str = ""
    aside: bool = False
    """The foot's corners belong to the content; the plates stand between them."""


@dataclass(frozen=True, slots=True)
class Desktop:
    """What the frame needs of the desk: who is there, where, and what was not possible."""

    who: str
    step: str = ""
    refused: str = ""
    not_saved: str = ""


def frame_view(
    job: Job,
    evaluation: Evaluation,
    now: datetime,
    desktop: Desktop,
    *,
    main: PlateView | None = None,
    report: bool = True,
    still: bool = True,
) -> FrameView:
    """Return the frame of a job's screen; `main` is the last plate of the foot.

    Where another plate needs the room, the count of what is `still` open gives way, never the
    report of something touched.
    """
    here = present_phase(job, evaluation, desktop.step)
    return FrameView(
        unit=job.sheet.text_of("unit") or job.number,
        site=job.sheet.text_of("site_name") or "",
        phases=tuple(_phase(p, evaluation, now=p is here) for p in job.checklist.phases),
        part=share_in_order(here, evaluation),
        clock=f"{now:%H:%M}",
        plates=_plates(job, evaluation, desktop, here, main, report=report, still=still),
        refused=desktop.refused,
        not_saved=desktop.not_saved,
    )


def present_phase(job: Job, evaluation: Evaluation, step: str) -> Phase:
    """Return the phase of a step, or of the next one to do, or the last."""
    coming = evaluation.next_step
    wanted = step or (coming.step.id if coming else "")
    for phase in job.checklist.phases:
        if any(member.id == wanted for member in phase.steps):
            return phase
    return job.checklist.phases[-1]


def share_in_order(phase: Phase, evaluation: Evaluation) -> float:
    """Return which share of a phase's steps is in order."""
    return sum(evaluation.steps[s.id].in_order for s in phase.steps) / len(phase.steps)


def person_plate(job: Job, who: str) -> PlateView:
    """Return the plate of the person at the tablet."""
    person = job.sheet.person(who)
    return PlateView(
        "people", _on_plate(who) or "Who are you?", person.role if person else "choose"
    )


def _on_plate(name: str) -> str:
    """Return a name as a plate has room for it; the list of people has it whole.

    >>> _on_plate("Aleksandra Montgomery-Fairweather")
    'Aleksandra M.'
    """
    first, _, rest = name.partition(" ")
    last = rest.rpartition(" ")[2]
    if len(name) <= _LONGEST_NAME and max(len(first), len(last)) <= _LONGEST_WORD:
        return name
    return f"{first[:_LONGEST_WORD]} {last[:1]}." if last else f"{first[: _LONGEST_WORD - 1]}…"


def _phase(phase: Phase, evaluation: Evaluation, *, now: bool) -> PhaseView:
    standings = [evaluation.steps[step.id] for step in phase.steps]
    deviations = [d for s in standings for d in s.deviations if not d.settled]
    stopped = any(d.verdict.waive is Waive.NEVER for d in deviations)
    state = "todo"
    if now:
        state = "now"
    elif stopped:
        state = "failed"
    elif all(s.state is StepState.NOT_NEEDED for s in standings):
        state = "unneeded"
    elif all(s.in_order for s in standings):
        state = "done"
    return PhaseView(phase.title, state, any(s.deviations for s in standings))


def _plates(
    job: Job, evaluation: Evaluation, desktop: Desktop, here: Phase, main: PlateView | None, *,
    report: bool, still: bool,
) -> tuple[PlateView, ...]:  # fmt: skip
    count = sum(not evaluation.steps[step.id].in_order for step in here.steps)
    count_plate = PlateView("open", f"{count} still open", f"in {here.title}")
    touched = (PlateView("report", "Something was touched"),) if report else ()
    return (
        PlateView("back", "Back"),
        PlateView("safe", "Stop and make safe", kind="warning"),
        *touched,
        person_plate(job, desktop.who),
        *((count_plate,) if still else ()),
        *((main,) if main else ()),
    )
