"""The water that the oil carried into the cartridges between two readings."""

from dataclasses import dataclass
from datetime import datetime

from fieldapp.engineering.drying.balance import (
    LEAST_DIFFERENCE,
    removal_rate,
    removal_rate_uncertainty,
)
from fieldapp.engineering.oil import oil_density
from fieldapp.engineering.validity import OutsideValidity
from fieldapp.job.sheet import JobSheet
from fieldapp.logbook.shapes import Amount
from fieldapp.units import to_si

DENSITY_UNCERTAINTY = 0.003  # share (k = 2), value from memory: a density read at 20 °C
USUAL_DENSITY, USUAL_OIL = 880.0, 323.15  # common practice, no source: where nothing is stated
LITRES_MISSING = "the litres are not known: nothing is counted up to here"
WENT_BACK = "the totaliser stands lower than before: nothing is counted up to here"
TOO_MANY = "more litres than the flow brings in that time: nothing is counted up to here"
MOST_OVER_FLOW = 1.25  # common practice, no source: beyond it a figure is mistyped
MOISTURE_MISSING = "moisture in and out were not both read: nothing is counted up to here"
BY_FLOW = "the totaliser was not read at the start: flow × time stands for it"


@dataclass(frozen=True, slots=True)
class Point:
    """What was read at one moment, in SI; outlet with the probes' zero added."""

    at: datetime
    litres: float | None
    inlet: float | None
    outlet: float | None
    oil: float | None
    flow: float | None
    zeroed: bool
    fresh: bool = False

    @property
    def difference(self) -> float | None:
        """Return moisture in less out, freed of the probes' zero."""
        return None if self.inlet is None or self.outlet is None else self.inlet - self.outlet


@dataclass(frozen=True, slots=True)
class Stretch:
    """The water of one stretch; None with the reason where nobody can say."""

    amount: Amount | None
    seconds: float
    note: str = ""

    @property
    def a_day(self) -> float | None:
        """Return the water a day [kg]."""
        if self.amount is None or self.seconds <= 0:
            return None
        return self.amount.water / self.seconds * to_si(1, "d")


def stretch(before: Point, now: Point, sheet: JobSheet) -> Stretch:
    """Return the water between two readings.

    The difference of the two ends is averaged; after new cartridges only the later end counts,
    since the earlier one was read with those that were taken out.
    """
    seconds = (now.at - before.at).total_seconds()
    volume, note = _volume(before, now, seconds)
    if volume is None:
        return Stretch(None, seconds, note)
    if now.inlet is None or now.outlet is None:
        return Stretch(None, seconds, MOISTURE_MISSING)
    inlet, outlet = now.inlet, now.outlet
    if not before.fresh and before.inlet is not None and before.outlet is not None:
        inlet, outlet = (before.inlet + inlet) / 2, (before.outlet + outlet) / 2
    if seconds <= 0:
        return Stretch(None, seconds, "the clock stands before the reading before: look at it")
    try:
        return Stretch(_amount(volume, seconds, inlet, outlet, now, sheet), seconds, note)
    except OutsideValidity as refusal:
        return Stretch(None, seconds, f"{refusal}: nothing is counted up to here")


def _volume(before: Point, now: Point, seconds: float) -> tuple[float | None, str]:
    if now.litres is not None and before.litres is not None:
        passed = now.litres - before.litres
        if passed < 0:
            return None, WENT_BACK
        flow = max(before.flow or 0.0, now.flow or 0.0)
        too_many = flow > 0 and seconds > 0 and passed > MOST_OVER_FLOW * flow * seconds
        return (None, TOO_MANY) if too_many else (passed, "")
    if now.flow is not None and before.litres is None:
        return now.flow * seconds, BY_FLOW
    return None, LITRES_MISSING


def _amount(
    volume: float, seconds: float, inlet: float, outlet: float, now: Point, sheet: JobSheet
) -> Amount:
    flow = volume / seconds
    rate = removal_rate(
        flow=flow, density=_density(now, sheet), inlet_water=inlet, outlet_water=max(outlet, 0.0)
    )
    share = removal_rate_uncertainty(
        difference=max(abs(inlet - outlet), LEAST_DIFFERENCE),
        probe_uncertainty=_probe(sheet, zeroed=now.zeroed),
        scale_uncertainty=_scale(sheet, inlet),
        flow_uncertainty=_relative(sheet, "totaliser", volume),
        density_uncertainty=DENSITY_UNCERTAINTY,
    )
    least = LEAST_DIFFERENCE * volume * _density(now, sheet)
    return Amount(rate * seconds, share * max(abs(rate * seconds), least))


def _density(now: Point, sheet: JobSheet) -> float:
    stated = sheet.number_of("oil_density")
    at_20 = stated.si() if stated else USUAL_DENSITY
    return oil_density(density_at_20=at_20, temperature=now.oil or USUAL_OIL)


def _probe(sheet: JobSheet, *, zeroed: bool) -> float:
    """Return the uncertainty of one probe; with a zero, what it repeats to, twice."""
    probe = sheet.instrument("moisture_inlet")
    if probe is None:
        return 0.0
    stated = probe.repeatability if zeroed and probe.repeatability else probe.accuracy
    width = stated.si() if stated else 0.0
    return width * 2**0.5 if zeroed and probe.repeatability else width


def _scale(sheet: JobSheet, inlet: float) -> float:
    """Return what a zero leaves: the scale, which may be off by the probe's accuracy."""
    probe = sheet.instrument("moisture_inlet")
    width = probe.accuracy.si() if probe and probe.accuracy else 0.0
    return min(1.0, width / inlet) if inlet > 0 else 1.0


def _relative(sheet: JobSheet, name: str, volume: float) -> float:
    meter = sheet.instrument(name)
    if meter is None:
        return 0.0
    absolute = meter.accuracy.si() / volume if meter.accuracy and volume else 0.0
    return min(1.0, absolute + float(meter.of_reading) / 100)
