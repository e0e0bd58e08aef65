"""Which mark stands for a verdict, for the state of a step, and for an entry."""

from fieldapp.judgement.deviations import Deviation
from fieldapp.judgement.evaluation import StepStanding, StepState
from fieldapp.judgement.verdict import Place, Verdict

_OF_PLACE = {
    Place.MISSING: "todo",
    Place.NOT_NEEDED: "unneeded",
    Place.NOTED: "done",
    Place.DONE: "done",
    Place.INSIDE: "proven",
    Place.TOO_NEAR: "near",
    Place.OUTSIDE: "failed",
}
_OF_STATE = {
    StepState.READY: "todo",
    StepState.BEGUN: "now",
    StepState.BLOCKED: "todo",
    StepState.DEVIATION: "deviation",
    StepState.STALE: "notyet",
    StepState.HELD: "notyet",
    StepState.DONE: "done",
    StepState.NOT_NEEDED: "unneeded",
}


def mark_of(verdict: Verdict, deviation: Deviation | None = None) -> str:
    """Return the mark of a verdict; a deviation that was accepted has its own."""
    if deviation is not None and deviation.settled:
        return "accepted" if deviation.acceptance else "deviation"
    return _OF_PLACE[verdict.place]


def mark_of_step(standing: StepStanding) -> str:
    """Return the mark of a step."""
    if standing.state is StepState.DONE and standing.deviations:
        return "accepted"
    return _OF_STATE[standing.state]
