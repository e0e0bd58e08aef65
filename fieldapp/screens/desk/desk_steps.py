"""What touches mean on the list of steps and at one step, and where an entry is given."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from fieldapp.checklist.model import Entry, Kind, Step
from fieldapp.judgement.evaluation import StepState
from fieldapp.screens.desk.state.desk_state import JOBS, DeskState
from fieldapp.screens.place import Place
from fieldapp.screens.reason_view import CONDITION, EXPLAIN, PERSON
from fieldapp.screens.steps.step_view import first_to_give, next_to_give
from fieldapp.screens.steps.steps_view import first_shown

_OWN_SCREENS = {Kind.TRACE: "trace", Kind.HOLD: "hold", Kind.SIGN: "signoff"}
_AT_ONCE = (StepState.READY,)


def place_of(step: Step, entry: Entry) -> Place:
    """Return the place where an entry is given."""
    part = "tripped" if entry.kind is Kind.ALARM else ""
    return Place(_OWN_SCREENS.get(entry.kind, "entry"), step.id, entry.id, part)


def to_step(state: DeskState, step_id: str) -> None:
    """Go to a step; one with a single thing to give leads straight to it."""
    step = state.job.checklist.step(step_id)
    standing = state.evaluation().steps[step_id]
    state.go(Place("step", step_id))
    if len(step.entries) == 1 and standing.state in _AT_ONCE:
        state.turn(place_of(step, step.entries[0]))


def to_next_step(state: DeskState) -> None:
    """Go to the next step; Back leads to the steps of its phase."""
    coming = state.evaluation().next_step
    if coming is None:
        state.go(Place("open"))
        return
    state.place = Place("steps", coming.step.id)
    to_steps(state)
    to_step(state, coming.step.id)


def to_steps(state: DeskState) -> None:
    """Go to the steps of the phase at hand."""
    step = state.place.step
    state.way = [JOBS]
    state.place = Place("steps", step, start=first_shown(state.job, state.evaluation(), step))


def to_phase(state: DeskState, step: str) -> None:
    """Show the steps of another phase."""
    state.turn(Place("steps", step, start=first_shown(state.job, state.evaluation(), step)))


def to_entry(state: DeskState, entry_id: str) -> None:
    """Go to where an entry is given."""
    step = state.job.checklist.step_of(entry_id)
    state.go(place_of(step, state.job.checklist.entry(entry_id)))


def to_reason(state: DeskState, subject: str) -> None:
    """Ask why something outside its limits is kept."""
    state.go(Place("reason", state.place.step, subject, purpose=EXPLAIN))


def to_acceptance(state: DeskState, subject: str) -> None:
    """Ask on what condition a deviation is accepted."""
    state.go(Place("reason", state.place.step, subject, purpose=CONDITION))


def to_promise(state: DeskState, subject: str) -> None:
    """Ask who puts a deviation right that stays open; then by which day."""
    state.go(Place("reason", state.place.step, subject, purpose=PERSON))


def after_entry(state: DeskState, entry: Entry) -> None:
    """Go on once an entry is kept: to the step's next entry, or to the step as it stands."""
    step = state.job.checklist.step_of(entry.id)
    evaluation = state.evaluation()
    coming = first_to_give(step, evaluation)
    if evaluation.steps[step.id].state is StepState.STALE:
        coming = next_to_give(step, evaluation, state.job)
    if coming is not None and coming.id != entry.id:
        state.turn(place_of(step, coming))
        return
    to_whole_step(state, step.id)


def to_whole_step(state: DeskState, step_id: str) -> None:
    """Go to a step as it stands; the way back does not pass it twice."""
    whole = Place("step", step_id)
    if whole in state.way:
        del state.way[state.way.index(whole) :]
    state.place = whole


def turn_page(state: DeskState, start: int) -> None:
    """Show a list from another row on."""
    state.place = replace(state.place, start=start)


def to_signing(state: DeskState) -> None:
    """Go to the sign-off."""
    state.go(Place("signoff"))


def to_open(state: DeskState) -> None:
    """Go to what is open."""
    state.go(Place("open", state.place.step))


_LEADS: Mapping[str, Callable[..., None]] = {
    "next step": to_next_step,
    "what waits": to_open,
    "signoff": to_signing,
}
_SCREENS = ("steps", "step", "entry", "trace", "hold", "open", "hookup", "report", "reason")
DEEDS: Mapping[tuple[str, str], Callable[..., None]] = {
    **{(screen, name): deed for screen in _SCREENS for name, deed in _LEADS.items()},
    ("steps", "phase before"): to_phase,
    ("steps", "phase after"): to_phase,
    ("step", "entry"): to_entry,
    ("step", "say why"): to_reason,
    ("step", "accept"): to_acceptance,
    ("step", "promise"): to_promise,
}
