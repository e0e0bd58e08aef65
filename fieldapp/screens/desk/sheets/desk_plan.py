"""What touches mean on a plan: it is worked out from the job sheet at hand, and only read."""

from collections.abc import Callable, Mapping
from datetime import date
from functools import lru_cache

from fieldapp.job.sheet import JobSheet
from fieldapp.job.sheet_reader import read_sheet
from fieldapp.plan.planning import plan_of
from fieldapp.plan.shapes import Plan
from fieldapp.screens.desk.desk_jobs import BEGIN
from fieldapp.screens.desk.desk_lists import checklist_of
from fieldapp.screens.desk.sheets.desk_sheet import READ, typed_sheet
from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.place import Place
from fieldapp.screens.sheet.sheet_text import text_of

NOT_SOUND = "The sheet is not sound yet: put right what is marked, then the plan can be worked out."


def to_plan(state: DeskState) -> None:
    """Show the plan of the sheet at hand, if that is sound."""
    purpose = state.place.purpose
    if plan_from(_text(state, purpose), state.now.date()) is None:
        state.refused = NOT_SOUND
        return
    state.go(Place("plan", purpose=purpose))


def to_answer(state: DeskState, name: str) -> None:
    """Show the figures of one answer."""
    state.go(Place("answer", name, purpose=state.place.purpose))


def to_input(state: DeskState, name: str) -> None:
    """Type a figure that was put in, in its place on the sheet; Back leads through the sheet."""
    while state.place.screen not in ("sheet", "jobs"):
        state.back()
    state.go(Place("section", "plan"))
    state.go(Place("field", "plan", name))


def plan_here(state: DeskState) -> Plan:
    """Return the plan in hand."""
    found = plan_from(_text(state, state.place.purpose), state.now.date())
    assert found is not None  # noqa: S101 - looked at before one came here
    return found


@lru_cache(maxsize=4)
def plan_from(text: str, today: date) -> Plan | None:
    """Return the plan of a job sheet's text; None if it is not sound."""
    found = read_sheet(text, today)
    return plan_of(found) if isinstance(found, JobSheet) else None


def _text(state: DeskState, purpose: str) -> str:
    """Return the text of the sheet: of the job in hand, of the job to begin, or typed."""
    if purpose == READ:
        return state.job.sheet.text
    if purpose == BEGIN:
        return state.sheet_text
    return text_of(typed_sheet(state), checklist_of(state.checklist))


DEEDS: Mapping[tuple[str, str], Callable[..., None]] = {
    ("sheet", "plan"): to_plan,
    ("people", "plan"): to_plan,
    ("plan", "answer"): to_answer,
    ("answer", "input"): to_input,
}
