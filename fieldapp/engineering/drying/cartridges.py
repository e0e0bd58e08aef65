"""Water in a cartridge, weighed as it drips against blanks that dripped the same way."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, sqrt
from statistics import mean, stdev
from typing import Annotated

from fieldapp.engineering.validity import require

Kilogram = Annotated[float, "mass"]
Share = Annotated[float, "share"]
Count = Annotated[float, "count"]
WaterInOil = Annotated[float, "water content"]

HEAVIEST = 500.0
MOST_CARTRIDGES = 20
FEWEST_BLANKS = 3
TOO_FEW_BLANKS = (
    "{} blanks were weighed: soak and drain at least 3 unused cartridges, all in the same way"
)
# JCGM 100:2008 Table G.2: Student's t for 95.45 % by degrees of freedom
STUDENT = {2: 4.53, 3: 3.31, 4: 2.87, 5: 2.65, 6: 2.52, 7: 2.43, 8: 2.37, 9: 2.32, 10: 2.28}
STUDENT_BEYOND = 2.25


@dataclass(frozen=True, slots=True)
class Blank:
    """Unused cartridges soaked in oil and drained: mean mass, spread of one, how many [kg]."""

    mass: float
    spread: float
    count: int

    @property
    def coverage(self) -> float:
        """Return Student's t for 95.45 %, in place of k = 2 where blanks are few."""
        return STUDENT.get(self.count - 1, STUDENT_BEYOND)


@dataclass(frozen=True, slots=True)
class TooFewBlanks:
    """Why no water can be stated, and what to do."""

    reason: str


@dataclass(frozen=True, slots=True)
class WeighedWater:
    """Water in the cartridges of one change, with its expanded uncertainty [kg]."""

    water: float
    uncertainty: float


def blank_of(masses: Sequence[float]) -> Blank | TooFewBlanks:
    """Return what unused cartridges weigh soaked and drained, or why that is not known.

    >>> blank_of([42.1, 42.3, 42.5]).mass
    42.3
    """
    for mass in masses:
        require("blank_mass", mass, 0.1, HEAVIEST)
    if len(masses) < FEWEST_BLANKS:
        return TooFewBlanks(TOO_FEW_BLANKS.format(len(masses)))
    return Blank(mean(masses), stdev(masses), len(masses))


def water_in_cartridges(drained: Sequence[float], blank: Blank) -> WeighedWater:
    """Return the water in the cartridges of one change from their drained masses [kg].

    Each cartridge holds a little more or less oil, as the blanks did; the blanks' mean is shared
    by all of them (JCGM 100:2008, 4.2.3 and 5.1.2).

    >>> blank = Blank(mass=42.3, spread=0.1, count=10)
    >>> round(water_in_cartridges([45.1, 45.0], blank).water, 1)
    5.5
    """
    for mass in drained:
        require("drained_mass", mass, 0.1, HEAVIEST)
    count = len(drained)
    require("cartridges", count, 1, MOST_CARTRIDGES)
    water = sum(drained) - count * blank.mass
    spread = blank.spread * sqrt(count + count**2 / blank.count)
    return WeighedWater(water, blank.coverage * spread)


def cartridge_water(*, drained_mass: Kilogram, blank_mass: Kilogram) -> Kilogram:
    """Return the water in a cartridge; not its gain over the dry mass, which is mostly oil.

    Parameters
    ----------
    drained_mass : used cartridge, drained the agreed time [kg]
    blank_mass : mean of at least three unused cartridges, soaked and drained the same way [kg]

    Returns
    -------
    mass [kg]; below zero within the uncertainty of the blanks

    Valid for
    ---------
    both 0.1 to 500 kg

    Source
    ------
    Weighing by difference against a blank (common practice, no source).

    Examples
    --------
    >>> round(cartridge_water(drained_mass=45.1, blank_mass=42.3), 1)
    2.8
    """
    require("drained_mass", drained_mass, 0.1, HEAVIEST)
    require("blank_mass", blank_mass, 0.1, HEAVIEST)
    return drained_mass - blank_mass


def cartridge_water_uncertainty(
    *, drained_uncertainty: Kilogram, blank_uncertainty: Kilogram, cartridges: Count
) -> Kilogram:
    """Return the uncertainty of the water in a set of cartridges, all with one k.

    Parameters
    ----------
    drained_uncertainty : of one drained cartridge: scale, and oil held [kg]
    blank_uncertainty : of the blank taken off each, as if each had its own [kg]
    cartridges : how many are weighed [-]

    Returns
    -------
    mass [kg], with the k of what was given

    Valid for
    ---------
    uncertainties 0 to 10 kg, cartridges 1 to 20; cartridges independent of each other

    Source
    ------
    JCGM 100:2008, 5.1.2, law of propagation for a difference.

    Examples
    --------
    >>> round(cartridge_water_uncertainty(drained_uncertainty=0.4, blank_uncertainty=0.4,
    ...                                   cartridges=2), 1)
    0.8
    """
    require("drained_uncertainty", drained_uncertainty, 0, 10)
    require("blank_uncertainty", blank_uncertainty, 0, 10)
    require("cartridges", cartridges, 1, MOST_CARTRIDGES)
    return sqrt(cartridges * (drained_uncertainty**2 + blank_uncertainty**2))


def adsorbent_loading(
    *, oil_water: WaterInOil, full_loading: Share, half_loaded_at: WaterInOil
) -> Share:
    """Return the water that an adsorbent takes up from oil at last, by constants of the site.

    Parameters
    ----------
    oil_water : water in the oil that passes it [kg/kg]
    full_loading : water at saturation as a share of the adsorbent, fitted on site [-]
    half_loaded_at : water in oil at which half of that is taken up, fitted on site [kg/kg]

    Returns
    -------
    water taken up as a share of the adsorbent [-]

    Valid for
    ---------
    oil_water 0 to 200e-6 kg/kg, full_loading 0.02 to 0.21, half_loaded_at 0.1e-6 to 200e-6 kg/kg;
    one liquid and one temperature: constants of another do not carry over

    Source
    ------
    Langmuir's isotherm, Journal of the American Chemical Society 40, 1918, p. 1361 (value from
    memory); that water in insulating liquids on 3A sieve follows it: Przybylek, Energies
    14(6):1719, 2021 (abstract). No constants are published there, so none are offered.

    Examples
    --------
    >>> round(adsorbent_loading(oil_water=10e-6, full_loading=0.18, half_loaded_at=5e-6), 3)
    0.12
    """
    require("oil_water", oil_water, 0, 200e-6)
    require("full_loading", full_loading, 0.02, 0.21)
    require("half_loaded_at", half_loaded_at, 0.1e-6, 200e-6)
    return full_loading * oil_water / (oil_water + half_loaded_at)


def cartridges_needed(
    *, water: Kilogram, adsorbent_mass: Kilogram, working_capacity: Share
) -> Count:
    """Return the cartridges that take up an amount of water.

    Parameters
    ----------
    water : water to take up [kg]
    adsorbent_mass : dry adsorbent in one cartridge [kg]
    working_capacity : water taken up as a share of the adsorbent [-]; 3A sieve in warm, dry oil
        0.10 to 0.18, cellulose 0.04 to 0.08

    Returns
    -------
    whole cartridges [-]

    Valid for
    ---------
    water 0 to 1000 kg, adsorbent_mass 0.1 to 500 kg, working_capacity 0.02 to 0.21

    Source
    ------
    Arithmetic; 3A molecular sieve holds 20 to 21 % near saturation (zeolite handbooks, value from
    memory). Przybylek, Energies 14(6):1719, 2021: the capacity depends on the liquid.

    Examples
    --------
    >>> cartridges_needed(water=50, adsorbent_mass=25, working_capacity=0.15)
    14.0
    """
    require("water", water, 0, 1000)
    require("adsorbent_mass", adsorbent_mass, 0.1, HEAVIEST)
    require("working_capacity", working_capacity, 0.02, 0.21)
    exact = water / (adsorbent_mass * working_capacity)
    # what floating point adds behind the last decimal must not ask for one cartridge more
    return float(ceil(round(exact, 9)))
