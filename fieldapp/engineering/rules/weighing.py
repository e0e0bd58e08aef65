"""Cartridges and rest: what weighing says, what readings call for, and whether a sample counts."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt
from typing import Annotated

from fieldapp.engineering.drying import cartridges, rest, watch
from fieldapp.engineering.rules.said import (
    CannotSayError,
    Figure,
    Said,
    require_rising,
)
from fieldapp.engineering.validity import require

Kilogram = Annotated[float, "mass"]
KilogramPerSecond = Annotated[float, "mass flow"]
KilogramPerCubicMetre = Annotated[float, "density"]
CubicMetrePerSecond = Annotated[float, "flow"]
Kelvin = Annotated[float, "temperature"]
Second = Annotated[float, "time"]
WaterContent = Annotated[float, "water content"]

COLDEST, HOTTEST = 243.15, 383.15
LONGEST = 3.2e8
GREATEST_FLOW, WETTEST_OIL, GREATEST_DOUBT = 0.005, 0.003, 0.001
ALIKE = (
    "The blanks agree to the last digit, so they say nothing of how well this is known: state the "
    "scale’s uncertainty."
)
COUNTS = "The sample counts for the rest test."


@dataclass(frozen=True, slots=True)
class Weighing:
    """One cartridge on the scale."""

    mass: Kilogram


def cartridges_weighed(
    *, blank: Sequence[Weighing], drained: Sequence[Weighing], scale: Kilogram = 0.0
) -> Said:
    """Say how much water the cartridges of one change hold, and how well that is known.

    Parameters
    ----------
    blank : unused cartridges soaked in oil and drained the same way [kg]
    drained : used cartridges, drained the agreed time [kg]
    scale : uncertainty of the scale, k = 2, beside what the blanks scatter [kg]

    Returns
    -------
    water in all of them, with its expanded uncertainty

    Valid for
    ---------
    three blanks or more, 1 to 20 drained cartridges, masses 0.1 to 500 kg, scale 0 to 10 kg

    Source
    ------
    Weighing by difference against blanks (common practice, no source); uncertainty by JCGM
    100:2008, 4.2.3 and 5.1.2, Student's t of table G.2.

    Examples
    --------
    >>> blank = [Weighing(42.2), Weighing(42.3), Weighing(42.4)]
    >>> cartridges_weighed(blank=blank, drained=[Weighing(45.1), Weighing(45.0)]).sentence
    '5.5 kg of water in 2 cartridges, give or take 0.8 kg.'
    """
    found = cartridges.blank_of([each.mass for each in blank])
    if isinstance(found, cartridges.TooFewBlanks):
        raise CannotSayError(found.reason)
    weighed = cartridges.water_in_cartridges([each.mass for each in drained], found)
    require("scale", scale, 0, 10)
    doubt = sqrt(weighed.uncertainty**2 + len(drained) * scale**2)
    many = f"{len(drained)} cartridge{'' if len(drained) == 1 else 's'}"
    words = f"{weighed.water:.1f} kg of water in {many}"
    words += f", give or take {doubt:.1f} kg." if doubt else "."
    return Said(
        words,
        (
            Figure("water", weighed.water, "kg", doubt or None),
            Figure("mean blank", found.mass, "kg", found.coverage * found.spread or None),
        ),
        notes=() if doubt else (ALIKE,),
    )


def cartridges_call(*, reading: Sequence[watch.Reading], uncertainty: WaterContent) -> Said:
    """Say what the readings of a running dryer call for: carry on, look, change or stop.

    Parameters
    ----------
    reading : time; oil temperature; flow; water content before; after, the probe zero taken off
        [s; K; m³/s; kg/kg; kg/kg]
    uncertainty : of inlet less outlet, k = 2 [kg/kg]

    Returns
    -------
    what to do with the cartridges

    Valid for
    ---------
    times rising, 0 to 3.2e8 s, temperature 243.15 to 383.15 K, flow 0 to 0.005 m³/s, water before
    1e-6 to 0.003 kg/kg, after 0 to 0.003 kg/kg, uncertainty 0 to 0.001 kg/kg

    Source
    ------
    Below a half look, below 0.3 for 24 h at steady temperature change, outlet wetter than inlet
    stop: common practice, no source.

    Examples
    --------
    >>> reading = [watch.Reading(0, 321.15, 12 / 60_000, 19.8e-6, 3.0e-6)]
    >>> cartridges_call(reading=reading, uncertainty=2.8e-6).sentence
    'Carry on.'
    """
    require_rising([each.time for each in reading], LONGEST)
    for each in reading:
        _require_reading(each)
    require("uncertainty", uncertainty, 0, GREATEST_DOUBT)
    call = watch.cartridge_call(reading, uncertainty).value
    latest = reading[-1]
    return Said(
        f"{call[:1].upper()}{call[1:]}.",
        (
            Figure("inlet less outlet", latest.difference, "mg/kg", uncertainty),
            Figure("share taken in one pass", latest.efficiency, "%"),
        ),
    )


def stop_rule(
    *,
    rate: KilogramPerSecond,
    loading_temperature: Kelvin,
    set_flow: CubicMetrePerSecond,
    density: KilogramPerCubicMetre,
    temperature: Kelvin,
    flow: CubicMetrePerSecond,
    inlet_water: WaterContent,
    outlet_water: WaterContent,
    uncertainty: WaterContent,
) -> Said:
    """Say whether drying has come down to the rate agreed on, or why it cannot be judged now.

    Parameters
    ----------
    rate : removal rate at which drying counts as done [kg/s]
    loading_temperature : oil temperature at which the unit was loaded and the rule set [K]
    set_flow : flow that belongs to the rule [m³/s]
    density : density of the oil at the flow meter's temperature [kg/m³]
    temperature : oil temperature now [K]
    flow : flow now [m³/s]
    inlet_water : water content before the cartridges, the probe zero taken off [kg/kg]
    outlet_water : water content after them [kg/kg]
    uncertainty : of inlet less outlet, k = 2 [kg/kg]

    Returns
    -------
    down to the rate, not yet, or cannot be judged now

    Valid for
    ---------
    rate 0 to 0.01 kg/s, temperatures 243.15 to 383.15 K, flows up to 0.005 m³/s, density 750 to
    1000 kg/m³, water before 1e-6 to 0.003 kg/kg, after 0 to 0.003 kg/kg, uncertainty 0 to 0.001
    kg/kg; judged within 3 K, at set flow and with a difference above twice its uncertainty

    Source
    ------
    Rule of the trade: common practice, no source.

    Examples
    --------
    >>> stop_rule(rate=0.144 / 86_400, loading_temperature=321.15, set_flow=12 / 60_000,
    ...     density=862, temperature=321.15, flow=12 / 60_000, inlet_water=19.8e-6,
    ...     outlet_water=3.0e-6, uncertainty=2.8e-6).sentence
    'Not yet: drying still takes more than the rate agreed on.'
    """
    require("rate", rate, 0, 0.01)
    require("loading_temperature", loading_temperature, COLDEST, HOTTEST)
    require("set_flow", set_flow, 1e-6, GREATEST_FLOW)
    require("density", density, 750, 1000)
    reading = watch.Reading(0, temperature, flow, inlet_water, outlet_water)
    _require_reading(reading)
    require("uncertainty", uncertainty, 0, GREATEST_DOUBT)
    rule = watch.StopRule(rate, loading_temperature, set_flow, density)
    below = watch.rate_is_below(rule, reading, uncertainty)
    taken = flow * density * reading.difference
    figures = (Figure("removal rate now", taken, "kg/d"), Figure("agreed on", rate, "kg/d"))
    if isinstance(below, watch.NotNow):
        return Said(f"{below.reason[:1].upper()}{below.reason[1:]}.", figures)
    done = "Down to the rate agreed on." if below else (
        "Not yet: drying still takes more than the rate agreed on."
    )  # fmt: skip
    return Said(done, figures)


def rest_sample(*, since_drying: Second, temperature: Kelvin, temperature_before: Kelvin) -> Said:
    """Say whether a sample counts for the rest test, or what stands in its way.

    Parameters
    ----------
    since_drying : time since the dryer stopped [s]
    temperature : oil temperature at the tank's own cock now [K]
    temperature_before : oil temperature of the sample before drying [K]

    Returns
    -------
    that it counts, or every obstacle

    Valid for
    ---------
    since_drying 0 to 3.2e8 s, temperatures 243.15 to 383.15 K

    Source
    ------
    72 h, 7 days, 21 to 28 days; 40 °C or more and within 5 K: common practice, no source.

    Examples
    --------
    >>> rest_sample(since_drying=7.2 * 86_400, temperature=322, temperature_before=325).sentence
    'The sample counts for the rest test.'
    """
    require("since_drying", since_drying, 0, LONGEST)
    require("temperature", temperature, COLDEST, HOTTEST)
    require("temperature_before", temperature_before, COLDEST, HOTTEST)
    obstacles = rest.obstacles_to_rest(
        since_drying=since_drying, temperature=temperature, temperature_before=temperature_before
    )
    if not obstacles:
        return Said(COUNTS)
    first, *more = (f"{each[:1].upper()}{each[1:]}." for each in obstacles)
    return Said(f"Does not count. {first}", notes=tuple(more))


def _require_reading(reading: watch.Reading) -> None:
    require("temperature", reading.temperature, COLDEST, HOTTEST)
    require("flow", reading.flow, 0, GREATEST_FLOW)
    require("inlet_water", reading.inlet_water, 1e-6, WETTEST_OIL)
    require("outlet_water", reading.outlet_water, 0, WETTEST_OIL)
