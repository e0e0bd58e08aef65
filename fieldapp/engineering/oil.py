"""The oil of the transformer: its density, its head at a port, its cushion, its water."""

from typing import Annotated

from fieldapp.engineering.validity import require

Pascal = Annotated[float, "absolute pressure"]
PascalAboveAir = Annotated[float, "pressure above air"]
KilogramPerCubicMetre = Annotated[float, "density"]
Kelvin = Annotated[float, "temperature"]
Metre = Annotated[float, "length"]
CubicMetre = Annotated[float, "volume"]
WaterContent = Annotated[float, "water content"]

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


def mean_temperature(*, first: Kelvin, second: Kelvin) -> Kelvin:
    """Return the mean of two oil temperatures, such as top and bottom.

    Parameters
    ----------
    first : one oil temperature [K]
    second : the other [K]

    Returns
    -------
    temperature [K]

    Valid for
    ---------
    both 213.15 to 423.15 K

    Source
    ------
    Mean of top and bottom oil as the average oil temperature, IEC 60076-2:2011 practice (value
    from memory).

    Examples
    --------
    >>> round(mean_temperature(first=331.15, second=321.15), 2)
    326.15
    """
    require("first", first, 213.15, 423.15)
    require("second", second, 213.15, 423.15)
    return (first + second) / 2


def water_difference(*, first: WaterContent, second: WaterContent) -> WaterContent:
    """Return how much wetter one oil reads than another, such as two probes on the same oil.

    Parameters
    ----------
    first : water content [kg/kg]
    second : water content taken off [kg/kg]

    Returns
    -------
    water content [kg/kg]; below zero when the second is wetter

    Valid for
    ---------
    both 0 to 0.003 kg/kg

    Source
    ------
    Difference.

    Examples
    --------
    >>> round(water_difference(first=4.1e-6, second=3.5e-6) * 1e6, 1)
    0.6
    """
    require("first", first, 0, 0.003)
    require("second", second, 0, 0.003)
    return first - second
