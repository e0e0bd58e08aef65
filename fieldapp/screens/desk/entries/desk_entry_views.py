"""What is shown where an entry is given, and where words are asked for."""

from dataclasses import replace

from fieldapp.checklist.model import Entry, Kind
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.screens.body_view import PicturesBody
from fieldapp.screens.desk.desk_frame import frame_of
from fieldapp.screens.desk.entries.desk_entry import draft_of
from fieldapp.screens.desk.entries.desk_instruments import in_hand, measure_here
from fieldapp.screens.desk.entries.desk_photo import pictures_here
from fieldapp.screens.desk.entries.desk_units import unit_of
from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.diagram_state import diagram_of
from fieldapp.screens.entry.entry_photo import photo_body
from fieldapp.screens.entry.entry_view import correction_plate, entry_view
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.instruments_view import instruments_view
from fieldapp.screens.reason_view import reason_view
from fieldapp.screens.units_view import measure_asked, units_plate, units_view


def entry_here(state: DeskState) -> object:
    """Return where an entry is given."""
    evaluation = state.evaluation()
    entry = state.job.checklist.entry(state.place.entry)
    step = state.job.checklist.step_of(entry.id)
    diagram = diagram_of(state.job, evaluation, step.part)
    draft = draft_of(state, entry)
    whole = PlateView("later", "The whole step", "as it stands")
    main = correction_plate(state.job, evaluation, entry, draft) or whole
    frame = frame_of(state, main)
    units = units_plate(measure_asked(entry, state.place.part), unit_of(state, entry))
    if units is not None:
        frame = replace(frame, plates=tuple(units if plate.name == "open" else plate
                                            for plate in frame.plates))  # fmt: skip
    return entry_view(
        state.job, evaluation, entry, draft, state.place.part, frame, diagram,
        start=state.place.start,
        unit=unit_of(state, entry),
        body=_pictures(state, evaluation, entry) if entry.kind is Kind.PHOTO else None,
    )  # fmt: skip


def _pictures(state: DeskState, evaluation: Evaluation, entry: Entry) -> PicturesBody:
    place = state.place
    return photo_body(
        state.job, evaluation, entry, pictures_here(state, entry), state.now,
        place.part, place.start,
    )  # fmt: skip


def instruments_here(state: DeskState) -> object:
    """Return the instruments to choose from."""
    place, measure = state.place, measure_here(state)
    entry = state.job.checklist.entry(place.entry)
    column = next((c.label for c in entry.columns if c.id == place.part), entry.label)
    return instruments_view(
        state.job, measure, column, in_hand(state, entry, measure), state.now, place.start,
        frame_of(state),
    )  # fmt: skip


def units_here(state: DeskState) -> object:
    """Return the units to choose from."""
    entry = state.job.checklist.entry(state.place.entry)
    assert entry.measure is not None  # noqa: S101 - only a number leads here
    return units_view(entry.measure, entry.label, unit_of(state, entry), state.place.start,
                      frame_of(state))  # fmt: skip


def reason_here(state: DeskState) -> object:
    """Return where a reason, a condition or a note is asked for."""
    place = state.place
    frame = frame_of(state)
    people = tuple(plate for plate in frame.plates if plate.name in {"safe", "people"})
    typed = state.text(place.entry, place.purpose)
    frame = replace(frame, plates=people, aside=True)
    return reason_view(state.job, place.purpose, place.entry, typed, frame, state.who,
                       state.now.date())  # fmt: skip
