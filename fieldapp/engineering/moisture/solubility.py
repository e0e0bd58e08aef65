"""How much water oil holds dissolved, by named sets of constants or by a fit to the site's oil."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import log10
from typing import Annotated

from fieldapp.engineering.validity import require

Kelvin = Annotated[float, "temperature"]
KelvinDifference = Annotated[float, "temperature difference"]
WaterContent = Annotated[float, "water content"]
PlainNumber = Annotated[float, "plain number"]
Share = Annotated[float, "share"]

MILLIGRAM_PER_KILOGRAM = 1e-6
COLDEST, HOTTEST = 273.15, 373.15
LOWEST_A, HIGHEST_A = 4.0, 10.0
LOWEST_B, HIGHEST_B = 300.0, 3000.0
LEAST_SOLUBILITY, GREATEST_SOLUBILITY = 1e-6, 0.01
FEWEST_PAIRS = 3
LEAST_SPREAD = 15.0


@dataclass(frozen=True, slots=True)
class Solubility:
    """Constants of log10 S = A - B/T, S in mg/kg and T in K; `source` says how far to trust them.

    T is the temperature in °C plus 273.15.
    """

    name: str
    constant_a: float
    constant_b: float
    source: str

    def at(self, temperature: float) -> float:
        """Return the solubility [kg/kg] at a temperature [K]."""
        return water_solubility(
            temperature=temperature, constant_a=self.constant_a, constant_b=self.constant_b
        )


GRIFFIN = Solubility(
    "Griffin 1988", 7.0895, 1567.0,
    "Griffin, Bruce, Christie: Doble client conference 1988, used in IEEE C57.106 "
    "(value from memory); reproduces a table in general circulation, 0 to 100 °C, to 1.4 mg/kg "
    "with T = t + 273",
)  # fmt: skip
OOMMEN = Solubility(
    "Oommen 1983", 7.42, 1670.0,
    "Oommen: Electrical/Electronics Insulation Conference 1983 (value from memory)",
)  # fmt: skip
DU = Solubility(
    "Du 1999", 7.30, 1630.0,
    "set quoted in Du, Zahn et al., IEEE Electrical Insulation Magazine 15(1), 1999 "
    "(value from memory)",
)  # fmt: skip
NATURAL_ESTER = Solubility(
    "natural ester", 5.3318, 684.0,
    "set in use for natural esters since about 2002 (value from memory, attribution uncertain); "
    "fluids differ by 15 %",
)  # fmt: skip
MINERAL_SETS = (GRIFFIN, OOMMEN, DU)


@dataclass(frozen=True, slots=True)
class Pair:
    """A laboratory's water content [kg/kg] and a probe's relative saturation, same oil, same time.

    `temperature` is the oil's at the probe [K].
    """

    temperature: Kelvin
    water: WaterContent
    saturation: Share


def water_solubility(
    *, temperature: Kelvin, constant_a: PlainNumber, constant_b: KelvinDifference
) -> WaterContent:
    """Return how much water oil holds dissolved at most.

    Parameters
    ----------
    temperature : oil temperature [K]
    constant_a : A of log10 S = A - B/T, S in mg/kg [-]; new mineral oil 7.0895 (Griffin)
    constant_b : B of the same [K]; new mineral oil 1567 (Griffin)

    Returns
    -------
    water content [kg/kg]

    Valid for
    ---------
    temperature 273.15 to 373.15 K, constant_a 4 to 10, constant_b 300 to 3000 K, solubility
    1e-6 to 0.01 kg/kg; the named sets hold for new oil: acids let aged oil hold more, so that
    they overstate its saturation; a site's own constants are better

    Source
    ------
    Griffin, Bruce, Christie 1988, used in IEEE C57.106 (value from memory); T = t + 273.15. The
    sets of Griffin, Oommen 1983 and Du et al. 1999 part by 5 % at 20 °C, 13 % at 100 °C.

    Examples
    --------
    >>> found = water_solubility(temperature=313.15, constant_a=7.0895, constant_b=1567)
    >>> round(found * 1e6, 1)
    121.8
    """
    require("temperature", temperature, COLDEST, HOTTEST)
    require_constants(constant_a, constant_b)
    solubility: float = MILLIGRAM_PER_KILOGRAM * 10 ** (constant_a - constant_b / temperature)
    require("solubility", solubility, LEAST_SOLUBILITY, GREATEST_SOLUBILITY)
    return solubility


def require_constants(constant_a: float, constant_b: float) -> None:
    """Refuse constants that belong to no insulating liquid."""
    require("constant_a", constant_a, LOWEST_A, HIGHEST_A)
    require("constant_b", constant_b, LOWEST_B, HIGHEST_B)


def fitted_solubility(pairs: Sequence[Pair], source: str) -> Solubility | None:
    """Return the constants fitted to the oil of a site; None while the pairs do not carry a fit.

    Least squares of log10(water/saturation) against 1/T.

    Parameters
    ----------
    pairs : laboratory water content beside a probe's relative saturation
    source : who took the pairs, and when

    Returns
    -------
    the constants, or None with fewer than 3 pairs, less than 15 K between coldest and warmest,
    or constants that belong to no insulating liquid

    Valid for
    ---------
    oil temperature 273.15 to 373.15 K, saturation 0.01 to 1; the laboratory reads dissolved water

    Source
    ------
    Definition of relative saturation, S = C/RS; least squares. Three pairs and 15 K: common
    practice, no source.

    Examples
    --------
    >>> pairs = [Pair(300.15, 20e-6, 0.26), Pair(313.15, 22e-6, 0.17), Pair(330.15, 25e-6, 0.10)]
    >>> round(fitted_solubility(pairs, "three samples of the office").constant_b)
    1692
    """
    for pair in pairs:
        require("temperature", pair.temperature, COLDEST, HOTTEST)
        require("water", pair.water, LEAST_SOLUBILITY / 100, GREATEST_SOLUBILITY)
        require("saturation", pair.saturation, 0.01, 1)
    temperatures = [pair.temperature for pair in pairs]
    if len(pairs) < FEWEST_PAIRS or max(temperatures) - min(temperatures) < LEAST_SPREAD:
        return None
    logarithms = [log10(pair.water / pair.saturation / MILLIGRAM_PER_KILOGRAM) for pair in pairs]
    inverses = [1 / temperature for temperature in temperatures]
    constant_a, slope = _straight_line(inverses, logarithms)
    if not (LOWEST_A <= constant_a <= HIGHEST_A and LOWEST_B <= -slope <= HIGHEST_B):
        return None
    return Solubility("site", constant_a, -slope, source)


def _straight_line(xs: Sequence[float], ys: Sequence[float]) -> tuple[float, float]:
    """Return (value at nought, slope) of the best straight line."""
    mean_x, mean_y = sum(xs) / len(xs), sum(ys) / len(ys)
    crossed = sum((x - mean_x) * (y - mean_y) for x, y in zip(xs, ys, strict=True))
    slope = crossed / sum((x - mean_x) ** 2 for x in xs)
    return mean_y - slope * mean_x, slope
