"""The air pressure here, from a figure that a weather service gives for sea level."""

from math import exp
from typing import Annotated

from fieldapp.engineering.atmosphere import (
    LAPSE,
    LAPSE_EXPONENT,
    SEA_LEVEL,
    SEA_LEVEL_TEMPERATURE,
)
from fieldapp.engineering.validity import require

Pascal = Annotated[float, "absolute pressure"]
Metre = Annotated[float, "length"]
Kelvin = Annotated[float, "temperature"]

HIGHEST_FOR_WEATHER = 750.0
GRAVITY_OVER_GAS_CONSTANT = 9.80665 / 287.053


def station_from_altimeter(*, altimeter_setting: Pascal, elevation: Metre) -> Pascal:
    """Return the air pressure here, from the altimeter setting of an airfield near by.

    For planning: only a barometer on the site says what its air is. The elevation is that of
    the site, not of the airfield.

    Parameters
    ----------
    altimeter_setting : what pilots are told (QNH) [Pa]
    elevation : height of the site above sea level (geopotential) [m]

    Returns
    -------
    absolute pressure [Pa]

    Valid for
    ---------
    altimeter_setting 87 000 to 108 500 Pa, elevation -430 to 5000 m

    Source
    ------
    Definition of QNH: the standard atmosphere of ISO 2533:1975 through the pressure measured,
    ICAO Annex 3 (value from memory).

    Examples
    --------
    >>> round(station_from_altimeter(altimeter_setting=101000, elevation=1500))
    84275
    """
    require("altimeter_setting", altimeter_setting, 87_000, 108_500)
    require("elevation", elevation, -430, 5000)
    at_sea_level = float((altimeter_setting / SEA_LEVEL) ** (1 / LAPSE_EXPONENT))
    share = at_sea_level - LAPSE * elevation / SEA_LEVEL_TEMPERATURE
    return SEA_LEVEL * float(share**LAPSE_EXPONENT)


def station_from_weather_report(
    *, sea_level_pressure: Pascal, elevation: Metre, outside_temperature: Kelvin
) -> Pascal:
    """Return the air pressure here, from a weather report reduced to sea level.

    For planning: only a barometer on the site says what its air is. Above 750 m services reduce
    in ways of their own; there take the altimeter setting or a barometer.

    Parameters
    ----------
    sea_level_pressure : pressure of the report, reduced to sea level (QFF) [Pa]
    elevation : height of the site above sea level (geopotential) [m]
    outside_temperature : air temperature at the site, mean of the last 12 h [K]

    Returns
    -------
    absolute pressure [Pa]

    Valid for
    ---------
    sea_level_pressure 87 000 to 108 500 Pa, elevation -430 to 750 m, outside_temperature 223.15
    to 328.15 K; dry air (moist air changes it by less than 1 hPa)

    Source
    ------
    Hypsometric equation with half the lapse of 0.0065 K/m, as in the reduction of low stations,
    WMO-No. 8, part I, chapter 3 (value from memory).

    Examples
    --------
    >>> round(station_from_weather_report(sea_level_pressure=101325, elevation=500,
    ...     outside_temperature=284.9))
    95461
    """
    require("sea_level_pressure", sea_level_pressure, 87_000, 108_500)
    require("elevation", elevation, -430, HIGHEST_FOR_WEATHER)
    require("outside_temperature", outside_temperature, 223.15, 328.15)
    mean_temperature = outside_temperature + LAPSE * elevation / 2
    return sea_level_pressure * exp(-GRAVITY_OVER_GAS_CONSTANT * elevation / mean_temperature)
