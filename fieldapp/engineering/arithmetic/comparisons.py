"""Two figures of one kind: how far apart they are, their sum with an allowance, their mean."""

from typing import Annotated

from fieldapp.engineering.validity import require

Pascal = Annotated[float, "absolute pressure"]
PascalAboveAir = Annotated[float, "pressure above air"]
Kelvin = Annotated[float, "temperature"]
KelvinDifference = Annotated[float, "temperature difference"]
WaterContent = Annotated[float, "water content"]
Kilogram = Annotated[float, "mass"]
Share = Annotated[float, "share"]

HIGHEST_PRESSURE = 50_000_000.0
WETTEST_OIL = 0.003


def pressure_difference(*, first: PascalAboveAir, second: PascalAboveAir) -> PascalAboveAir:
    """Return how much higher one pressure is than another, such as before and after a filter.

    Parameters
    ----------
    first : pressure above air [Pa]
    second : pressure above air taken off [Pa]

    Returns
    -------
    pressure [Pa]; below zero when the second is higher

    Valid for
    ---------
    both -100 000 to 50 000 000 Pa

    Source
    ------
    Difference.

    Examples
    --------
    >>> pressure_difference(first=142_000, second=118_000)
    24000
    """
    require("first", first, -100_000, HIGHEST_PRESSURE)
    require("second", second, -100_000, HIGHEST_PRESSURE)
    return first - second


def pressure_plus(*, pressure: PascalAboveAir, allowance: PascalAboveAir) -> PascalAboveAir:
    """Return a pressure above air with an allowance.

    Parameters
    ----------
    pressure : pressure above air [Pa]
    allowance : what is added; below zero it is taken off [Pa]

    Returns
    -------
    pressure above air [Pa]

    Valid for
    ---------
    pressure -100 000 to 50 000 000 Pa, allowance -1 000 000 to 1 000 000 Pa

    Source
    ------
    Sum. What is added is common practice or the owner's figure, no source.

    Examples
    --------
    >>> pressure_plus(pressure=350_000, allowance=20_000)
    370000
    """
    require("pressure", pressure, -100_000, HIGHEST_PRESSURE)
    require("allowance", allowance, -1_000_000, 1_000_000)
    return pressure + allowance


def absolute_pressure_plus(*, pressure: Pascal, allowance: Pascal) -> Pascal:
    """Return an absolute pressure with an allowance, such as a vacuum that may rise by so much.

    Parameters
    ----------
    pressure : absolute pressure [Pa]
    allowance : what is added [Pa]

    Returns
    -------
    absolute pressure [Pa]

    Valid for
    ---------
    pressure 0 to 110 000 Pa, allowance 0 to 20 000 Pa

    Source
    ------
    Sum. What is added is common practice or the owner's figure, no source.

    Examples
    --------
    >>> absolute_pressure_plus(pressure=100, allowance=100)
    200
    """
    require("pressure", pressure, 0, 110_000)
    require("allowance", allowance, 0, 20_000)
    return pressure + allowance


def temperature_difference(*, first: Kelvin, second: Kelvin) -> KelvinDifference:
    """Return how much warmer one thing is than another.

    Parameters
    ----------
    first : temperature [K]
    second : temperature taken off [K]

    Returns
    -------
    temperature difference [K]; below zero when the second is warmer

    Valid for
    ---------
    both 200 to 500 K

    Source
    ------
    Difference.

    Examples
    --------
    >>> round(temperature_difference(first=325.15, second=322.15), 6)
    3.0
    """
    require("first", first, 200, 500)
    require("second", second, 200, 500)
    return first - second


def mean_water(*, first: WaterContent, second: WaterContent) -> WaterContent:
    """Return the mean of two water contents, such as two samples of one oil.

    Parameters
    ----------
    first : one of them [kg/kg]
    second : the other [kg/kg]

    Returns
    -------
    their mean [kg/kg]

    Valid for
    ---------
    both 0 to 0.003 kg/kg

    Source
    ------
    Arithmetic mean.

    Examples
    --------
    >>> round(mean_water(first=11e-6, second=13e-6) * 1e6, 6)
    12.0
    """
    require("first", first, 0, WETTEST_OIL)
    require("second", second, 0, WETTEST_OIL)
    return (first + second) / 2


def mean_share(*, first: Share, second: Share) -> Share:
    """Return the mean of two shares, such as two readings of one level.

    Parameters
    ----------
    first : one of them [-]
    second : the other [-]

    Returns
    -------
    their mean [-]

    Valid for
    ---------
    both 0 to 10

    Source
    ------
    Arithmetic mean.

    Examples
    --------
    >>> round(mean_share(first=0.61, second=0.59), 6)
    0.6
    """
    require("first", first, 0, 10)
    require("second", second, 0, 10)
    return (first + second) / 2


def mean_mass(*, first: Kilogram, second: Kilogram) -> Kilogram:
    """Return the mean of two masses, such as two weighings of one thing.

    Parameters
    ----------
    first : one of them [kg]
    second : the other [kg]

    Returns
    -------
    their mean [kg]

    Valid for
    ---------
    both 0 to 100 000 kg

    Source
    ------
    Arithmetic mean.

    Examples
    --------
    >>> round(mean_mass(first=45.1, second=45.0), 6)
    45.05
    """
    require("first", first, 0, 100_000)
    require("second", second, 0, 100_000)
    return (first + second) / 2
