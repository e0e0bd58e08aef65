"""What touches mean where another instrument is taken in hand."""

from collections.abc import Callable, Mapping

from fieldapp.checklist.model import Entry, Measure
from fieldapp.screens.desk.sheets.desk_sheet import read_only
from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.instruments_view import last_used
from fieldapp.screens.place import Place


def to_instruments(state: DeskState, column: str = "") -> None:
    """Go to the instruments that read what is asked for, here or in a column of it."""
    place = state.place
    state.go(Place("instruments", place.step, place.entry, part=column))


def take(state: DeskState, instrument: str) -> None:
    """Take an instrument in hand for all that the checklist reads with the same one."""
    state.instruments[measure_here(state).instrument] = instrument
    state.back()


def measure_here(state: DeskState) -> Measure:
    """Return the measure that an instrument is chosen for."""
    entry = state.job.checklist.entry(state.place.entry)
    columns = (c.measure for c in entry.columns if c.id == state.place.part)
    found = next(columns, entry.measure)
    assert found is not None  # noqa: S101 - only what is measured leads here
    return found


def in_hand(state: DeskState, entry: Entry, measure: Measure | None) -> str:
    """Return the instrument in hand for a measure: the one taken, or the checklist's."""
    wanted = measure.instrument if measure else ""
    if not wanted:
        return ""
    taken = state.instruments.get(wanted) or last_used(state.job, wanted, entry)
    return taken if state.job.sheet.instrument(taken) else ""


DEEDS: Mapping[tuple[str, str], Callable[..., None]] = {
    **{(screen, "instruments"): to_instruments for screen in ("entry", "trace", "hold")},
    ("instruments", "instrument"): take,
    ("instruments", "sheet"): read_only,
}
