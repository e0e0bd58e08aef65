"""The oil of the transformer: its density, its head at a port, its level cold and warm."""

from typing import Annotated

from fieldapp.engineering.validity import require

Pascal = Annotated[float, "absolute pressure"]
PascalAboveAir = Annotated[float, "pressure above air"]
KilogramPerCubicMetre = Annotated[float, "density"]
Kelvin = Annotated[float, "temperature"]
Metre = Annotated[float, "length"]
CubicMetre = Annotated[float, "volume"]
Share = Annotated[float, "share"]
PerKelvin = Annotated[float, "expansion"]

GRAVITY = 9.80665
ZERO_CELSIUS = 273.15
DENSITY_SLOPE = 0.65


def oil_density(
    *, density_at_20: KilogramPerCubicMetre, temperature: Kelvin
) -> KilogramPerCubicMetre:
    """Return the density of mineral oil at a temperature.

    Parameters
    ----------
    density_at_20 : density at 20 °C [kg/m³]
    temperature : oil temperature [K]

    Returns
    -------
    density [kg/m³]

    Valid for
    ---------
    density_at_20 800 to 1000 kg/m³, temperature 243.15 to 383.15 K

    Source
    ------
    Slope 0.65 kg/m³ a kelvin for mineral insulating oil, IEC 60296 practice (value from memory).

    Examples
    --------
    >>> round(oil_density(density_at_20=880, temperature=321.15), 1)
    861.8
    """
    require("density_at_20", density_at_20, 800, 1000)
    require("temperature", temperature, 243.15, 383.15)
    return density_at_20 - DENSITY_SLOPE * (temperature - ZERO_CELSIUS - 20)


def head(
    *,
    density_at_20: KilogramPerCubicMetre,
    temperature: Kelvin,
    oil_height: Metre,
    port_height: Metre,
    cushion_pressure: PascalAboveAir,
) -> PascalAboveAir:
    """Return the pressure that the oil standing above a port makes there.

    Parameters
    ----------
    density_at_20 : oil density at 20 °C [kg/m³]
    temperature : oil temperature [K]
    oil_height : height of the oil surface above ground [m]
    port_height : height of the port above the same ground [m]
    cushion_pressure : pressure of the gas above the oil, above air [Pa]; 0 free-breathing

    Returns
    -------
    pressure above air [Pa]; below zero if the port lies above the oil

    Valid for
    ---------
    quiet oil (pumps off); density_at_20 800 to 1000 kg/m³, temperature 243.15 to 383.15 K,
    heights -5 to 40 m, cushion_pressure -50 000 to 100 000 Pa

    Source
    ------
    Hydrostatic law p = ρ g h with standard gravity 9.80665 m/s² (ISO 80000-3:2019).

    Examples
    --------
    >>> round(head(density_at_20=880, temperature=321.15, oil_height=4.2, port_height=0.35,
    ...            cushion_pressure=0))
    32538
    """
    density = oil_density(density_at_20=density_at_20, temperature=temperature)
    require("oil_height", oil_height, -5, 40)
    require("port_height", port_height, -5, 40)
    require("cushion_pressure", cushion_pressure, -50_000, 100_000)
    return density * GRAVITY * (oil_height - port_height) + cushion_pressure


def cushion_after_fill(
    *,
    station_pressure: Pascal,
    cushion_pressure: PascalAboveAir,
    cushion_volume: CubicMetre,
    taken: CubicMetre,
) -> PascalAboveAir:
    """Return the pressure of a closed gas cushion after the skid has taken its oil.

    Parameters
    ----------
    station_pressure : air pressure here [Pa]
    cushion_pressure : pressure of the cushion now, above air [Pa]
    cushion_volume : volume of the cushion now [m³]
    taken : oil that the skid takes [m³]

    Returns
    -------
    pressure above air [Pa]; below zero the tank would draw air

    Valid for
    ---------
    station_pressure 50 000 to 108 500 Pa, cushion_pressure -30 000 to 100 000 Pa,
    cushion_volume 0.01 to 100 m³, taken 0 to 10 m³; no make-up bottle, constant temperature

    Source
    ------
    Boyle's law, e.g. Atkins, Physical Chemistry, 1A.

    Examples
    --------
    >>> round(cushion_after_fill(station_pressure=84320, cushion_pressure=15000,
    ...                          cushion_volume=0.6, taken=0.12))
    -1553
    """
    require("station_pressure", station_pressure, 50_000, 108_500)
    require("cushion_pressure", cushion_pressure, -30_000, 100_000)
    require("cushion_volume", cushion_volume, 0.01, 100)
    require("taken", taken, 0, 10)
    absolute = (station_pressure + cushion_pressure) * cushion_volume / (cushion_volume + taken)
    return absolute - station_pressure


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
