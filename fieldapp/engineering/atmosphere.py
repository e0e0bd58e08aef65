"""The air a site has: what a barometer should read there, and what that leaves for a gauge."""

from typing import Annotated

from fieldapp.engineering.validity import require

Pascal = Annotated[float, "absolute pressure"]
PascalVacuum = Annotated[float, "vacuum below air"]
Metre = Annotated[float, "length"]

SEA_LEVEL = 101_325.0
SEA_LEVEL_TEMPERATURE = 288.15
LAPSE = 0.0065
LAPSE_EXPONENT = 9.80665 * 0.0289644 / (8.31432 * LAPSE)


def standard_pressure(*, elevation: Metre) -> Pascal:
    """Return the air pressure of the standard atmosphere at an elevation.

    For planning only: weather moves the air pressure by about ±25 hPa.

    Parameters
    ----------
    elevation : height above sea level (geopotential) [m]

    Returns
    -------
    absolute pressure [Pa]

    Valid for
    ---------
    elevation -430 to 5000 m

    Source
    ------
    U.S. Standard Atmosphere 1976 (same as ISO 2533:1975), lowest layer, equation 33a.

    Examples
    --------
    >>> round(standard_pressure(elevation=1500))
    84556
    """
    require("elevation", elevation, -430, 5000)
    ratio = 1 - LAPSE * elevation / SEA_LEVEL_TEMPERATURE
    return SEA_LEVEL * float(ratio**LAPSE_EXPONENT)


def gauge_vacuum(*, station_pressure: Pascal, residual_pressure: Pascal) -> PascalVacuum:
    """Return what a gauge relative to air shows at a residual pressure.

    Parameters
    ----------
    station_pressure : air pressure here, by barometer, not reduced to sea level [Pa]
    residual_pressure : absolute pressure left in the vessel [Pa]

    Returns
    -------
    vacuum below the air outside [Pa]; the reading that a gauge in inHg shows

    Valid for
    ---------
    station_pressure 50 000 to 108 500 Pa, residual_pressure 0 Pa to station_pressure

    Source
    ------
    Definition of gauge pressure, ISO 80000-4:2019, item 4-14.2.

    Examples
    --------
    >>> round(gauge_vacuum(station_pressure=84320, residual_pressure=16665) / 3386.389, 2)
    19.98
    """
    require("station_pressure", station_pressure, 50_000, 108_500)
    require("residual_pressure", residual_pressure, 0, station_pressure)
    return station_pressure - residual_pressure


def residual_pressure(*, station_pressure: Pascal, vacuum: PascalVacuum) -> Pascal:
    """Return the absolute pressure left when a gauge relative to air shows a vacuum.

    Parameters
    ----------
    station_pressure : air pressure here, by barometer, not reduced to sea level [Pa]
    vacuum : vacuum below the air outside, as the gauge shows it [Pa]

    Returns
    -------
    absolute pressure [Pa]

    Valid for
    ---------
    station_pressure 50 000 to 108 500 Pa, vacuum 0 Pa to station_pressure: more vacuum than
    there is air pressure does not exist

    Source
    ------
    Definition of gauge pressure, ISO 80000-4:2019, item 4-14.2.

    Examples
    --------
    >>> round(residual_pressure(station_pressure=101325, vacuum=25 * 3386.389))
    16665
    """
    require("station_pressure", station_pressure, 50_000, 108_500)
    require("vacuum", vacuum, 0, station_pressure)
    return station_pressure - vacuum


def deepest_vacuum(*, station_pressure: Pascal) -> PascalVacuum:
    """Return the deepest vacuum that a gauge relative to air can show here.

    Parameters
    ----------
    station_pressure : air pressure here, by barometer, not reduced to sea level [Pa]

    Returns
    -------
    vacuum below the air outside [Pa]

    Valid for
    ---------
    station_pressure 50 000 to 108 500 Pa

    Source
    ------
    Definition of gauge pressure, ISO 80000-4:2019, item 4-14.2.

    Examples
    --------
    >>> round(deepest_vacuum(station_pressure=84320) / 3386.389, 2)
    24.9
    """
    return gauge_vacuum(station_pressure=station_pressure, residual_pressure=0)
