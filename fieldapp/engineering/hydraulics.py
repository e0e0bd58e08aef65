"""Hoses, flow and what stands around them: volumes, velocity, the tray."""

from math import pi
from typing import Annotated

from fieldapp.engineering.validity import require

Metre = Annotated[float, "length"]
SquareMetre = Annotated[float, "area"]
CubicMetre = Annotated[float, "volume"]
CubicMetrePerSecond = Annotated[float, "flow"]
MetrePerSecond = Annotated[float, "velocity"]
Second = Annotated[float, "time"]


def hose_volume(*, bore: Metre, length: Metre) -> CubicMetre:
    """Return what a hose holds.

    Parameters
    ----------
    bore : inner diameter [m]
    length : length [m]

    Returns
    -------
    volume [m³]

    Valid for
    ---------
    bore 0.005 to 0.2 m, length 0.1 to 200 m

    Source
    ------
    Volume of a cylinder.

    Examples
    --------
    >>> round(hose_volume(bore=0.0254, length=12) * 1000, 2)
    6.08
    """
    require("bore", bore, 0.005, 0.2)
    require("length", length, 0.1, 200)
    return pi * bore**2 / 4 * length


def loop_volume(
    *,
    suction_bore: Metre,
    suction_length: Metre,
    return_bore: Metre,
    return_length: Metre,
    vessel_volume: CubicMetre,
    pipe_volume: CubicMetre,
) -> CubicMetre:
    """Return the free volume of hoses and skid: what is evacuated, and the oil it takes.

    Parameters
    ----------
    suction_bore : inner diameter of the suction hose [m]
    suction_length : length of the suction hose [m]
    return_bore : inner diameter of the return hose [m]
    return_length : length of the return hose [m]
    vessel_volume : free volume of the vessel with its cartridges [m³]
    pipe_volume : free volume of pump, filter, separator and pipe [m³]

    Returns
    -------
    volume [m³]

    Valid for
    ---------
    bores 0.005 to 0.2 m, lengths 0.1 to 200 m, vessel_volume 0 to 10 m³, pipe_volume 0 to 5 m³

    Source
    ------
    Sum of volumes.

    Examples
    --------
    >>> round(loop_volume(suction_bore=0.0254, suction_length=8, return_bore=0.0254,
    ...     return_length=12, vessel_volume=0.092, pipe_volume=0.018) * 1000, 1)
    120.1
    """
    require("vessel_volume", vessel_volume, 0, 10)
    require("pipe_volume", pipe_volume, 0, 5)
    suction = hose_volume(bore=suction_bore, length=suction_length)
    back = hose_volume(bore=return_bore, length=return_length)
    return suction + back + vessel_volume + pipe_volume


def volume_passed(*, flow: CubicMetrePerSecond, duration: Second) -> CubicMetre:
    """Return the oil that a steady flow moves in a time, to set beside what a totaliser says.

    Parameters
    ----------
    flow : oil flow [m³/s]
    duration : how long it ran [s]

    Returns
    -------
    volume [m³]

    Valid for
    ---------
    flow 0 to 0.02 m³/s, duration 0 to 63 115 200 s (two years); flow steady meanwhile

    Source
    ------
    Flow times time.

    Examples
    --------
    >>> round(volume_passed(flow=12 / 60_000, duration=86_400) * 1000, 6)
    17280.0
    """
    require("flow", flow, 0, 0.02)
    require("duration", duration, 0, 63_115_200)
    return flow * duration


def velocity(*, flow: CubicMetrePerSecond, bore: Metre) -> MetrePerSecond:
    """Return the mean velocity of oil in a hose.

    Parameters
    ----------
    flow : oil flow [m³/s]
    bore : inner diameter [m]

    Returns
    -------
    velocity [m/s]

    Valid for
    ---------
    flow 0 to 0.02 m³/s, bore 0.005 to 0.2 m

    Source
    ------
    Continuity, v = Q/A.

    Examples
    --------
    >>> round(velocity(flow=12 / 60000, bore=0.0254), 3)
    0.395
    """
    require("flow", flow, 0, 0.02)
    require("bore", bore, 0.005, 0.2)
    return flow / (pi * bore**2 / 4)


def slug_to_tank(*, flow: CubicMetrePerSecond, closing_time: Second) -> CubicMetre:
    """Return what passes after the air detector before the return valve is shut.

    Parameters
    ----------
    flow : oil flow [m³/s]
    closing_time : from the detector's trip to the valve shut [s]

    Returns
    -------
    volume [m³]

    Valid for
    ---------
    flow 0 to 0.02 m³/s, closing_time 0 to 120 s

    Source
    ------
    Flow times time; the pump is taken as running to the end, the safe side.

    Examples
    --------
    >>> round(slug_to_tank(flow=12 / 60000, closing_time=3.2) * 1000, 2)
    0.64
    """
    require("flow", flow, 0, 0.02)
    require("closing_time", closing_time, 0, 120)
    return flow * closing_time


def tray_needed(*, loop_volume: CubicMetre, rain: Metre, tray_area: SquareMetre) -> CubicMetre:
    """Return what the tray must hold: the skid's oil and the rain, not the tank's oil.

    Parameters
    ----------
    loop_volume : oil in hoses and skid [m³]
    rain : rain allowed for [m]
    tray_area : area that catches it [m²]

    Returns
    -------
    volume [m³]

    Valid for
    ---------
    loop_volume 0.001 to 100 m³, rain 0 to 1 m, tray_area 0.05 to 1000 m²

    Source
    ------
    Largest container and rain, in the manner of 40 CFR 112.8(c) (value from memory).

    Examples
    --------
    >>> round(tray_needed(loop_volume=0.12, rain=0.1, tray_area=3.84), 3)
    0.504
    """
    require("loop_volume", loop_volume, 0.001, 100)
    require("rain", rain, 0, 1)
    require("tray_area", tray_area, 0.05, 1000)
    return loop_volume + rain * tray_area
