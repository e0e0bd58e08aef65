"""Water by a sample: what it says of the paper, how dry the oil is, and a site's own constants."""

from collections.abc import Sequence
from typing import Annotated

from fieldapp.engineering.moisture.bands import band_of
from fieldapp.engineering.moisture.estimate import Liquid, NoFigure, OilSample, paper_estimate
from fieldapp.engineering.moisture.solubility import (
    MILLIGRAM_PER_KILOGRAM,
    MINERAL_SETS,
    NATURAL_ESTER,
    Pair,
    Solubility,
    fitted_solubility,
    require_constants,
)
from fieldapp.engineering.rules.said import CannotSayError, Figure, Said
from fieldapp.engineering.validity import require

Kelvin = Annotated[float, "temperature"]
KelvinDifference = Annotated[float, "temperature difference"]
WaterContent = Annotated[float, "water content"]
PlainNumber = Annotated[float, "plain number"]
Second = Annotated[float, "time"]
Share = Annotated[float, "share"]

LONGEST_REST = 3.2e9
ONE_CONSTANT = "constant_a and constant_b belong together: give both or neither"
NO_FIT = (
    "these pairs carry no fit: take three or more, 15 K from coldest to warmest, laboratory and "
    "probe on the same oil"
)
AGED = "Aged paper holds less water than these lines say, so its figure is on the high side."


def solubility_sets(*, temperature: Kelvin) -> Said:
    """Say how much water oil dissolves by each published set of constants, to choose one.

    Parameters
    ----------
    temperature : oil temperature [K]

    Returns
    -------
    A, B and what dissolves, by set, with its source

    Valid for
    ---------
    temperature 273.15 to 373.15 K, new oil; acids let aged oil hold more; site_solubility is
    better

    Source
    ------
    Griffin 1988, Oommen 1983, a set quoted in Du et al. 1999, a set in use for natural esters
    (values from memory); log10 S = A - B/T with S in mg/kg and T = t + 273.15.

    Examples
    --------
    >>> solubility_sets(temperature=313.15).sentence
    'New mineral oil dissolves 121.8 to 124.4 mg/kg of water; the sets part by 2 %.'
    """
    low, *_, high = sorted(each.at(temperature) for each in MINERAL_SETS)
    words = (
        f"New mineral oil dissolves {low / MILLIGRAM_PER_KILOGRAM:.1f} to "
        f"{high / MILLIGRAM_PER_KILOGRAM:.1f} mg/kg of water; the sets part by "
        f"{100 * (high / low - 1):.0f} %."
    )
    rows = tuple(
        (each.name, f"{each.constant_a:.4f}", f"{each.constant_b:.0f}",
         f"{each.at(temperature) / MILLIGRAM_PER_KILOGRAM:.1f}")
        for each in (*MINERAL_SETS, NATURAL_ESTER)
    )  # fmt: skip
    notes = tuple(f"{each.name}: {each.source}." for each in (*MINERAL_SETS, NATURAL_ESTER))
    return Said(words, heads=("set", "A", "B", "mg/kg"), rows=rows, notes=notes)


def paper_of_sample(
    *,
    temperature: Kelvin | None = None,
    water: WaterContent | None = None,
    saturation: Share | None = None,
    since_drying: Second | None = None,
    liquid: Liquid = Liquid.MINERAL_OIL,
    constant_a: PlainNumber | None = None,
    constant_b: KelvinDifference | None = None,
) -> Said:
    """Say what an oil sample tells of the water in the paper, or why it tells nothing.

    Parameters
    ----------
    temperature : oil temperature when it was sampled [K]
    water : water content by laboratory [kg/kg]
    saturation : relative saturation by a water-activity probe, which wins over `water` [-]
    since_drying : time since a dryer last ran, 0 while it runs; left out if none ever did [s]
    liquid : what the unit is filled with
    constant_a : A of log10 S = A - B/T fitted to this unit's liquid, S in mg/kg [-]
    constant_b : B of the same [K]

    Returns
    -------
    water in paper by two lines, the band, and the saturation behind it

    Valid for
    ---------
    temperature 313.15 to 363.15 K, saturation of the oil 0 to 0.20, water 0 to 0.005 kg/kg, paper
    0.005 to 0.04, 72 h or more since a dryer ran; an ester only with constants of its own

    Source
    ------
    Fessler et al. 1989, and Oommen and McNutt inside IEEE C57.91 (values from memory), each with
    its own solubility: Griffin 1988, Oommen 1983. Band 0.75 of the lower to 1.25 of the higher.

    Examples
    --------
    >>> paper_of_sample(temperature=325.15, water=24e-6).sentence
    'The paper holds about 3.0 % water, somewhere from 2.2 to 3.8 %.'
    """
    site = _site(constant_a, constant_b)
    if since_drying is not None:
        require("since_drying", since_drying, 0, LONGEST_REST)
    if water is not None:
        require("water", water, 0, 0.005)
    found = paper_estimate(OilSample(temperature, water, saturation, since_drying, liquid, site))
    if isinstance(found, NoFigure):
        raise CannotSayError(found.reason)
    middle = (found.first + found.second) / 2
    return Said(
        f"The paper holds about {100 * middle:.1f} % water, somewhere from "
        f"{100 * found.low:.1f} to {100 * found.high:.1f} %.",
        (
            Figure("by Fessler's line", found.first, "%"),
            Figure("by the line of Oommen and McNutt", found.second, "%"),
            Figure("at least", found.low, "%"),
            Figure("at most", found.high, "%"),
            Figure(f"oil saturated ({found.solubility})", found.saturation, "%"),
        ),
        notes=(AGED,),
    )


def _site(constant_a: float | None, constant_b: float | None) -> Solubility | None:
    if constant_a is None and constant_b is None:
        return None
    if constant_a is None or constant_b is None:
        raise CannotSayError(ONE_CONSTANT)
    require_constants(constant_a, constant_b)
    return Solubility("site", constant_a, constant_b, "as given")


def saturation_band(*, saturation: Share) -> Said:
    """Say which band of dryness a relative saturation on the 20 °C basis falls into.

    Parameters
    ----------
    saturation : relative saturation on the 20 °C basis, see saturation_at_20 [-]

    Returns
    -------
    dry, moderate to wet, wet, or extremely wet

    Valid for
    ---------
    saturation 0 to 50 (above 1 there is free water)

    Source
    ------
    IEC 60422 Annex A; IEEE Std 62-1995 prints 0-5, 6-20, 21-30 and over 30 % (values from
    memory).

    Examples
    --------
    >>> saturation_band(saturation=0.121).sentence
    'Moderate to wet.'
    """
    name = band_of(saturation).name
    return Said(f"{name[:1].upper()}{name[1:]}.")


def site_solubility(*, pair: Sequence[Pair], taken_by: str) -> Said:
    """Say which solubility constants a site's own oil has, from laboratory and probe together.

    Parameters
    ----------
    pair : oil temperature at the probe; water content by laboratory; saturation by the probe
        [K; kg/kg; -]
    taken_by : who took the pairs, and when

    Returns
    -------
    A and B of log10 S = A - B/T, S in mg/kg and T in K

    Valid for
    ---------
    three pairs or more, 15 K or more from coldest to warmest, temperature 273.15 to 373.15 K,
    water 1e-8 to 0.01 kg/kg, saturation 0.01 to 1, found A 4 to 10 and B 300 to 3000 K; the
    laboratory reads dissolved water

    Source
    ------
    Definition of relative saturation, S = C/RS; least squares. Three pairs and 15 K: common
    practice, no source.

    Examples
    --------
    >>> pair = [Pair(300.15, 20e-6, 0.26), Pair(313.15, 22e-6, 0.17), Pair(330.15, 25e-6, 0.10)]
    >>> site_solubility(pair=pair, taken_by="the office, 2026").sentence
    'log10 S = 7.521 - 1692/T, by the office, 2026.'
    """
    found = fitted_solubility(pair, taken_by)
    if found is None:
        raise CannotSayError(NO_FIT)
    words = f"log10 S = {found.constant_a:.3f} - {found.constant_b:.0f}/T, by {taken_by}."
    return Said(
        words,
        (
            Figure("constant_a", found.constant_a, "1"),
            Figure("constant_b", found.constant_b, "K"),
            Figure("dissolves at 20 °C", found.at(293.15), "mg/kg"),
            Figure("dissolves at 60 °C", found.at(333.15), "mg/kg"),
        ),
    )
