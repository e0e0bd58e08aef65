"""How thick oil is at a temperature, and what a volume of it weighs."""

from math import log10
from typing import Annotated

from fieldapp.engineering.oil import oil_density
from fieldapp.engineering.validity import require

Kelvin = Annotated[float, "temperature"]
SquareMetrePerSecond = Annotated[float, "viscosity"]
KilogramPerCubicMetre = Annotated[float, "density"]
CubicMetre = Annotated[float, "volume"]
Kilogram = Annotated[float, "mass"]

SQUARE_MILLIMETRE = 1e-6
THINNEST, THICKEST = 2e-6, 0.02
COLDEST, HOTTEST = 233.15, 383.15
APART = 20.0


def oil_viscosity(
    *,
    temperature: Kelvin,
    cold_temperature: Kelvin,
    cold_viscosity: SquareMetrePerSecond,
    warm_temperature: Kelvin,
    warm_viscosity: SquareMetrePerSecond,
) -> SquareMetrePerSecond:
    """Return the kinematic viscosity of oil at a temperature, from two points of its data sheet.

    Parameters
    ----------
    temperature : oil temperature [K]
    cold_temperature : temperature of the cold point [K]
    cold_viscosity : viscosity there [m²/s]
    warm_temperature : temperature of the warm point [K]
    warm_viscosity : viscosity there [m²/s]

    Returns
    -------
    kinematic viscosity [m²/s]

    Valid for
    ---------
    temperatures 233.15 to 383.15 K, the points at least 20 K apart, viscosities (the one found
    too) 2e-6 to 0.02 m²/s: below 2 mm²/s the term 0.7 does not hold

    Source
    ------
    Walther's equation, log log (ν + 0.7) = A - B log T with ν in mm²/s, ASTM D341 (value from
    memory).

    Examples
    --------
    >>> round(oil_viscosity(temperature=273.15, cold_temperature=243.15, cold_viscosity=0.001162,
    ...     warm_temperature=313.15, warm_viscosity=9.9e-6) * 1e6, 1)
    70.5
    """
    require("temperature", temperature, COLDEST, HOTTEST)
    require("cold_temperature", cold_temperature, COLDEST, HOTTEST - APART)
    require("warm_temperature", warm_temperature, cold_temperature + APART, HOTTEST)
    require("cold_viscosity", cold_viscosity, THINNEST, THICKEST)
    require("warm_viscosity", warm_viscosity, THINNEST, cold_viscosity)
    cold, warm = _walther(cold_viscosity), _walther(warm_viscosity)
    fall = (cold - warm) / log10(warm_temperature / cold_temperature)
    height = warm + fall * log10(warm_temperature / temperature)
    viscosity = float(10 ** min(10**height, 10.0) - 0.7) * SQUARE_MILLIMETRE
    require("viscosity", viscosity, THINNEST, THICKEST)
    return viscosity


def oil_mass(
    *, volume: CubicMetre, density_at_20: KilogramPerCubicMetre, temperature: Kelvin
) -> Kilogram:
    """Return the mass of a volume of mineral oil, measured at a temperature.

    Parameters
    ----------
    volume : volume at `temperature` [m³]
    density_at_20 : density at 20 °C [kg/m³]
    temperature : oil temperature at the meter or in the tank [K]

    Returns
    -------
    mass [kg]

    Valid for
    ---------
    volume 0 to 300 m³, density_at_20 800 to 1000 kg/m³, temperature 243.15 to 383.15 K

    Source
    ------
    Volume times density; slope 0.65 kg/m³ a kelvin for mineral insulating oil, IEC 60296
    practice (value from memory).

    Examples
    --------
    >>> round(oil_mass(volume=19.3, density_at_20=880, temperature=293.15))
    16984
    """
    require("volume", volume, 0, 300)
    return volume * oil_density(density_at_20=density_at_20, temperature=temperature)


def _walther(viscosity: float) -> float:
    return log10(log10(viscosity / SQUARE_MILLIMETRE + 0.7))
