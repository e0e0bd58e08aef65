"""What the screens of what is in force show."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from fieldapp.screens.desk.course.desk_force import FORCE, ended_here, forced_here, left_behind
from fieldapp.screens.desk.desk_frame import frame_of, told
from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.frame_view import FrameView
from fieldapp.screens.weeks.force_asked import asked_view
from fieldapp.screens.weeks.in_force_view import in_force_plate, in_force_view, leaving_view


def with_in_force(state: DeskState, frame: FrameView) -> FrameView:
    """Return the frame with what is in force in the place of the count of what is open."""
    plate = in_force_plate(forced_here(state), state.now)
    return replace(frame, plates=tuple(plate if p.name == "open" else p for p in frame.plates))


def _in_force(state: DeskState) -> object:
    frame = frame_of(state)
    return in_force_view(
        forced_here(state), ended_here(state), state.now, frame, state.place.start
    )  # fmt: skip


def _leaving(state: DeskState) -> object:
    return leaving_view(left_behind(state), state.now, state.place.start, told(state))


def _asked(state: DeskState) -> object:
    place = state.place
    frame = frame_of(state)
    people = tuple(plate for plate in frame.plates if plate.name in {"safe", "people"})
    frame = replace(frame, plates=people, aside=True)
    typed = state.text(FORCE, place.purpose)
    crew = state.job.sheet.crew
    return asked_view(place.purpose, typed, crew, state.who, state.now, frame)


VIEWS: Mapping[str, Callable[[DeskState], object]] = {
    "in force": _in_force,
    "leaving": _leaving,
    "asked": _asked,
}
