"""What the readings of a running dryer call for: carry on, look, change, stop, or not now."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from typing import Annotated

from fieldapp.engineering.drying.balance import dryer_efficiency, removal_rate

DAY = 86_400.0
STEADY = 3.0
FLOW_BAND = 0.10
LOOK_BELOW, CHANGE_BELOW = 0.5, 0.3

WARMER = "cannot be judged now: oil {:+.1f} K from the temperature of loading; wait for within 3 K"
OTHER_FLOW = "cannot be judged now: flow is {:.0f} % of its set point; set it and read again"
UNSURE = "cannot be judged now: inlet and outlet differ by less than twice their uncertainty"


class Call(Enum):
    """What is to be done with the cartridges; common practice, no source."""

    CARRY_ON = "carry on"
    LOOK = "look: one pass takes less than half of the water"
    CHANGE = "change the cartridges: for 24 hours one pass has taken less than 30 % of the water"
    STOP = "stop: the outlet is wetter than the inlet, the cartridges give water back"


@dataclass(frozen=True, slots=True)
class Reading:
    """One reading of the running dryer [s, K, m³/s, kg/kg], the probe zero taken off."""

    time: Annotated[float, "time"]
    temperature: Annotated[float, "temperature"]
    flow: Annotated[float, "flow"]
    inlet_water: Annotated[float, "water content"]
    outlet_water: Annotated[float, "water content"]

    @property
    def difference(self) -> float:
        """Return inlet less outlet water content [kg/kg]."""
        return self.inlet_water - self.outlet_water

    @property
    def efficiency(self) -> float:
        """Return the share of the oil's water that one pass takes."""
        return dryer_efficiency(inlet_water=self.inlet_water, outlet_water=self.outlet_water)


@dataclass(frozen=True, slots=True)
class StopRule:
    """When drying counts as done: a rate [kg/s], and under which conditions it may be judged."""

    rate: float
    loading_temperature: float
    set_flow: float
    density: float


@dataclass(frozen=True, slots=True)
class NotNow:
    """Why the stop rule cannot be judged, and what to wait for."""

    reason: str


def cartridge_call(readings: Sequence[Reading], uncertainty: float) -> Call:
    """Return what the latest of the readings, in order of time, calls for.

    `uncertainty` is the expanded one of inlet less outlet [kg/kg].

    >>> reading = Reading(0, 321.15, 12 / 60_000, 19.8e-6, 3.0e-6)
    >>> cartridge_call([reading], 2.8e-6).value
    'carry on'
    """
    latest = readings[-1]
    if latest.difference < 0:
        return Call.STOP
    if _spent_for_a_day(readings, uncertainty):
        return Call.CHANGE
    return Call.LOOK if latest.efficiency < LOOK_BELOW else Call.CARRY_ON


def rate_is_below(rule: StopRule, reading: Reading, uncertainty: float) -> bool | NotNow:
    """Say whether drying has come down to the rate of the stop rule, or why that is not known.

    >>> rule = StopRule(0.144 / DAY, 321.15, 12 / 60_000, 862)
    >>> rate_is_below(rule, Reading(0, 321.15, 12 / 60_000, 19.8e-6, 3.0e-6), 2.8e-6)
    False
    """
    off = reading.temperature - rule.loading_temperature
    if not abs(off) <= STEADY:
        return NotNow(WARMER.format(off))
    share = reading.flow / rule.set_flow
    if not abs(share - 1) <= FLOW_BAND:
        return NotNow(OTHER_FLOW.format(share * 100))
    if not reading.difference > 2 * uncertainty:
        return NotNow(UNSURE)
    rate = removal_rate(
        flow=reading.flow,
        density=rule.density,
        inlet_water=reading.inlet_water,
        outlet_water=reading.outlet_water,
    )
    return rate <= rule.rate


def _spent_for_a_day(readings: Sequence[Reading], uncertainty: float) -> bool:
    """Say whether the cartridges were spent through the last day, and the readings sure of it."""
    latest = readings[-1]
    spent = []
    for reading in reversed(readings):
        steady = abs(reading.temperature - latest.temperature) <= STEADY
        sure = reading.difference > 2 * uncertainty
        if not (steady and sure and reading.efficiency < CHANGE_BELOW):
            break
        spent.append(reading)
    return bool(spent) and latest.time - spent[-1].time >= DAY
