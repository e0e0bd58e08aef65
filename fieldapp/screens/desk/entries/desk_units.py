"""What touches mean where a number is typed in another unit."""

from collections.abc import Callable, Mapping

from fieldapp.checklist.model import Entry, Measure
from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.place import Place


def to_units(state: DeskState) -> None:
    """Go to the units in which the number may be typed."""
    place = state.place
    state.go(Place("units", place.step, place.entry))


def take(state: DeskState, unit: str) -> None:
    """Type in another unit from now on, wherever the checklist asks alike."""
    entry = state.job.checklist.entry(state.place.entry)
    assert entry.measure is not None  # noqa: S101 - only a number leads here
    state.units[_alike(entry.measure)] = unit
    state.back()


def unit_of(state: DeskState, entry: Entry) -> str:
    """Return the unit in which an entry is typed; "" where it has none."""
    if entry.measure is None:
        return ""
    return state.units.get(_alike(entry.measure), entry.measure.unit)


def _alike(measure: Measure) -> str:
    """Return what is read alike: with one instrument, in one unit."""
    return f"{measure.unit}, {measure.instrument}"


DEEDS: Mapping[tuple[str, str], Callable[..., None]] = {
    ("entry", "units"): to_units,
    ("units", "unit"): take,
}
