"""The oil level in the conservator: what the curve asks for, and what is left when it is cold."""

from typing import Annotated

from fieldapp.engineering.validity import require

Kelvin = Annotated[float, "temperature"]
CubicMetre = Annotated[float, "volume"]
Share = Annotated[float, "share"]
PerKelvin = Annotated[float, "expansion"]


def expected_level(
    *,
    curve_level: Share,
    curve_temperature: Kelvin,
    temperature: Kelvin,
    oil_volume: CubicMetre,
    expansion: PerKelvin,
    conservator_volume: CubicMetre,
) -> Share:
    """Return the conservator level that the oil temperature asks for.

    Parameters
    ----------
    curve_level : level on the owner's curve at `curve_temperature` [share]
    curve_temperature : mean oil temperature of that point [K]
    temperature : mean oil temperature now [K]
    oil_volume : oil of the transformer at 20 °C [m³]
    expansion : volume expansion of the oil [1/K]
    conservator_volume : volume of the conservator [m³]

    Returns
    -------
    level as a share of the conservator [-]

    Valid for
    ---------
    temperatures 233.15 to 393.15 K, curve_level 0 to 1, oil_volume 0.1 to 300 m³,
    expansion 0.0005 to 0.001 1/K, conservator_volume 0.001 to 50 m³

    Source
    ------
    Linear expansion of volume; 0.00075 1/K for mineral oil is common practice (from memory).

    Examples
    --------
    >>> round(expected_level(curve_level=0.668, curve_temperature=323.15, temperature=313.15,
    ...     oil_volume=19.3, expansion=0.00075, conservator_volume=1.8), 3)
    0.588
    """
    require("curve_level", curve_level, 0, 1)
    require("curve_temperature", curve_temperature, 233.15, 393.15)
    require("temperature", temperature, 233.15, 393.15)
    rise = temperature - curve_temperature
    return curve_level + rise * _level_per_kelvin(oil_volume, expansion, conservator_volume)


def margin_cold(
    *,
    level: Share,
    mean_oil_temperature: Kelvin,
    coldest_oil: Kelvin,
    alarm_level: Share,
    still_to_take: CubicMetre,
    oil_volume: CubicMetre,
    expansion: PerKelvin,
    conservator_volume: CubicMetre,
) -> Share:
    """Return how far the level will stand above the low-level contact at the coldest oil.

    Parameters
    ----------
    level : level now [share]
    mean_oil_temperature : mean oil temperature now [K]
    coldest_oil : coldest mean oil temperature with the unit off [K]
    alarm_level : level at which the contact acts [share]
    still_to_take : oil that the skid has yet to take [m³]
    oil_volume : oil of the transformer at 20 °C [m³]
    expansion : volume expansion of the oil [1/K]
    conservator_volume : volume of the conservator [m³]

    Returns
    -------
    margin as a share of the conservator [-]; below zero the contact will act

    Valid for
    ---------
    temperatures 213.15 to 393.15 K, level and alarm_level 0 to 1, still_to_take 0 to 10 m³,
    oil_volume 0.1 to 300 m³, expansion 0.0005 to 0.001 1/K, conservator_volume 0.001 to 50 m³

    Source
    ------
    Linear expansion of volume; 0.00075 1/K for mineral oil is common practice (from memory).

    Examples
    --------
    >>> round(margin_cold(level=1203 / 1800, mean_oil_temperature=323.15, coldest_oil=278.15,
    ...     alarm_level=0.1, still_to_take=0.12, oil_volume=19.3, expansion=0.00075,
    ...     conservator_volume=1.8), 3)
    0.14
    """
    require("level", level, 0, 1)
    require("alarm_level", alarm_level, 0, 1)
    require("still_to_take", still_to_take, 0, 10)
    require("mean_oil_temperature", mean_oil_temperature, 213.15, 393.15)
    require("coldest_oil", coldest_oil, 213.15, 393.15)
    fall = mean_oil_temperature - coldest_oil
    per_kelvin = _level_per_kelvin(oil_volume, expansion, conservator_volume)
    return level - alarm_level - still_to_take / conservator_volume - fall * per_kelvin


def oil_lost_before_alarm(
    *, level: Share, alarm_level: Share, conservator_volume: CubicMetre
) -> CubicMetre:
    """Return the oil that runs out before the transformer's own contact acts.

    Parameters
    ----------
    level : level now [share]
    alarm_level : level at which the contact acts [share]
    conservator_volume : volume of the conservator [m³]

    Returns
    -------
    volume of oil [m³]

    Valid for
    ---------
    alarm_level 0 to 1, level alarm_level to 1, conservator_volume 0.001 to 50 m³

    Source
    ------
    Difference of two levels; a vessel of constant section, common practice, no source.

    Examples
    --------
    >>> round(oil_lost_before_alarm(level=0.602, alarm_level=0.1, conservator_volume=1.8), 3)
    0.904
    """
    require("alarm_level", alarm_level, 0, 1)
    require("level", level, alarm_level, 1)
    require("conservator_volume", conservator_volume, 0.001, 50)
    return (level - alarm_level) * conservator_volume


def _level_per_kelvin(oil_volume: float, expansion: float, conservator_volume: float) -> float:
    require("oil_volume", oil_volume, 0.1, 300)
    require("expansion", expansion, 0.0005, 0.001)
    require("conservator_volume", conservator_volume, 0.001, 50)
    return oil_volume * expansion / conservator_volume
