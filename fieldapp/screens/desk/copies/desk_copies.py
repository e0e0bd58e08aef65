"""What touches mean for copies: the second place, everything to it and back from it."""

from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

from fieldapp.errors import FieldAppError, said_at_tablet
from fieldapp.handover.backup import copy_all, demand_there, files_below
from fieldapp.handover.copying import Copied
from fieldapp.handover.second_place import (
    last_backup,
    outcome_of,
    second_place,
    set_second_place,
    was_whole,
)
from fieldapp.screens.copies.copies_view import CopiesFacts
from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.place import Place


def to_copies(state: DeskState) -> None:
    """Go to the copies; no job is in hand there."""
    state.kept = None
    state.copies.last = ""
    state.go(Place("copies"))


def to_places(state: DeskState) -> None:
    """Go to the cards and shares that are plugged in."""
    state.go(Place("places"))


def choose_place(state: DeskState, place: str) -> None:
    """Copy to that place from now on."""
    try:
        set_second_place(state.home, Path(place))
    except (OSError, FieldAppError) as failure:
        state.refused = said_at_tablet(failure)
        return
    state.back()


def copy_now(state: DeskState) -> None:
    """Copy everything to the second place."""
    place = place_here(state)
    if place is not None:
        copy_with(state, f"copying to {place}", (state.home, place))


def bring_back(state: DeskState) -> None:
    """Copy what is missing here from the second place; no job is open meanwhile."""
    place = place_here(state)
    if place is not None:
        state.let_go_of_jobs()
        copy_with(state, f"bringing back from {place}", (place, state.home))


def place_here(state: DeskState) -> Path | None:
    """Return the second place; a setting that says nothing counts as none, and says so."""
    try:
        return second_place(state.home)
    except FieldAppError as failure:
        state.refused = said_at_tablet(failure)
        return None


def facts_of(state: DeskState) -> CopiesFacts:
    """Return what is known of copies."""
    held = state.copies
    last = held.last or last_backup(state.home)
    return CopiesFacts(place_here(state), last, was_whole(last), _numbers(state))


def _numbers(state: DeskState) -> tuple[str, ...]:
    try:
        return state.jobs.numbers()
    except FieldAppError as failure:
        state.refused = said_at_tablet(failure)
        return ()


def working_words(state: DeskState) -> str:
    """Return what goes on, and how far it has come."""
    words, progress = state.keys.bench.words, state.copies.progress
    return f"{words}, {progress}" if words and progress else words


def copy_with(
    state: DeskState, words: str, way: tuple[Path, Path],
    afterwards: Callable[[list[Copied]], None] = lambda _: None,
) -> None:  # fmt: skip
    """Begin to copy everything from one place to the other, and count it as it goes."""
    held, (source, target) = state.copies, way

    def do() -> list[Copied]:
        if target != state.home:
            demand_there(target)
        return list(_counted(copy_all(source, target), len(files_below(source))))

    def _counted(each: Iterator[Copied], total: int) -> Iterator[Copied]:
        for done, copied in enumerate(each, 1):
            held.progress = f"{done} of {total}"
            yield copied
            if held.hurried:
                return

    def then(found: list[Copied]) -> None:
        held.last, held.progress = outcome_of(found, target), ""
        afterwards(found)

    held.progress = ""
    state.begin(words, do, then)


DEEDS: Mapping[tuple[str, str], Callable[..., None]] = {
    ("jobs", "copies"): to_copies,
    ("copies", "places"): to_places,
    ("handing", "places"): to_places,
    ("places", "place"): choose_place,
    ("copies", "copy"): copy_now,
    ("copies", "bring back"): bring_back,
}
