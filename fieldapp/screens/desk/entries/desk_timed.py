"""What touches mean at a trace or a hold."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import datetime

from fieldapp.actions.entering import correct_reading, end, read, start
from fieldapp.checklist.model import Entry
from fieldapp.screens.desk.desk_steps import to_whole_step
from fieldapp.screens.desk.entries.desk_instruments import in_hand
from fieldapp.screens.desk.state.desk_state import DeskState


def begin(state: DeskState) -> None:
    """Start a trace or a hold, or start it again."""
    entry = state.place.entry
    state.keep(lambda job: start(job, entry, state.act))


def reading(state: DeskState, fields: Mapping[str, str], taken: datetime | None = None) -> None:
    """Keep one timed reading."""
    entry = state.job.checklist.entry(state.place.entry)
    given = {**fields, **instruments_in_hand(state, entry)}
    if state.keep(lambda job: read(job, entry.id, given, state.act, taken=taken)):
        _asked_no_more(state)


def ask(state: DeskState, part: str) -> None:
    """Ask for a column, for the end, or for a correction; "" asks for nothing more."""
    if not part:
        state.forget(state.place.entry)
    state.place = replace(state.place, part=part)


def correct(state: DeskState, sequence: int, fields: Mapping[str, str], reason: str) -> None:
    """Correct a reading that was typed wrong."""
    entry = state.place.entry
    if state.keep(lambda job: correct_reading(job, entry, sequence, fields, reason, state.act)):
        _asked_no_more(state)


def finish(state: DeskState, note: str = "") -> None:
    """End a trace or a hold and go to its step as it stands."""
    place = state.place
    if state.keep(lambda job: end(job, place.entry, state.act, note=note)):
        state.forget(place.entry)
        to_whole_step(state, place.step)


def instruments_in_hand(state: DeskState, entry: Entry) -> dict[str, str]:
    """Return the instruments of a reading, where others are in hand than the columns name."""
    taken = {column: in_hand(state, entry, column.measure) for column in entry.columns}
    return {
        f"{column.id}_instrument": used
        for column, used in taken.items()
        if used and used != column.measure.instrument
    }


def _asked_no_more(state: DeskState) -> None:
    state.forget(state.place.entry)
    state.place = replace(state.place, part="")


_TOUCHES: Mapping[str, Callable[..., None]] = {
    "start": begin,
    "ask": ask,
    "reading": reading,
    "correct reading": correct,
    "end": finish,
}
DEEDS: Mapping[tuple[str, str], Callable[..., None]] = {
    (screen, name): deed for screen in ("trace", "hold") for name, deed in _TOUCHES.items()
}
