"""Oil let loose: the first crack of a valve, a burst hose, and how soon the level tells of it."""

from math import pi, sqrt
from typing import Annotated

from fieldapp.engineering.validity import require

Pascal = Annotated[float, "absolute pressure"]
PascalAboveAir = Annotated[float, "pressure above air"]
KilogramPerCubicMetre = Annotated[float, "density"]
Metre = Annotated[float, "length"]
CubicMetre = Annotated[float, "volume"]
CubicMetrePerSecond = Annotated[float, "flow"]
MetrePerSecond = Annotated[float, "velocity"]
Second = Annotated[float, "time"]
Share = Annotated[float, "share"]
PlainNumber = Annotated[float, "plain number"]


def first_crack_velocity(
    *,
    head: PascalAboveAir,
    station_pressure: Pascal,
    hold_pressure: Pascal,
    density: KilogramPerCubicMetre,
) -> MetrePerSecond:
    """Return how fast oil would shoot into the evacuated hose if the valve were opened wide.

    Parameters
    ----------
    head : pressure of the oil standing above the valve [Pa]
    station_pressure : air pressure here [Pa]
    hold_pressure : absolute pressure in the evacuated hose [Pa]
    density : density at the oil temperature [kg/m³]

    Returns
    -------
    velocity without friction [m/s]

    Valid for
    ---------
    head 0 to 400 000 Pa, station_pressure 50 000 to 108 500 Pa, hold_pressure 0 Pa to
    station_pressure, density 700 to 1100 kg/m³; the worst case, friction left out

    Source
    ------
    Torricelli's law, v = √(2 Δp/ρ), e.g. White, Fluid Mechanics, 8th ed. 2016 (from memory).

    Examples
    --------
    >>> round(first_crack_velocity(head=32_500, station_pressure=84_320, hold_pressure=6_200,
    ...     density=862))
    16
    """
    require("head", head, 0, 400_000)
    require("station_pressure", station_pressure, 50_000, 108_500)
    require("hold_pressure", hold_pressure, 0, station_pressure)
    require("density", density, 700, 1100)
    return sqrt(2 * (head + station_pressure - hold_pressure) / density)


def burst_flow(
    *,
    head: PascalAboveAir,
    bore: Metre,
    density: KilogramPerCubicMetre,
    discharge: PlainNumber,
) -> CubicMetrePerSecond:
    """Return what runs out of a hose torn off at the valve, while nobody shuts it.

    Parameters
    ----------
    head : pressure of the oil standing above the valve [Pa]
    bore : inner diameter [m]
    density : density at the oil temperature [kg/m³]
    discharge : coefficient of discharge; 0.6 is usual [-]

    Returns
    -------
    flow at the start [m³/s]; less as the head goes

    Valid for
    ---------
    head 0 to 400 000 Pa, bore 0.005 to 0.2 m, density 700 to 1100 kg/m³, discharge 0.4 to 1

    Source
    ------
    Torricelli's law with a coefficient of discharge, e.g. White, Fluid Mechanics, 8th ed. 2016
    (from memory); 0.6 for a sharp edge (value from memory).

    Examples
    --------
    >>> round(burst_flow(head=32_538, bore=0.0254, density=861.8, discharge=0.6) * 60000)
    159
    """
    require("head", head, 0, 400_000)
    require("bore", bore, 0.005, 0.2)
    require("density", density, 700, 1100)
    require("discharge", discharge, 0.4, 1)
    return discharge * pi * bore**2 / 4 * sqrt(2 * head / density)


def time_before_alarm(*, oil_lost: CubicMetre, flow: CubicMetrePerSecond) -> Second:
    """Return how long oil runs out before the transformer's own low-level contact acts.

    Parameters
    ----------
    oil_lost : oil that runs out before the contact acts [m³]
    flow : what runs out [m³/s]

    Returns
    -------
    time [s]

    Valid for
    ---------
    oil_lost 0 to 50 m³, flow 1e-7 to 0.5 m³/s; flow taken as steady, the shorter time

    Source
    ------
    Volume over flow.

    Examples
    --------
    >>> round(time_before_alarm(oil_lost=0.904, flow=159 / 60000) / 60, 1)
    5.7
    """
    require("oil_lost", oil_lost, 0, 50)
    require("flow", flow, 1e-7, 0.5)
    return oil_lost / flow


def level_drop(*, taken: CubicMetre, conservator_volume: CubicMetre) -> Share:
    """Return how far the level falls while the skid takes its oil.

    Parameters
    ----------
    taken : oil that the skid takes [m³]
    conservator_volume : volume of the conservator [m³]

    Returns
    -------
    share of the conservator [-]

    Valid for
    ---------
    conservator_volume 0.001 to 50 m³, taken 0 m³ to conservator_volume; oil at one temperature

    Source
    ------
    Proportion; a vessel of constant section, common practice, no source.

    Examples
    --------
    >>> round(level_drop(taken=0.12, conservator_volume=1.8), 3)
    0.067
    """
    require("conservator_volume", conservator_volume, 0.001, 50)
    require("taken", taken, 0, conservator_volume)
    return taken / conservator_volume
