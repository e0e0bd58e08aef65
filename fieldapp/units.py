"""What people write: numbers, units and quantities, read exactly and without surprises."""

import re
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Decimal, InvalidOperation
from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pint

MINUS = "\u2212"
LONGEST_NUMBER = 20
_NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)")
_UNFINISHED = re.compile(r"[+-]?|[+-]?\d*[.,]")


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit as the trade writes it; pint calls it `measure`, and it measures `quantity`."""

    name: str
    quantity: str
    measure: str


# The names that forms and gauges use. Two units belong together when they measure the same
# quantity: a pressure above the air outside is never mixed with an absolute one.
UNITS = {
    unit.name: unit
    for unit in (
        Unit("Pa", "absolute pressure", "pascal"),
        Unit("hPa", "absolute pressure", "hectopascal"),
        Unit("kPa", "absolute pressure", "kilopascal"),
        Unit("mbar", "absolute pressure", "millibar"),
        Unit("Torr", "absolute pressure", "torr"),
        Unit("inHg a", "absolute pressure", "inch_Hg"),
        Unit("psi a", "absolute pressure", "psi"),
        Unit("inHg", "vacuum below air", "inch_Hg"),
        Unit("hPa vacuum", "vacuum below air", "hectopascal"),
        Unit("kPa g", "pressure above air", "kilopascal"),
        Unit("bar g", "pressure above air", "bar"),
        Unit("psi g", "pressure above air", "psi"),
        Unit("hPa L/s", "leak rate", "hectopascal * liter / second"),
        Unit("degC", "temperature", "degree_Celsius"),
        Unit("degF", "temperature", "degree_Fahrenheit"),
        Unit("K", "temperature difference", "kelvin"),
        Unit("m", "length", "meter"),
        Unit("mm", "length", "millimeter"),
        Unit("um", "length", "micrometer"),
        Unit("ft", "length", "foot"),
        Unit("in", "length", "inch"),
        Unit("mm2", "area", "millimeter ** 2"),
        Unit("m2", "area", "meter ** 2"),
        Unit("mL", "volume", "milliliter"),
        Unit("L", "volume", "liter"),
        Unit("m3", "volume", "meter ** 3"),
        Unit("gal", "volume", "gallon"),
        Unit("L/min", "flow", "liter / minute"),
        Unit("gal/min", "flow", "gallon / minute"),
        Unit("m/s", "velocity", "meter / second"),
        Unit("kg", "mass", "kilogram"),
        Unit("kg/L", "density", "kilogram / liter"),
        Unit("kg/m3", "density", "kilogram / meter ** 3"),
        Unit("ms", "time", "millisecond"),
        Unit("s", "time", "second"),
        Unit("min", "time", "minute"),
        Unit("h", "time", "hour"),
        Unit("d", "time", "day"),
        Unit("ohm", "resistance", "ohm"),
        Unit("mohm", "resistance", "milliohm"),
        Unit("V", "voltage", "volt"),
        Unit("kV", "voltage", "kilovolt"),
        Unit("mA", "current", "milliampere"),
        Unit("kA", "current", "kiloampere"),
        Unit("MVA", "apparent power", "megavolt * ampere"),
        Unit("mg/kg", "water content", "milligram / kilogram"),
        Unit("%", "share", "percent"),
        Unit("deg", "angle", "degree"),
        Unit("drops/min", "drop rate", "1 / minute"),
        Unit("1/K", "expansion", "1 / kelvin"),
        Unit("kg/d", "mass flow", "kilogram / day"),
        Unit("g/h", "mass flow", "gram / hour"),
        Unit("um2/s", "diffusion coefficient", "micrometer ** 2 / second"),
        Unit("1", "plain number", "dimensionless"),
        Unit("mm2/s", "viscosity", "millimeter ** 2 / second"),
        Unit("pS/m", "conductivity", "picosiemens / meter"),
        Unit("Pa/m", "pressure gradient", "pascal / meter"),
        Unit("L/d", "gas flow", "liter / day"),
        Unit("uL/L", "gas content", "microliter / liter"),
        Unit("turns", "turns", "dimensionless"),
        Unit("pieces", "count", "dimensionless"),
    )
}


class NotANumberError(ValueError):
    """What was typed cannot be read as a number; the message says why."""


class UnknownUnitError(ValueError):
    """A unit that the trade's forms do not use here."""

    def __init__(self, name: str) -> None:
        super().__init__(f"“{name}” is not a unit known here; known: {', '.join(UNITS)}")
        self.name = name


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number as typed, with its unit: `Quantity(Decimal("12.50"), UNITS["hPa"])`."""

    number: Decimal
    unit: Unit

    def si(self) -> float:
        """Return the value in the SI unit of its quantity (temperatures in kelvin)."""
        return to_si(float(self.number), self.unit.name)


def parse_number(text: str) -> Decimal:
    """Return the number that `text` means; a comma or a point is the decimal mark.

    >>> parse_number("12,5")
    Decimal('12.5')
    """
    plain = text.strip().replace(MINUS, "-")
    if not plain:
        raise NotANumberError("nothing was typed: type a number")
    if len(plain) > LONGEST_NUMBER:
        raise NotANumberError(f"more than {LONGEST_NUMBER} characters: type a shorter number")
    if not _NUMBER.fullmatch(plain) or not plain.isascii():
        raise NotANumberError(f"“{text}” is not a number: use digits and one decimal mark")
    try:
        return Decimal(plain.replace(",", "."))
    except InvalidOperation as cause:
        raise NotANumberError(f"“{text}” is not a number") from cause


def is_unfinished(text: str) -> bool:
    """Say whether `text` is the beginning of a number, such as “-” or “0.”."""
    return _UNFINISHED.fullmatch(text.strip().replace(MINUS, "-")) is not None


def parse_quantity(text: str) -> Quantity:
    """Return the quantity that `text` means.

    >>> parse_quantity("25 inHg").unit.quantity
    'vacuum below air'
    """
    number, _, name = text.strip().partition(" ")
    if not name:
        raise NotANumberError(f"“{text}” has no unit: write it like “1500 m”")
    return Quantity(parse_number(number), unit_named(name.strip()))


def unit_named(name: str) -> Unit:
    """Return the unit called `name`."""
    if name not in UNITS:
        raise UnknownUnitError(name)
    return UNITS[name]


@cache
def _registry() -> "pint.UnitRegistry[float]":
    import pint

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


@cache
def _line(name: str) -> tuple[float, float]:
    """Return (slope, offset) of SI value = slope * value + offset."""
    measure = unit_named(name).measure
    zero = _registry().Quantity(0.0, measure).to_base_units().magnitude
    one = _registry().Quantity(1.0, measure).to_base_units().magnitude
    return one - zero, zero


def to_si(value: float, unit: str) -> float:
    """Return `value`, given in `unit`, in the SI unit of its quantity.

    >>> to_si(25, "inHg")
    84659.7...
    """
    slope, offset = _line(unit)
    return slope * value + offset


def from_si(value: float, unit: str) -> float:
    """Return an SI `value` in `unit`."""
    slope, offset = _line(unit)
    return (value - offset) / slope


def difference_from_si(value: float, unit: str) -> float:
    """Return an SI difference in `unit` (kelvins become degrees, without the offset)."""
    return value / _line(unit)[0]


def rounded(value: float | Decimal, decimals: int, towards: str = "nearest") -> Decimal:
    """Return `value` with so many decimals, rounded to the "nearest", "up" or "down".

    >>> rounded(19.98, 1, "up")
    Decimal('20.0')
    """
    rule = {"nearest": ROUND_HALF_EVEN, "up": ROUND_CEILING, "down": ROUND_FLOOR}[towards]
    exact = value if isinstance(value, Decimal) else Decimal(repr(value))
    # what floating point adds far behind the last decimal must not tip a value upwards
    steady = exact.quantize(Decimal(1).scaleb(-decimals - 6), ROUND_HALF_EVEN)
    return steady.quantize(Decimal(1).scaleb(-decimals), rule)


def written(number: Decimal) -> str:
    """Return `number` for people: a true minus, no exponent.

    >>> written(Decimal("-3.40"))
    '−3.40'
    """
    return f"{number:f}".replace("-", MINUS)
