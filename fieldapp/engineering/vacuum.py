"""Evacuating hoses and vessel: how a pump-down runs, and what a hold test proves."""

from typing import Annotated

from fieldapp.engineering.atmosphere import residual_pressure
from fieldapp.engineering.validity import require

Pascal = Annotated[float, "absolute pressure"]
PascalVacuum = Annotated[float, "vacuum below air"]
PascalAboveAir = Annotated[float, "pressure above air"]
CubicMetre = Annotated[float, "volume"]
CubicMetrePerSecond = Annotated[float, "flow"]
Kelvin = Annotated[float, "temperature"]
Second = Annotated[float, "time"]
PascalCubicMetrePerSecond = Annotated[float, "leak rate"]

COLDEST, HOTTEST = 223.15, 423.15


def pressure_at_first_temperature(
    *, pressure: Pascal, temperature: Kelvin, first_temperature: Kelvin
) -> Pascal:
    """Return what a pressure would read had the gas kept its first temperature.

    Parameters
    ----------
    pressure : absolute pressure at `temperature` [Pa]
    temperature : gas temperature now [K]
    first_temperature : gas temperature at the first reading [K]

    Returns
    -------
    absolute pressure at the first temperature [Pa]

    Valid for
    ---------
    pressure 0 to 110 000 Pa; temperatures 223.15 to 423.15 K; closed volume, ideal gas

    Source
    ------
    Gay-Lussac's law (ideal gas at constant volume), e.g. Atkins, Physical Chemistry, 1A.

    Examples
    --------
    >>> round(pressure_at_first_temperature(
    ...     pressure=6520, temperature=296.15, first_temperature=294.65))
    6487
    """
    require("pressure", pressure, 0, 110_000)
    require("temperature", temperature, COLDEST, HOTTEST)
    require("first_temperature", first_temperature, COLDEST, HOTTEST)
    return pressure * first_temperature / temperature


def leak_rate(
    *,
    volume: CubicMetre,
    start_pressure: Pascal,
    end_pressure: Pascal,
    start_temperature: Kelvin,
    end_temperature: Kelvin,
    duration: Second,
) -> PascalCubicMetrePerSecond:
    """Return the leak rate of a closed volume from a hold test, corrected for temperature.

    Parameters
    ----------
    volume : evacuated volume [m³]
    start_pressure : absolute pressure at the start [Pa]
    end_pressure : absolute pressure at the end [Pa]
    start_temperature : temperature at the start [K]
    end_temperature : temperature at the end [K]
    duration : time between the two readings [s]

    Returns
    -------
    leak rate [Pa·m³/s] (1 Pa·m³/s = 10 hPa·L/s); below zero if the pressure fell

    Valid for
    ---------
    volume 0.001 to 100 m³, duration at least 1200 s (20 min) up to 1 week, temperatures
    223.15 to 423.15 K

    Source
    ------
    Pressure-rise method, EN 1779:1999 technique D.3 (value from memory); ideal gas at constant
    volume for the correction.

    Examples
    --------
    >>> rate = leak_rate(volume=0.120, start_pressure=6200, end_pressure=6520,
    ...     start_temperature=294.65, end_temperature=296.15, duration=1800)
    >>> round(rate * 10, 3)
    0.191
    """
    require("volume", volume, 0.001, 100)
    require("duration", duration, 1200, 604_800)
    require("start_pressure", start_pressure, 0, 110_000)
    corrected = pressure_at_first_temperature(
        pressure=end_pressure, temperature=end_temperature, first_temperature=start_temperature
    )
    require("start_temperature", start_temperature, COLDEST, HOTTEST)
    return volume * (corrected - start_pressure) / duration


def leak_rate_by_dial(
    *,
    volume: CubicMetre,
    start_vacuum: PascalVacuum,
    end_vacuum: PascalVacuum,
    start_station_pressure: Pascal,
    end_station_pressure: Pascal,
    start_temperature: Kelvin,
    end_temperature: Kelvin,
    duration: Second,
) -> PascalCubicMetrePerSecond:
    """Return the leak rate from a hold on a gauge relative to air, made absolute by the barometer.

    Parameters
    ----------
    volume : evacuated volume [m³]
    start_vacuum : vacuum below air at the start, as the gauge shows it [Pa]
    end_vacuum : vacuum below air at the end [Pa]
    start_station_pressure : air pressure here at the start, by barometer [Pa]
    end_station_pressure : air pressure here at the end, by the same barometer [Pa]
    start_temperature : temperature at the start [K]
    end_temperature : temperature at the end [K]
    duration : time between the two readings [s]

    Returns
    -------
    leak rate [Pa·m³/s] (1 Pa·m³/s = 10 hPa·L/s); below zero if the absolute pressure fell

    Valid for
    ---------
    volume 0.001 to 100 m³, duration at least 1200 s (20 min) up to 1 week, temperatures 223.15 to
    423.15 K, station pressures 50 000 to 108 500 Pa, each vacuum 0 Pa to the station pressure of
    its time

    Source
    ------
    Definition of gauge pressure, ISO 80000-4:2019, item 4-14.2; then as `leak_rate`: EN 1779:1999
    technique D.3 (value from memory).

    Examples
    --------
    >>> rate = leak_rate_by_dial(volume=0.120, start_vacuum=78120, end_vacuum=77600,
    ...     start_station_pressure=84320, end_station_pressure=84120, start_temperature=294.65,
    ...     end_temperature=296.15, duration=1800)
    >>> round(rate * 10, 3)
    0.191
    """
    require("start_station_pressure", start_station_pressure, 50_000, 108_500)
    require("start_vacuum", start_vacuum, 0, start_station_pressure)
    require("end_station_pressure", end_station_pressure, 50_000, 108_500)
    require("end_vacuum", end_vacuum, 0, end_station_pressure)
    return leak_rate(
        volume=volume,
        start_pressure=residual_pressure(
            station_pressure=start_station_pressure, vacuum=start_vacuum
        ),
        end_pressure=residual_pressure(station_pressure=end_station_pressure, vacuum=end_vacuum),
        start_temperature=start_temperature,
        end_temperature=end_temperature,
        duration=duration,
    )


def expected_litres(
    *,
    loop_volume: CubicMetre,
    hold_pressure: Pascal,
    station_pressure: Pascal,
    vessel_pressure: PascalAboveAir,
) -> CubicMetre:
    """Return the oil that an evacuated loop takes before the gas left in it is bled.

    Parameters
    ----------
    loop_volume : evacuated volume [m³]
    hold_pressure : absolute pressure before filling [Pa]
    station_pressure : air pressure here [Pa]
    vessel_pressure : pressure in the vessel after filling, above air [Pa]

    Returns
    -------
    volume of oil [m³]

    Valid for
    ---------
    loop_volume 0.001 to 100 m³, hold_pressure 0 to station_pressure, station_pressure 50 000
    to 108 500 Pa, vessel_pressure 0 to 1 000 000 Pa; the gas keeps its temperature

    Source
    ------
    Boyle's law, e.g. Atkins, Physical Chemistry, 1A.

    Examples
    --------
    >>> litres = expected_litres(loop_volume=0.120, hold_pressure=6200,
    ...     station_pressure=84320, vessel_pressure=31300) * 1000
    >>> round(litres, 1)
    113.6
    """
    require("loop_volume", loop_volume, 0.001, 100)
    require("station_pressure", station_pressure, 50_000, 108_500)
    require("hold_pressure", hold_pressure, 0, station_pressure)
    require("vessel_pressure", vessel_pressure, 0, 1_000_000)
    return loop_volume * (1 - hold_pressure / (station_pressure + vessel_pressure))
