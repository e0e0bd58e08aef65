"""Where in a checklist the evacuation stands: found by kind, unit and formula, not by name."""

from collections.abc import Iterator
from dataclasses import dataclass

from fieldapp.checklist.model import Checklist, Column, Computed, Entry, Kind, Limits
from fieldapp.units import UNITS


@dataclass(frozen=True, slots=True)
class Vacuum:
    """The entries and computed values that together prove the vacuum; None where there is none."""

    pull: Entry
    pressure: Column
    target: Entry | None
    pump_alone: Entry | None
    hold: Entry | None
    hold_pressure: Column | None
    hold_temperature: Column | None
    station: str
    volume: str
    gauge_target: Computed | None
    deepest: Computed | None
    leak: Computed | None


def vacuum_of(checklist: Checklist) -> Vacuum | None:
    """Return the parts of the evacuation: the first trace of an absolute pressure, and its kin."""
    entries = [entry for step in checklist.steps() for entry in step.entries]
    pull = next((e for e in entries if e.kind is Kind.TRACE and _absolute(e)), None)
    if pull is None:
        return None
    place = entries.index(pull)
    before, later = entries[:place], entries[place + 1 :]
    target = next((e for e in later if _is_pressure(e) and _has_limit(e)), None)
    hold = next((e for e in later if e.kind is Kind.HOLD and _absolute(e)), None)
    leak = _computed(checklist, "leak_rate")
    gauge = _computed(checklist, "gauge_vacuum")
    station = dict(gauge.inputs).get("station_pressure", "") if gauge else ""
    alone = [e for e in before if _is_pressure(e) and e.id != station]
    pressure = _absolute(pull)
    assert pressure is not None  # noqa: S101 - it was chosen by it
    return Vacuum(
        pull=pull,
        pressure=pressure,
        target=target,
        pump_alone=alone[-1] if alone else None,
        hold=hold,
        hold_pressure=_absolute(hold) if hold else None,
        hold_temperature=_column(hold, "temperature") if hold else None,
        station=station,
        volume=dict(leak.inputs).get("volume", "") if leak else "",
        gauge_target=gauge,
        deepest=_computed(checklist, "deepest_vacuum"),
        leak=leak,
    )


def evacuation_entries(checklist: Checklist) -> frozenset[str]:
    """Return the entries whose readings have a page of their own."""
    vacuum = vacuum_of(checklist)
    if vacuum is None:
        return frozenset()
    held = (vacuum.hold.id,) if vacuum.hold and vacuum.leak else ()
    return frozenset({vacuum.pull.id, *held})


def alarms_of(checklist: Checklist) -> Iterator[Entry]:
    """Yield the entries that prove a shutdown, in order."""
    for step in checklist.steps():
        yield from (entry for entry in step.entries if entry.kind is Kind.ALARM)


def quantity_of(unit: str) -> str:
    """Return what a unit measures."""
    return UNITS[unit].quantity if unit in UNITS else ""


def _column(entry: Entry, quantity: str) -> Column | None:
    return next((c for c in entry.columns if quantity_of(c.measure.unit) == quantity), None)


def _absolute(entry: Entry) -> Column | None:
    return _column(entry, "absolute pressure")


def _is_pressure(entry: Entry) -> bool:
    unit = entry.measure.unit if entry.measure and entry.kind is Kind.NUMBER else ""
    return quantity_of(unit) == "absolute pressure"


def _has_limit(entry: Entry) -> bool:
    return entry.measure is not None and entry.measure.limits != Limits()


def _computed(checklist: Checklist, formula: str) -> Computed | None:
    return next((c for c in checklist.computed if c.formula == formula), None)
