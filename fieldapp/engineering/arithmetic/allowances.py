"""Allowances: a figure made larger or smaller by what practice adds to it."""

from typing import Annotated

from fieldapp.engineering.validity import require

PascalAboveAir = Annotated[float, "pressure above air"]
Kelvin = Annotated[float, "temperature"]
KelvinDifference = Annotated[float, "temperature difference"]
Metre = Annotated[float, "length"]
CubicMetre = Annotated[float, "volume"]
Share = Annotated[float, "share"]
Count = Annotated[float, "count"]
Ohm = Annotated[float, "resistance"]
Second = Annotated[float, "time"]


def share_of_volume(*, volume: CubicMetre, share: Share) -> CubicMetre:
    """Return a share of a volume.

    Parameters
    ----------
    volume : the whole [m³]
    share : part of it [-]

    Returns
    -------
    volume [m³]

    Valid for
    ---------
    volume 0 to 300 m³, share 0 to 10

    Source
    ------
    Proportion. What is added is common practice or the owner's figure, no source.

    Examples
    --------
    >>> share_of_volume(volume=0.006, share=0.5)
    0.003
    """
    require("volume", volume, 0, 300)
    require("share", share, 0, 10)
    return volume * share


def times_volume(*, volume: CubicMetre, times: Count) -> CubicMetre:
    """Return a volume taken so many times, such as a dead leg swept three times.

    Parameters
    ----------
    volume : volume of one [m³]
    times : how many times [-]

    Returns
    -------
    volume [m³]

    Valid for
    ---------
    volume 0 to 300 m³, times 0 to 100

    Source
    ------
    Proportion. What is added is common practice or the owner's figure, no source.

    Examples
    --------
    >>> round(times_volume(volume=0.0008, times=3), 6)
    0.0024
    """
    require("volume", volume, 0, 300)
    require("times", times, 0, 100)
    return volume * times


def times_pressure(*, pressure: PascalAboveAir, times: Count) -> PascalAboveAir:
    """Return a pressure taken so many times, such as the rating that a relief setting asks for.

    Parameters
    ----------
    pressure : pressure above air [Pa]
    times : factor [-]

    Returns
    -------
    pressure above air [Pa]

    Valid for
    ---------
    pressure 0 to 50 000 000 Pa, times 0 to 100

    Source
    ------
    Proportion. What is added is common practice or the owner's figure, no source.

    Examples
    --------
    >>> times_pressure(pressure=450_000, times=1.5)
    675000.0
    """
    require("pressure", pressure, 0, 50_000_000)
    require("times", times, 0, 100)
    return pressure * times


def length_plus(*, length: Metre, allowance: Metre) -> Metre:
    """Return a length with an allowance, such as an approach distance with room for a slip.

    Parameters
    ----------
    length : length [m]
    allowance : what is added [m]

    Returns
    -------
    length [m]

    Valid for
    ---------
    length 0 to 100 m, allowance 0 to 20 m

    Source
    ------
    Sum. What is added is common practice or the owner's figure, no source.

    Examples
    --------
    >>> round(length_plus(length=1.5, allowance=0.6), 6)
    2.1
    """
    require("length", length, 0, 100)
    require("allowance", allowance, 0, 20)
    return length + allowance


def share_plus(*, share: Share, points: Share) -> Share:
    """Return a share raised by so many points, such as a level above its alarm.

    Parameters
    ----------
    share : share [-]
    points : what is added [-]

    Returns
    -------
    share [-]

    Valid for
    ---------
    share -1 to 10, points -1 to 1

    Source
    ------
    Sum. What is added is common practice or the owner's figure, no source.

    Examples
    --------
    >>> round(share_plus(share=0.1, points=0.1), 6)
    0.2
    """
    require("share", share, -1, 10)
    require("points", points, -1, 1)
    return share + points


def temperature_less(*, temperature: Kelvin, difference: KelvinDifference) -> Kelvin:
    """Return a temperature lowered by a difference, such as one that keeps clear of an alarm.

    Parameters
    ----------
    temperature : temperature [K]
    difference : what is taken off [K]

    Returns
    -------
    temperature [K]

    Valid for
    ---------
    temperature 200 to 500 K, difference 0 to 100 K

    Source
    ------
    Difference. What is added is common practice or the owner's figure, no source.

    Examples
    --------
    >>> round(temperature_less(temperature=363.15, difference=10), 6)
    353.15
    """
    require("temperature", temperature, 200, 500)
    require("difference", difference, 0, 100)
    return temperature - difference


def resistance_above(*, resistance: Ohm, aim: Ohm) -> Ohm:
    """Return how far a resistance lies above what is aimed at.

    Parameters
    ----------
    resistance : resistance measured [Ω]
    aim : resistance aimed at [Ω]

    Returns
    -------
    resistance [Ω]; below zero when better than aimed at

    Valid for
    ---------
    resistance and aim 0 to 1e9 Ω

    Source
    ------
    Difference. What is aimed at is common practice or the owner's figure, no source.

    Examples
    --------
    >>> round(resistance_above(resistance=0.25, aim=0.1), 6)
    0.15
    """
    require("resistance", resistance, 0, 1e9)
    require("aim", aim, 0, 1e9)
    return resistance - aim


def time_to_spare(*, duration: Second, required: Second) -> Second:
    """Return how much longer something lasted than it had to.

    Parameters
    ----------
    duration : how long it lasted [s]
    required : how long it had to [s]

    Returns
    -------
    time [s]; below zero when it was too short

    Valid for
    ---------
    duration and required 0 to 31 557 600 s

    Source
    ------
    Difference. What is aimed at is common practice or the owner's figure, no source.

    Examples
    --------
    >>> time_to_spare(duration=7800, required=7200)
    600
    """
    require("duration", duration, 0, 31_557_600)
    require("required", required, 0, 31_557_600)
    return duration - required
