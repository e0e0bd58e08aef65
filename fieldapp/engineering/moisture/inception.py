"""The temperature at which wet paper begins to throw bubbles: the low figure, which is printed."""

from math import exp, log
from typing import Annotated

from fieldapp.engineering.moisture.saturation import ZERO_CELSIUS
from fieldapp.engineering.moisture.sorption import TORR
from fieldapp.engineering.validity import require

Kelvin = Annotated[float, "temperature"]
Pascal = Annotated[float, "absolute pressure"]
Share = Annotated[float, "share"]

FORMULA_ZERO = 273.0


def bubble_inception(
    *, water_in_paper: Share, station_pressure: Pascal, gas_content: Share
) -> Kelvin:
    """Return the temperature of the hottest paper at which bubbles begin, the low figure.

    The oil's head above the winding is left out: it would raise the figure.

    Parameters
    ----------
    water_in_paper : share of the dry mass; the upper end of the band gives the lowest [-]
    station_pressure : air pressure here [Pa]
    gas_content : gas dissolved in the oil, by volume [-]; unknown: 0.10, oil full of air

    Returns
    -------
    temperature [K]

    Valid for
    ---------
    water_in_paper 0.005 to 0.05, station_pressure 50 000 to 108 500 Pa, gas_content 0 to 0.12

    Source
    ------
    IEEE C57.91-2011 Annex A, Oommen and McNutt (value from memory): 6996.7/(22.454 + 1.4495 ln W
    - ln P) - exp(0.473 W) V^1.585/30 - 273 in °C, W and V in %, P in Torr.

    Examples
    --------
    >>> found = bubble_inception(water_in_paper=0.03, station_pressure=84320, gas_content=0.08)
    >>> round(found - 273.15, 1)
    120.9
    """
    require("water_in_paper", water_in_paper, 0.005, 0.05)
    require("station_pressure", station_pressure, 50_000, 108_500)
    require("gas_content", gas_content, 0, 0.12)
    water, gas = water_in_paper * 100, gas_content * 100
    dry = 6996.7 / (22.454 + 1.4495 * log(water) - log(station_pressure / TORR))
    with_gas: float = exp(0.473 * water) * gas**1.585 / 30
    return dry - with_gas - FORMULA_ZERO + ZERO_CELSIUS
