"""What is shown of copies, of hand-over files, and of jobs that cannot be opened."""

from collections.abc import Callable, Mapping

from fieldapp.journal.tablets.story import Conflict
from fieldapp.screens.copies.copies_view import copies_view, places_view
from fieldapp.screens.copies.handing_view import files_view, handing_view
from fieldapp.screens.copies.hurt_view import hurt_view, sides_view, who_view, why_view
from fieldapp.screens.desk.copies import desk_closing, desk_copies, desk_handing, desk_hurt
from fieldapp.screens.desk.desk_frame import told
from fieldapp.screens.desk.state.desk_state import DeskState


def _copies(state: DeskState) -> object:
    facts = desk_copies.facts_of(state)
    return copies_view(facts, state.place.start, told(state),
                       working=desk_copies.working_words(state))  # fmt: skip


def _places(state: DeskState) -> object:
    return places_view(state.cards(), state.place.start, told(state))


def _handing(state: DeskState) -> object:
    place, signers = desk_copies.place_here(state), desk_handing.signers_here(state)
    return handing_view(
        state.place.entry, place, signers, state.copies.written, state.place.start, told(state),
        working=state.keys.bench.words,
    )  # fmt: skip


def _files(state: DeskState) -> object:
    held = state.copies
    return files_view(desk_handing.files_here(state), held.taken, held.apart, state.place.start,
                      told(state))  # fmt: skip


def _hurt(state: DeskState) -> object:
    number = state.place.entry
    sentence = state.not_open.get(number, "")
    return hurt_view(number, sentence, state.copies.cause, state.place.start,
                     told(state))  # fmt: skip


def _sides(state: DeskState) -> object:
    number = state.place.entry
    found = state.copies.cause
    if not isinstance(found, Conflict):
        return _hurt(state)
    return sides_view(number, found, state.jobs.device, state.place.start, told(state))


def _who(state: DeskState) -> object:
    place = state.place
    return who_view(state.copies.crew, place.purpose, place.start, told(state))


def _why(state: DeskState) -> object:
    place = state.place
    return why_view(place.entry, place.step, place.purpose, state.text(desk_hurt.WHY), state.now,
                    told(state))  # fmt: skip


VIEWS: Mapping[str, Callable[[DeskState], object]] = {
    "copies": _copies,
    "closing": desk_closing.view,
    "places": _places,
    "handing": _handing,
    "files": _files,
    "hurt": _hurt,
    "sides": _sides,
    "who": _who,
    "why": _why,
}
