"""A hold test of several readings: corrected, and whether it rises straight or flattens out."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from math import sqrt
from typing import Annotated

from fieldapp.engineering.atmosphere import residual_pressure
from fieldapp.engineering.vacuum import pressure_at_first_temperature
from fieldapp.engineering.validity import require

FEWEST_POINTS = 4
SHORTEST, LONGEST = 1200.0, 604_800.0
# Rate falling evenly to half: the mean rate is 3/4 of the first, so from start to end it
# changes by 2/3 of the mean.
HALVING = 2 / 3


class Shape(StrEnum):
    """How the pressure of a hold goes on."""

    STILL = "no rise that this gauge can see"
    FALLING = "falling"
    RISING = "rising: this gauge cannot tell straight from flattening"
    STRAIGHT = "straight: a leak"
    FLATTENING = "flattening: oil and water give off gas"
    STEEPENING = "steepening: something changed"


@dataclass(frozen=True, slots=True)
class HoldPoint:
    """One reading of a hold: seconds since the first, absolute pressure [Pa], temperature [K]."""

    time: Annotated[float, "time"]
    pressure: Annotated[float, "absolute pressure"]
    temperature: Annotated[float, "temperature"]


@dataclass(frozen=True, slots=True)
class Hold:
    """A hold read: rise corrected for temperature [Pa] with its uncertainty (k = 2), and shape.

    `leak_rate` [Pa·m³/s] is volume times rise over time, from first to last. “Straight” is said
    only where a rate that halves from start to end would have been seen.
    """

    corrected: tuple[float, ...]
    rise: float
    rise_uncertainty: float
    leak_rate: float
    leak_rate_uncertainty: float
    shape: Shape


def hold_point_of_dial(
    *, time: float, vacuum: float, station_pressure: float, temperature: float
) -> HoldPoint:
    """Return a hold reading of a gauge relative to air, which the barometer makes absolute.

    The barometer is read at every point: 3 hPa of weather in half an hour look like a leak.

    >>> hold_point_of_dial(time=0, vacuum=78_000, station_pressure=84_320, temperature=294).pressure
    6320
    """
    pressure = residual_pressure(station_pressure=station_pressure, vacuum=vacuum)
    return HoldPoint(time, pressure, temperature)


def rise_uncertainty(
    *, pressure: float, temperature: float, repeatability: float, temperature_repeatability: float
) -> float:
    """Return the uncertainty of a corrected rise: both readings from one gauge, so repeatability.

    Parameters
    ----------
    pressure : absolute pressure of the hold [Pa]
    temperature : temperature of the hold [K]
    repeatability : what the gauge repeats to [Pa]; of a dial, together with the barometer
    temperature_repeatability : what the thermometer repeats to [K]

    Returns
    -------
    uncertainty with the coverage factor of the repeatabilities [Pa]

    Valid for
    ---------
    pressure 0 to 110 000 Pa, temperature 223.15 to 423.15 K, repeatabilities 0 to 10 000

    Source
    ------
    Law of propagation, JCGM 100:2008 (GUM), 5.1.2, for p2 T1/T2 - p1.

    Examples
    --------
    >>> round(rise_uncertainty(pressure=6200, temperature=294.65, repeatability=30,
    ...     temperature_repeatability=0.6))
    46
    """
    require("pressure", pressure, 0, 110_000)
    require("temperature", temperature, 223.15, 423.15)
    require("repeatability", repeatability, 0, 10_000)
    require("temperature_repeatability", temperature_repeatability, 0, 10_000)
    return sqrt(2 * _one_point(pressure, temperature, repeatability, temperature_repeatability))


def hold_read(
    points: Sequence[HoldPoint],
    *,
    volume: float,
    repeatability: float,
    temperature_repeatability: float,
) -> Hold | None:
    """Return what a hold test says; None with fewer than four points.

    Parameters
    ----------
    points : readings in the order of time
    volume : evacuated volume [m³]
    repeatability : what the gauge repeats to, k = 2 [Pa]
    temperature_repeatability : what the thermometer repeats to, k = 2 [K]

    Returns
    -------
    the hold read

    Valid for
    ---------
    20 minutes to a week from first to last, volume 0.001 to 100 m³, one closed volume

    Source
    ------
    Pressure-rise method, EN 1779:1999 technique D.3 (value from memory). At least four points,
    straight a leak and flattening outgassing: common practice, no source. A bend counts when
    the square term of least squares exceeds its uncertainty (k = 2) from repeatability.

    Examples
    --------
    >>> points = [HoldPoint(600.0 * n, 6200 + 100 * n, 294.65) for n in range(4)]
    >>> hold_read(points, volume=0.12, repeatability=20, temperature_repeatability=0).shape.value
    'straight: a leak'
    """
    if len(points) < FEWEST_POINTS or any(b.time <= a.time for a, b in pairwise(points)):
        return None
    first, last = points[0], points[-1]
    duration = last.time - first.time
    require("duration", duration, SHORTEST, LONGEST)
    require("volume", volume, 0.001, 100)
    corrected = tuple(
        pressure_at_first_temperature(
            pressure=point.pressure,
            temperature=point.temperature,
            first_temperature=first.temperature,
        )
        for point in points
    )
    uncertainty = rise_uncertainty(
        pressure=last.pressure,
        temperature=first.temperature,
        repeatability=repeatability,
        temperature_repeatability=temperature_repeatability,
    )
    rise = corrected[-1] - corrected[0]
    bend, spread = _bend([p.time for p in points], corrected, uncertainty / sqrt(2))
    return Hold(
        corrected=corrected,
        rise=rise,
        rise_uncertainty=uncertainty,
        leak_rate=volume * rise / duration,
        leak_rate_uncertainty=volume * uncertainty / duration,
        shape=_shape(rise, uncertainty, bend, spread),
    )


def _one_point(pressure: float, temperature: float, gauge: float, thermometer: float) -> float:
    return gauge**2 + (pressure * thermometer / temperature) ** 2


def _bend(times: Sequence[float], values: Sequence[float], spread: float) -> tuple[float, float]:
    """Return how much the rise over the whole time changes from start to end, and how sure."""
    length = times[-1] - times[0]
    places = [(time - times[0]) / length for time in times]
    bow = _without_line([place**2 for place in places], places)
    squares = sum(b * b for b in bow)
    curvature = sum(b * value for b, value in zip(bow, values, strict=True)) / squares
    return 2 * curvature, 2 * spread / sqrt(squares)


def _without_line(values: Sequence[float], places: Sequence[float]) -> list[float]:
    count = len(values)
    middle, mean = sum(places) / count, sum(values) / count
    slope = sum((x - middle) * (y - mean) for x, y in zip(places, values, strict=True))
    slope /= sum((x - middle) ** 2 for x in places)
    return [y - mean - slope * (x - middle) for x, y in zip(places, values, strict=True)]


def _shape(rise: float, uncertainty: float, bend: float, spread: float) -> Shape:
    if abs(rise) <= uncertainty:
        return Shape.STILL
    if rise < 0:
        return Shape.FALLING
    if bend < -spread:
        return Shape.FLATTENING
    if bend > spread:
        return Shape.STEEPENING
    return Shape.STRAIGHT if spread < rise * HALVING else Shape.RISING
