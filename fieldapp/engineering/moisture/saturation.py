"""How near oil is to shedding water: relative saturation, free water, and trends at 20 °C."""

from math import exp, log10
from typing import Annotated

from fieldapp.engineering.moisture.solubility import (
    MILLIGRAM_PER_KILOGRAM,
    require_constants,
    water_solubility,
)
from fieldapp.engineering.validity import require

Kelvin = Annotated[float, "temperature"]
KelvinDifference = Annotated[float, "temperature difference"]
WaterContent = Annotated[float, "water content"]
PlainNumber = Annotated[float, "plain number"]
Share = Annotated[float, "share"]

ZERO_CELSIUS = 273.15
AT_20 = 293.15
MOST_WATER = 0.005
COLDEST_CORRECTED, HOTTEST_CORRECTED = 308.15, 343.15
COLDEST_FREE_WATER, HOTTEST_FREE_WATER = 248.15, 373.15


def relative_saturation(
    *,
    water: WaterContent,
    temperature: Kelvin,
    constant_a: PlainNumber,
    constant_b: KelvinDifference,
) -> Share:
    """Return the water in oil as a share of what it can hold dissolved at its temperature.

    Parameters
    ----------
    water : water content of the oil [kg/kg]
    temperature : oil temperature when it was sampled [K]
    constant_a : A of log10 S = A - B/T, S in mg/kg [-]; new mineral oil 7.0895 (Griffin)
    constant_b : B of the same [K]; new mineral oil 1567 (Griffin)

    Returns
    -------
    share [-]; above 1 there is free water

    Valid for
    ---------
    water 0 to 0.005 kg/kg, temperature 273.15 to 373.15 K, constant_a 4 to 10, constant_b 300 to
    3000 K

    Source
    ------
    Definition, RS = C/S; water activity is the same number.

    Examples
    --------
    >>> found = relative_saturation(water=10e-6, temperature=313.15, constant_a=7.0895,
    ...                             constant_b=1567)
    >>> round(found * 100, 2)
    8.21
    """
    require("water", water, 0, MOST_WATER)
    return water / water_solubility(
        temperature=temperature, constant_a=constant_a, constant_b=constant_b
    )


def water_at_saturation(
    *,
    saturation: Share,
    temperature: Kelvin,
    constant_a: PlainNumber,
    constant_b: KelvinDifference,
) -> WaterContent:
    """Return the water content that a relative saturation means, such as a probe's.

    Parameters
    ----------
    saturation : relative saturation, or water activity [-]
    temperature : oil temperature at the probe [K]
    constant_a : A of log10 S = A - B/T, S in mg/kg [-]; new mineral oil 7.0895 (Griffin)
    constant_b : B of the same [K]; new mineral oil 1567 (Griffin)

    Returns
    -------
    water content [kg/kg]; with constants of new oil too low for aged oil

    Valid for
    ---------
    saturation 0 to 1, temperature 273.15 to 373.15 K, constant_a 4 to 10, constant_b 300 to
    3000 K

    Source
    ------
    Definition, C = RS S.

    Examples
    --------
    >>> found = water_at_saturation(saturation=0.069, temperature=323.15, constant_a=7.0895,
    ...                             constant_b=1567)
    >>> round(found * 1e6, 1)
    12.0
    """
    require("saturation", saturation, 0, 1)
    return saturation * water_solubility(
        temperature=temperature, constant_a=constant_a, constant_b=constant_b
    )


def free_water_temperature(
    *, water: WaterContent, constant_a: PlainNumber, constant_b: KelvinDifference
) -> Kelvin:
    """Return the temperature below which oil sheds water.

    Parameters
    ----------
    water : water content of the oil [kg/kg]
    constant_a : A of log10 S = A - B/T, S in mg/kg [-]; new mineral oil 7.0895 (Griffin)
    constant_b : B of the same [K]; new mineral oil 1567 (Griffin)

    Returns
    -------
    temperature [K]; below 273.15 K the line is carried on beyond its fit, and it would be ice

    Valid for
    ---------
    water 1e-6 to 0.005 kg/kg, constant_a 4 to 10, constant_b 300 to 3000 K, found temperature
    248.15 to 373.15 K

    Source
    ------
    Inverse of log10 S = A - B/T, T = t + 273.15.

    Examples
    --------
    >>> found = free_water_temperature(water=35e-6, constant_a=7.0895, constant_b=1567)
    >>> round(found - 273.15, 1)
    9.4
    """
    require("water", water, MILLIGRAM_PER_KILOGRAM, MOST_WATER)
    require_constants(constant_a, constant_b)
    found = constant_b / (constant_a - log10(water / MILLIGRAM_PER_KILOGRAM))
    require("free_water_temperature", found, COLDEST_FREE_WATER, HOTTEST_FREE_WATER)
    return found


def factor_to_20(temperature: Kelvin) -> float:
    """Return the bare factor f = 2.24 exp(-0.04 t) of IEC 60422, whatever the temperature [K]."""
    return 2.24 * exp(-0.04 * (temperature - ZERO_CELSIUS))


def water_corrected_to_20(*, water: WaterContent, temperature: Kelvin) -> WaterContent:
    """Return the water content on the 20 °C basis, for a trend; it says nothing of the paper.

    Parameters
    ----------
    water : water content of the oil [kg/kg]
    temperature : oil temperature when it was sampled [K]

    Returns
    -------
    water content [kg/kg]

    Valid for
    ---------
    water 0 to 0.005 kg/kg, temperature 308.15 to 343.15 K; mineral oil near balance with its
    paper: not after oil was treated, never while a dryer runs

    Source
    ------
    IEC 60422:2013 Annex A, f = 2.24 exp(-0.04 t) (value from memory). At 70 °C it lies 18 %
    below the correction that keeps relative saturation.

    Examples
    --------
    >>> round(water_corrected_to_20(water=20e-6, temperature=323.15) * 1e6, 2)
    6.06
    """
    require("water", water, 0, MOST_WATER)
    require("temperature", temperature, COLDEST_CORRECTED, HOTTEST_CORRECTED)
    return water * factor_to_20(temperature)


def saturation_at_20(
    *,
    water: WaterContent,
    temperature: Kelvin,
    constant_a: PlainNumber,
    constant_b: KelvinDifference,
) -> Share:
    """Return the relative saturation on the 20 °C basis, on which the condition bands stand.

    Parameters
    ----------
    water : water content of the oil [kg/kg]
    temperature : oil temperature when it was sampled [K]
    constant_a : A of log10 S = A - B/T, S in mg/kg [-]; new mineral oil 7.0895 (Griffin)
    constant_b : B of the same [K]; new mineral oil 1567 (Griffin)

    Returns
    -------
    share [-]

    Valid for
    ---------
    water 0 to 0.005 kg/kg, temperature 308.15 to 343.15 K, constant_a 4 to 10, constant_b 300 to
    3000 K; not after oil was treated, never while a dryer runs

    Source
    ------
    IEC 60422:2013 Annex A (value from memory): corrected water content over solubility at 20 °C.

    Examples
    --------
    >>> found = saturation_at_20(water=24e-6, temperature=325.15, constant_a=7.0895,
    ...                          constant_b=1567)
    >>> round(found * 100, 1)
    12.1
    """
    corrected = water_corrected_to_20(water=water, temperature=temperature)
    return relative_saturation(
        water=corrected, temperature=AT_20, constant_a=constant_a, constant_b=constant_b
    )
