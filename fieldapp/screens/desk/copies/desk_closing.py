"""What happens when somebody closes the window: everything is copied first, in sight."""

from collections.abc import Callable, Mapping
from pathlib import Path

from fieldapp.errors import FieldAppError
from fieldapp.handover.copying import Copied
from fieldapp.handover.second_place import NOT_FINISHED, note_outcome, second_place, was_whole
from fieldapp.journal.folders import may_hold_jobs
from fieldapp.screens.copies.closing_view import closing_view
from fieldapp.screens.desk.copies.desk_copies import copy_with, working_words
from fieldapp.screens.desk.desk_frame import told
from fieldapp.screens.desk.desk_jobs import to_jobs
from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.place import Place


def may_close(state: DeskState) -> bool:
    """Say whether the window may close now; if not, the last copy has begun and is shown.

    Whoever closes it a second time does not want to wait. Leaving is never refused.
    """
    held, place = state.copies, _place(state)
    if held.closing or place is None or state.keys.bench.work is not None:
        held.hurried = held.closing
        return True
    if not may_hold_jobs(state.home):
        return True

    def then(_: list[Copied]) -> None:
        note_outcome(state.home, state.now, held.last)
        held.copied = held.closing

    held.closing, held.last = True, ""
    state.let_go_of_jobs()  # a share that hangs must not keep them locked
    state.go(Place("closing"))
    note_outcome(state.home, state.now, NOT_FINISHED)
    copy_with(state, "copying", (state.home, place), then)
    return False


def closed(state: DeskState) -> bool:
    """Say whether the window closes by itself: all is copied or nobody waits, and nobody stayed."""
    held = state.copies
    return held.closing and (held.hurried or (held.copied and was_whole(held.last)))


def stay(state: DeskState) -> None:
    """Go on with the work, from the list of jobs; the copy is finished beside it."""
    state.copies.closing = state.copies.copied = False
    to_jobs(state)


def leave_now(state: DeskState) -> None:
    """Close the window without waiting for the copy."""
    state.copies.hurried = True


def view(state: DeskState) -> object:
    """Return how far the copy has come."""
    return closing_view(_place(state), working_words(state), state.copies.last,
                        state.place.start, told(state))  # fmt: skip


def _place(state: DeskState) -> Path | None:
    """Return the second place; a setting that says nothing is told at the next start."""
    try:
        return second_place(state.home)
    except FieldAppError:
        return None


DEEDS: Mapping[tuple[str, str], Callable[..., None]] = {
    ("closing", "stay"): stay,
    ("closing", "back"): stay,
    ("closing", "leave now"): leave_now,
}
