"""The air that stays after evacuating: how much, what a leak lets in, how much oil takes it."""

from typing import Annotated

from fieldapp.engineering.validity import require

Pascal = Annotated[float, "absolute pressure"]
PascalAboveAir = Annotated[float, "pressure above air"]
CubicMetre = Annotated[float, "volume"]
Share = Annotated[float, "share"]
PlainNumber = Annotated[float, "plain number"]
GasFlow = Annotated[float, "gas flow"]
PascalCubicMetrePerSecond = Annotated[float, "leak rate"]

ATMOSPHERE = 101_325.0


def air_a_day(*, leak_rate: PascalCubicMetrePerSecond) -> GasFlow:
    """Return the air that a leak lets in, as litres at one atmosphere, each day.

    The litres are counted at 101 325 Pa and at the temperature of the hold, not at 0 °C.

    Parameters
    ----------
    leak_rate : leak rate of the hold test [Pa·m³/s]

    Returns
    -------
    volume of air a time [m³/s]

    Valid for
    ---------
    leak_rate -10 to 1000 Pa·m³/s; the pressure difference of the hold test, about one atmosphere

    Source
    ------
    Boyle's law, e.g. Atkins, Physical Chemistry, 1A.

    Examples
    --------
    >>> round(air_a_day(leak_rate=0.03333) * 86400 * 1000, 1)
    28.4
    """
    require("leak_rate", leak_rate, -10, 1000)
    return leak_rate / ATMOSPHERE


def residual_air(*, volume: CubicMetre, pressure: Pascal) -> CubicMetre:
    """Return the air left in an evacuated volume, as litres at one atmosphere.

    Parameters
    ----------
    volume : evacuated volume [m³]
    pressure : absolute pressure in it [Pa]

    Returns
    -------
    volume at 101 325 Pa and the same temperature [m³]

    Valid for
    ---------
    volume 0.001 to 100 m³, pressure 0 to 110 000 Pa

    Source
    ------
    Boyle's law, e.g. Atkins, Physical Chemistry, 1A.

    Examples
    --------
    >>> round(residual_air(volume=0.06, pressure=16665) * 1000, 2)
    9.87
    """
    require("volume", volume, 0.001, 100)
    require("pressure", pressure, 0, 110_000)
    return volume * pressure / ATMOSPHERE


def gas_to_bleed(*, air: CubicMetre, pressure: Pascal) -> CubicMetre:
    """Return the room that the air left takes up once oil stands over it.

    Parameters
    ----------
    air : air left, at 101 325 Pa [m³]
    pressure : absolute pressure of the oil around it [Pa]

    Returns
    -------
    volume of gas [m³]

    Valid for
    ---------
    air 0 to 100 m³, pressure 20 000 to 1 200 000 Pa; nothing dissolves meanwhile (safe side)

    Source
    ------
    Boyle's law, e.g. Atkins, Physical Chemistry, 1A.

    Examples
    --------
    >>> round(gas_to_bleed(air=0.00987, pressure=201325) * 1000, 2)
    4.97
    """
    require("air", air, 0, 100)
    require("pressure", pressure, 20_000, 1_200_000)
    return air * ATMOSPHERE / pressure


def dissolved_at(*, ostwald: PlainNumber, partial_pressure: Pascal) -> Share:
    """Return the gas that oil holds at equilibrium, as a share of its volume at one atmosphere.

    Parameters
    ----------
    ostwald : Ostwald coefficient at the oil temperature [-]
    partial_pressure : pressure of that gas alone over the oil [Pa]

    Returns
    -------
    gas a volume of oil, at 101 325 Pa and the oil temperature [-]

    Valid for
    ---------
    ostwald 0.01 to 5, partial_pressure 0 to 300 000 Pa

    Source
    ------
    Henry's law with the definition of the Ostwald coefficient, IEC 60567 (value from memory).

    Examples
    --------
    >>> round(dissolved_at(ostwald=0.091, partial_pressure=0.7808 * 101325) * 100, 2)
    7.11
    """
    require("ostwald", ostwald, 0.01, 5)
    require("partial_pressure", partial_pressure, 0, 300_000)
    return ostwald * partial_pressure / ATMOSPHERE


def air_saturation(*, sea_level_saturation: Share, station_pressure: Pascal) -> Share:
    """Return how much air oil can hold here: what it holds at sea level, with the air pressure.

    Parameters
    ----------
    sea_level_saturation : air at saturation under 101 325 Pa; about 10 % [share of volume]
    station_pressure : air pressure here, by barometer [Pa]

    Returns
    -------
    air a volume of oil, at 101 325 Pa [-]

    Valid for
    ---------
    sea_level_saturation 0.05 to 0.2, station_pressure 50 000 to 108 500 Pa; about 25 °C

    Source
    ------
    Henry's law. 10.07 % from DiGiorgio 2005 (78.08 % N2 at 8.6 %, 20.95 % O2 at 16 %), 10.7 %
    from the Ostwald coefficients of IEC 60567 (value from memory): they differ by 6 %.

    Examples
    --------
    >>> round(air_saturation(sea_level_saturation=0.1007, station_pressure=84320) * 100, 2)
    8.38
    """
    require("sea_level_saturation", sea_level_saturation, 0.05, 0.2)
    require("station_pressure", station_pressure, 50_000, 108_500)
    return sea_level_saturation * station_pressure / ATMOSPHERE


def oil_to_dissolve(*, air: CubicMetre, saturation: Share, held: Share) -> CubicMetre:
    """Return the oil that it takes to dissolve air, given what the oil holds already.

    Parameters
    ----------
    air : air to dissolve, at 101 325 Pa [m³]
    saturation : air that the oil can hold here [share of volume]
    held : air that it holds already (N2 and O2 of the gas analysis) [share of volume]

    Returns
    -------
    volume of oil [m³]

    Valid for
    ---------
    air 0 to 10 m³, saturation 0.02 to 0.2, held 0 to 99 % of saturation: oil that is full takes
    nothing, bleed instead

    Source
    ------
    Balance of dissolved air; complete mixing, which takes hours, the favourable side.

    Examples
    --------
    >>> round(oil_to_dissolve(air=0.00987, saturation=0.1007, held=0.02) * 1000)
    122
    """
    require("air", air, 0, 10)
    require("saturation", saturation, 0.02, 0.2)
    require("held", held, 0, 0.99 * saturation)
    return air / (saturation - held)
