"""What the screens show of units: the one that is typed in, and the others of its quantity."""

from decimal import Decimal

from fieldapp.checklist.model import Entry, Kind, Measure
from fieldapp.judgement.words import people_unit
from fieldapp.screens.frame_view import FrameView, PlateView
from fieldapp.screens.row_view import ListView, RowView
from fieldapp.units import UNITS, from_si, rounded, to_si, unit_named

_FARTHEST = 2000
"""A unit so many times larger or smaller is never read where the other one is."""


def units_for(measure: Measure | None) -> tuple[str, ...]:
    """Return the units in which a measure may be typed, its own first."""
    if measure is None:
        return ()
    own = unit_named(measure.unit)
    others = (u.name for u in UNITS.values() if u.quantity == own.quantity and u is not own)
    return (own.name, *(name for name in others if _near(own.name, name)))


def measure_asked(entry: Entry, part: str) -> Measure | None:
    """Return the measure that is typed now; None where none is."""
    asked = entry.kind is Kind.NUMBER or (entry.kind is Kind.ALARM and part == "value")
    return entry.measure if asked else None


def units_plate(measure: Measure | None, unit: str) -> PlateView | None:
    """Return the plate that leads to other units; None where there are none."""
    if len(units_for(measure)) < 2:  # noqa: PLR2004 - its own alone is no choice
        return None
    return PlateView("units", f"in {people_unit(unit).strip()}", "other unit")


def units_view(measure: Measure, label: str, unit: str, start: int, frame: FrameView) -> ListView:
    """Return the units to choose from; the one in use is marked."""
    rows = tuple(_row(name, measure, here=name == unit) for name in units_for(measure))
    return ListView(title="Which unit?", under=(label, "As the gauge shows it."), rows=rows,
                    start=start, frame=frame)  # fmt: skip


def in_own_unit(number: Decimal, unit: str, measure: Measure) -> Decimal:
    """Return a number typed in a unit as a number in the measure's own."""
    if unit in ("", measure.unit):
        return number
    return rounded(from_si(to_si(float(number), unit), measure.unit), measure.decimals + 2)


def _row(name: str, measure: Measure, *, here: bool) -> RowView:
    second = "the checklist asks in it" if name == measure.unit else unit_named(name).quantity
    return RowView("unit", (name,), people_unit(name).strip(), second, "done" if here else "todo",
                   "in use" if here else "ready", here=here)  # fmt: skip


def _near(one: str, other: str) -> bool:
    widths = [to_si(1.0, name) - to_si(0.0, name) for name in (one, other)]
    return max(widths) / min(widths) < _FARTHEST
