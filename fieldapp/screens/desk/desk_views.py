"""Which view the present place shows."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from importlib import import_module

from fieldapp.screens.desk import desk_lists
from fieldapp.screens.desk.copies import desk_copies_views
from fieldapp.screens.desk.course import desk_course_views, desk_force_views
from fieldapp.screens.desk.desk_frame import desktop_of, frame_of, told
from fieldapp.screens.desk.desk_jobs import BEGIN, all_jobs
from fieldapp.screens.desk.entries import desk_timed
from fieldapp.screens.desk.entries.desk_entry_views import (
    entry_here,
    instruments_here,
    reason_here,
    units_here,
)
from fieldapp.screens.desk.keys import desk_key_views
from fieldapp.screens.desk.sheets import desk_plan, desk_sheet
from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.diagram_state import diagram_of
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.jobs_view import jobs_view
from fieldapp.screens.people_view import people_view
from fieldapp.screens.row_view import ListView
from fieldapp.screens.safe_view import safe_view
from fieldapp.screens.sheet.newjob_view import newjob_view, problems_view
from fieldapp.screens.sheet.plan_view import answer_view, plan_view
from fieldapp.screens.sheet.sheet_view import field_view, plan_row, section_view, sheet_view
from fieldapp.screens.steps.step_view import main_plate, step_view
from fieldapp.screens.steps.steps_view import next_plate, steps_view

View = Callable[[DeskState], object]


def view_of(state: DeskState) -> object:
    """Return what the present screen shows."""
    return VIEWS[state.place.screen](state)


def _jobs(state: DeskState) -> object:
    return jobs_view(all_jobs(state), state.now, state.place.start, state.look, told(state))


def _newjob(state: DeskState) -> object:
    place = state.place
    if place.purpose:
        return problems_view(place.purpose, state.problems, place.start, told(state))
    lists = desk_lists.standalone(state)
    choice = len(lists) > 1 or state.faulty_lists
    chosen = desk_lists.checklist_of(state.checklist).title if choice else ""
    return newjob_view(sheets_in(state), state.now.date(), place.start, told(state), chosen)


def sheets_in(state: DeskState) -> tuple[tuple[str, str], ...]:
    """Return the job sheets that lie on this tablet, by file name."""
    found = sorted(state.sheets.glob("*.toml")) if state.sheets.is_dir() else []
    return tuple((path.name, path.read_bytes().decode("utf-8-sig", "replace")) for path in found)


def _people(state: DeskState) -> object:
    begins = state.place.purpose == BEGIN or state.kept is None
    crew = state.sheet_crew if begins else state.job.sheet.crew
    view = people_view(crew, state.who, state.place.start, None if begins else frame_of(state))
    if begins:
        return _beginning(state, view)
    rail = (PlateView("sheet", "Job sheet", "of this job"), PlateView("hookup", "Line diagram"),
            PlateView("course here", "Checklists", "of this unit"))  # fmt: skip
    return replace(view, rail=rail)


def _beginning(state: DeskState, view: ListView) -> object:
    rail = (PlateView("back", "Back"), PlateView("safe", "Stop and make safe", kind="warning"))
    plan = () if state.follows else (plan_row(0),)
    return replace(view, rail=rail, rows=(*view.rows, *plan), told=told(state))


def _safe(state: DeskState) -> object:
    job = state.kept.job if state.kept else None
    words, stopped = told(state)
    return safe_view(job, state.now, state.who, words, not_saved=stopped)


def _steps(state: DeskState) -> object:
    evaluation = state.evaluation()
    frame = desk_force_views.with_in_force(state, frame_of(state, next_plate(evaluation)))
    return steps_view(state.job, evaluation, state.place.step, state.place.start, frame)


def _step(state: DeskState) -> object:
    evaluation = state.evaluation()
    step = state.job.checklist.step(state.place.step)
    frame = frame_of(state, main_plate(step, evaluation, state.job, next_plate(evaluation)))
    diagram = diagram_of(state.job, evaluation, step.part)
    return step_view(state.job, evaluation, step, state.place.start, frame, diagram)


def _sheet(state: DeskState) -> object:
    place = state.place
    reads = place.purpose == desk_sheet.READ
    title = state.job.number if reads else state.text(desk_sheet.SHEET, "number") or "New"
    return sheet_view(
        title, desk_sheet.sections(state), desk_sheet.typed_sheet(state),
        desk_sheet.problems(state), place.start, told=told(state), writes=not reads,
    )  # fmt: skip


def _section(state: DeskState) -> object:
    section = desk_sheet.section_here(state)
    wrong = desk_sheet.problems(state).get(section.id, {})
    return section_view(
        section, desk_sheet.typed_sheet(state), wrong, state.place.start, told=told(state),
        writes=state.place.purpose != desk_sheet.READ,
    )  # fmt: skip


def _field(state: DeskState) -> object:
    section, field = desk_sheet.section_here(state), desk_sheet.field_here(state)
    text = state.text(desk_sheet.SHEET, field.name)
    wrong = desk_sheet.problems(state).get(section.id, {}).get(field.key, "")
    view = field_view(section, field, text, wrong, section.fields.index(field))
    words, stopped = told(state)
    frame = replace(view.frame, unit=state.text(desk_sheet.SHEET, "number") or "New job",
                    site="job sheet", not_saved=words if stopped else "", refused=words,
                    clock=f"{state.now:%H:%M}")  # fmt: skip
    return replace(view, frame=frame)


def _timed(state: DeskState) -> object:
    evaluation = state.evaluation()
    entry = state.job.checklist.entry(state.place.entry)
    step = state.job.checklist.step_of(entry.id)
    typed = {column: text for (name, column), text in state.typed.items() if name == entry.id}
    typed |= desk_timed.instruments_in_hand(state, entry)
    return _view_function(f"timed.{state.place.screen}")(
        state.job, evaluation, entry, state.now, desktop_of(state), part=state.place.part,
        typed=typed, diagram=diagram_of(state.job, evaluation, step.part),
    )  # fmt: skip


def _signoff(state: DeskState) -> object:
    assert state.kept is not None  # noqa: S101 - a sign-off belongs to a job
    place = state.place
    subject = place.part.partition(" ")[2]
    return _view_function("signing.signoff")(
        state.job, state.evaluation(), state.now, desktop_of(state), part=place.part,
        start=place.start, strokes=state.strokes, typed=state.text("signoff", "name"),
        condition=state.text("signoff", subject),
        head=state.kept.head.hash,
    )  # fmt: skip


def _open(state: DeskState) -> object:
    return _view_function("open")(
        state.job, state.evaluation(), state.now, desktop_of(state), start=state.place.start
    )


def _report(state: DeskState) -> object:
    place = state.place
    return _view_function("report")(
        state.job, state.evaluation(), state.now, desktop_of(state), part=place.part,
        start=place.start,
    )  # fmt: skip


def _hookup(state: DeskState) -> object:
    place, evaluation = state.place, state.evaluation()
    return _view_function("hookup")(
        state.job,
        evaluation,
        state.now,
        desktop_of(state),
        diagram_of(state.job, evaluation),
        part=place.part,
        start=place.start,
    )


def _view_function(place: str) -> Callable[..., object]:
    """Return the function that makes a screen's view; timed screens bring charts with them."""
    module = import_module(f"fieldapp.screens.{place}_view")
    found: Callable[..., object] = getattr(module, f"{place.rpartition('.')[2]}_view")
    return found


def _plan(state: DeskState) -> object:
    clock = f"{state.now:%H:%M}"
    return plan_view(desk_plan.plan_here(state), state.place.start, clock, told(state))


def _answer(state: DeskState) -> object:
    place = state.place
    plan, typed = desk_plan.plan_here(state), not place.purpose
    return answer_view(plan, place.step, place.start, told(state), writes=typed)


VIEWS: Mapping[str, View] = {
    **desk_copies_views.VIEWS,
    **desk_course_views.VIEWS,
    **desk_force_views.VIEWS,
    **desk_key_views.VIEWS,
    "plan": _plan,
    "answer": _answer,
    "hookup": _hookup,
    "open": _open,
    "report": _report,
    "signoff": _signoff,
    "trace": _timed,
    "hold": _timed,
    "sheet": _sheet,
    "section": _section,
    "field": _field,
    "jobs": _jobs,
    "newjob": _newjob,
    "people": _people,
    "safe": _safe,
    "steps": _steps,
    "step": _step,
    "entry": entry_here,
    "instruments": instruments_here,
    "units": units_here,
    "reason": reason_here,
}
