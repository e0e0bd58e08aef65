"""What stands around the present screen, and what is told of the last act."""

from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.frame_view import Desktop, FrameView, PlateView, frame_view


def told(state: DeskState) -> tuple[str, bool]:
    """Return why the last act was not possible, and whether it is not saved."""
    return (state.not_saved or state.refused, bool(state.not_saved))


def frame_of(state: DeskState, main: PlateView | None = None, *, report: bool = True) -> FrameView:
    """Return the frame of the present screen."""
    return frame_view(
        state.job, state.evaluation(), state.now, desktop_of(state), main=main, report=report
    )


def desktop_of(state: DeskState) -> Desktop:
    """Return what the frame needs of the desk."""
    return Desktop(state.who, state.place.step, state.refused, state.not_saved)
