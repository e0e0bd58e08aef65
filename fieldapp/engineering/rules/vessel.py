"""The evacuated vessel: what a pump-down and a hold test say."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from fieldapp.engineering.air.gas import air_a_day
from fieldapp.engineering.air.hold import HoldPoint, hold_point_of_dial, hold_read
from fieldapp.engineering.air.outlook import Blanked, PumpDownVerdict, pump_down_verdict
from fieldapp.engineering.rules.said import (
    CannotSayError,
    Figure,
    Said,
    require_each,
    require_rising,
)
from fieldapp.engineering.validity import require

Pascal = Annotated[float, "absolute pressure"]
PascalBelowAir = Annotated[float, "vacuum below air"]
Kelvin = Annotated[float, "temperature"]
KelvinDifference = Annotated[float, "temperature difference"]
Second = Annotated[float, "time"]
CubicMetre = Annotated[float, "volume"]

WEEK = 604_800.0
FEW_POINTS = "a hold is told by four readings or more: read on"


@dataclass(frozen=True, slots=True)
class PumpReading:
    """One reading of a pump-down."""

    time: Second
    pressure: Pascal


@dataclass(frozen=True, slots=True)
class DialReading:
    """One reading of a hold on a gauge relative to air, with the barometer beside it."""

    time: Second
    vacuum: PascalBelowAir
    station_pressure: Pascal
    temperature: Kelvin


def pump_down_outlook(
    *,
    reading: Sequence[PumpReading],
    target: Pascal,
    repeatability: Pascal = 0.0,
    pump_alone: Pascal | None = None,
    pump_alone_uncertainty: Pascal = 0.0,
    volume: CubicMetre | None = None,
) -> Said:
    """Say whether a pump-down gets to its target, when, and if not whether leak or pump.

    Parameters
    ----------
    reading : time since the pump was opened; absolute pressure [s; Pa]
    target : absolute pressure to reach, the gauge's uncertainty already taken off [Pa]
    repeatability : what the gauge repeats to, k = 1 [Pa]
    pump_alone : the pump's reading with its own inlet shut; without it a leak and a weak pump
        look the same [Pa]
    pump_alone_uncertainty : uncertainty of that reading, k = 2 [Pa]
    volume : evacuated volume, for pumping speed and inflow [m³]

    Returns
    -------
    on its way, there, will not get there, leak, weak pump, or too early to tell

    Valid for
    ---------
    target 10 to 110 000 Pa, times 0 to 604 800 s, pressures 0 to 120 000 Pa, repeatability 0 to
    10 000 Pa, pump_alone 0 to 110 000 Pa and its uncertainty 0 to 20 000 Pa, volume 0.001 to
    100 m³; one closed volume, viscous flow, above about 1 hPa

    Source
    ------
    Evacuation equation, O'Hanlon, A User's Guide to Vacuum Technology, 3rd ed. 2003 (value from
    memory); uncertainty by JCGM 100:2008. That a leak shows against the pump's blank-off reading
    only is common practice, no source.

    Examples
    --------
    >>> reading = [PumpReading(t, 820 + 83500 * 2.718281828 ** (-t / 120)) for t in (0, 60, 120,
    ...     180, 240)]
    >>> pump_down_outlook(reading=reading, target=16_665).sentence
    'There: the last reading is at the target or below.'
    """
    require_rising([each.time for each in reading], WEEK)
    require_each("pressure", [each.pressure for each in reading], 0, 120_000)
    require("repeatability", repeatability, 0, 10_000)
    require("pump_alone_uncertainty", pump_alone_uncertainty, 0, 20_000)
    blanked = None
    if pump_alone is not None:
        require("pump_alone", pump_alone, 0, 110_000)
        blanked = Blanked(pump_alone, pump_alone_uncertainty)
    if volume is not None:
        require("volume", volume, 0.001, 100)
    found = pump_down_verdict(
        [each.time for each in reading], [each.pressure for each in reading], target=target,
        repeatability=repeatability, blanked=blanked, volume=volume,
    )  # fmt: skip
    return Said(found.sentence, _pump_figures(found, volume))


def _pump_figures(found: PumpDownVerdict, volume: float | None) -> tuple[Figure, ...]:
    if found.known is None:
        return ()
    known, fit = found.known, found.known.fit
    figures = [
        Figure("levels out at", fit.ultimate, "hPa", known.ultimate),
        Figure("time constant", fit.time_constant, "s", known.time_constant),
    ]
    if volume is not None:
        speed = Figure("pumping speed", fit.speed(volume), "L/min", known.speed(volume))
        figures.append(speed)
    if found.reached_after is not None:
        at = Figure("at the target after", found.reached_after, "min", found.reached_within)
        figures.append(at)
    if found.inflow is not None:
        figures.append(Figure("inflow beyond the pump's own", found.inflow, "hPa L/s"))
    return tuple(figures)


def hold_test(
    *,
    reading: Sequence[HoldPoint],
    volume: CubicMetre,
    repeatability: Pascal,
    temperature_repeatability: KelvinDifference,
) -> Said:
    """Say what a hold test shows: rise and leak rate corrected, and straight or flattening.

    Parameters
    ----------
    reading : time since the first; absolute pressure; temperature of the wall [s; Pa; K]
    volume : evacuated volume [m³]
    repeatability : what the gauge repeats to, k = 2 [Pa]
    temperature_repeatability : what the thermometer repeats to, k = 2 [K]

    Returns
    -------
    shape of the rise, corrected rise, leak rate and litres a day, with their uncertainties

    Valid for
    ---------
    four readings or more, 20 minutes to a week from first to last, pressures 0 to 110 000 Pa,
    temperatures 223.15 to 423.15 K, volume 0.001 to 100 m³, repeatabilities 0 to 10 000

    Source
    ------
    Pressure-rise method, EN 1779:1999 technique D.3 (value from memory), judged by repeatability
    since both ends come from one gauge. At least four points, straight a leak and flattening
    outgassing: common practice, no source.

    Examples
    --------
    >>> reading = [HoldPoint(600.0 * n, 6200 + 100 * n, 294.65) for n in range(4)]
    >>> hold_test(reading=reading, volume=0.12, repeatability=20,
    ...           temperature_repeatability=0).sentence
    'Straight: a leak.'
    """
    require_rising([each.time for each in reading], WEEK)
    found = hold_read(
        reading,
        volume=volume,
        repeatability=repeatability,
        temperature_repeatability=temperature_repeatability,
    )
    if found is None:
        raise CannotSayError(FEW_POINTS)
    spread = found.leak_rate_uncertainty
    return Said(
        f"{found.shape[:1].upper()}{found.shape[1:]}.",
        (
            Figure("rise, corrected", found.rise, "hPa", found.rise_uncertainty),
            Figure("leak rate", found.leak_rate, "hPa L/s", spread),
            Figure("air at one atmosphere", air_a_day(leak_rate=found.leak_rate), "L/d",
                   air_a_day(leak_rate=spread)),
        ),
    )  # fmt: skip


def hold_test_by_dial(
    *,
    reading: Sequence[DialReading],
    volume: CubicMetre,
    repeatability: Pascal,
    temperature_repeatability: KelvinDifference,
) -> Said:
    """Say what a hold test shows on a gauge relative to air, which the barometer makes absolute.

    Parameters
    ----------
    reading : time since the first; vacuum on the dial; barometer at that time; temperature of
        the wall [s; Pa; Pa; K]
    volume : evacuated volume [m³]
    repeatability : what dial and barometer repeat to together, k = 2 [Pa]
    temperature_repeatability : what the thermometer repeats to, k = 2 [K]

    Returns
    -------
    shape of the rise, corrected rise, leak rate and litres a day, with their uncertainties

    Valid for
    ---------
    as hold_test; barometer 50 000 to 108 500 Pa, vacuum 0 Pa to that

    Source
    ------
    As hold_test; definition of gauge pressure, ISO 80000-4:2019, item 4-14.2. 3 hPa of weather in
    half an hour look like a leak.

    Examples
    --------
    >>> reading = [DialReading(600.0 * n, 78_100 - 300 * n, 84_320 - 300 * n, 294.65)
    ...            for n in range(4)]
    >>> hold_test_by_dial(reading=reading, volume=0.12, repeatability=100,
    ...                   temperature_repeatability=0.6).sentence
    'No rise that this gauge can see.'
    """
    points = [
        hold_point_of_dial(
            time=each.time, vacuum=each.vacuum, station_pressure=each.station_pressure,
            temperature=each.temperature,
        )
        for each in reading
    ]  # fmt: skip
    return hold_test(
        reading=points,
        volume=volume,
        repeatability=repeatability,
        temperature_repeatability=temperature_repeatability,
    )
