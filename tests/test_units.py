"""Numbers and units that people write, against published conversion factors."""

from contextlib import suppress
from decimal import Decimal
from math import isclose
from pathlib import Path

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import constants

from fieldapp.units import (
    LONGEST_NUMBER,
    UNITS,
    NotANumberError,
    UnknownUnitError,
    difference_from_si,
    from_si,
    is_unfinished,
    parse_number,
    parse_quantity,
    rounded,
    to_si,
    unit_named,
    written,
)

GUIDE = Path(__file__).parent.parent / "checklists" / "README.md"
REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("12.50", "12.50"),
        ("12,5", "12.5"),
        (" 5 ", "5"),
        ("−3", "-3"),
        ("-3", "-3"),
        ("+3", "3"),
        (".5", "0.5"),
        ("5.", "5"),
        ("007", "7"),
        ("0", "0"),
        ("1" * LONGEST_NUMBER, "1" * LONGEST_NUMBER),
    ],
)
def test_number_is_read(text, number):
    assert parse_number(text) == Decimal(number)


def test_number_keeps_the_figures_that_were_typed():
    assert str(parse_number("12.50")) == "12.50"


NO_NUMBERS = {
    "nothing": "",
    "blanks": "   ",
    "two marks": "12,,5",
    "point and comma": "1.234,5",
    "power of ten": "1e999",
    "wide figures": "１２",
    "figures of another script": "٣",
    "sixteens": "0x10",
    "underscores": "1_000",
    "groups": "1 000",
    "two signs": "--3",
    "sign alone": "-",
    "mark alone": ".",
    "word": "five",
    "not a number": "nan",
    "infinity": "inf",
    "fraction": "1/2",
    "line within": "1\n2",
    "too long": "1" * (LONGEST_NUMBER + 1),
}


@pytest.mark.parametrize("text", NO_NUMBERS.values(), ids=NO_NUMBERS)
def test_text_that_is_no_number(text):
    with pytest.raises(NotANumberError):
        parse_number(text)


@given(st.text())
def test_any_text_is_a_number_or_told(text):
    with suppress(NotANumberError):
        assert parse_number(text).is_finite()


@given(st.decimals(-(10**8), 10**8, places=3))
def test_number_written_is_read_back(number):
    assert parse_number(written(number)) == number


@pytest.mark.parametrize("text", ["", "-", "−", "+", "0.", "12,", "."])
def test_beginning_of_a_number(text):
    assert is_unfinished(text)


@pytest.mark.parametrize("text", ["0", "1.5", "x", "1,,", "-5"])
def test_no_mere_beginning(text):
    assert not is_unfinished(text)


@pytest.mark.parametrize("text", ["1500", "1500m", "m", ""])
def test_quantity_without_number_or_unit(text):
    with pytest.raises(NotANumberError):
        parse_quantity(text)


@pytest.mark.parametrize("text", ["1500 M", "5 bar", "3 hPa  vacuum"])
def test_quantity_in_an_unknown_unit(text):
    with pytest.raises(UnknownUnitError):
        parse_quantity(text)


def test_unit_of_two_words_is_read():
    quantity = parse_quantity("12,5 hPa vacuum")
    assert (quantity.number, quantity.unit) == (Decimal("12.5"), unit_named("hPa vacuum"))
    assert quantity.si() == 1250


# NIST Special Publication 811 (2008), appendix B.8: factors from the unit to SI, as printed.
# They are printed to seven figures, where they are not exact.
NIST = {
    "inHg": 3.386389e3,  # inch of mercury, conventional
    "Torr": 1.333224e2,
    "psi g": 6.894757e3,
    "bar g": 1e5,
    "ft": 3.048e-1,
    "in": 2.54e-2,
    "gal": 3.785412e-3,
    "gal/min": 6.309020e-5,
    "L": 1e-3,
    "min": 60,
    "h": 3600,
    "d": 86400,
    "deg": 1.745329e-2,
}


@pytest.mark.parametrize(("unit", "factor"), NIST.items(), ids=NIST)
def test_factor_is_the_published_one(unit, factor):
    assert isclose(to_si(1, unit), factor, rel_tol=5e-7)


# CODATA and the exact definitions as SciPy carries them.
SCIPY = {
    "inHg": constants.inch * 13595.1 * constants.g,  # mercury of 13 595.1 kg/m3: ISO 80000-4
    "Torr": constants.torr,
    "psi g": constants.psi,
    "bar g": constants.bar,
    "ft": constants.foot,
    "in": constants.inch,
    "gal": constants.gallon_US,
    "L": constants.liter,
    "min": constants.minute,
    "h": constants.hour,
    "d": constants.day,
    "deg": constants.degree,
    "L/min": constants.liter / constants.minute,
    "gal/min": constants.gallon_US / constants.minute,
    "kPa": constants.kilo,
    "hPa L/s": constants.hecto * constants.liter,
    "mg/kg": constants.micro,
    "kg/d": 1 / constants.day,
    "g/h": constants.gram / constants.hour,
    "um2/s": constants.micron**2,
    "%": 0.01,
}


@pytest.mark.parametrize(("unit", "factor"), SCIPY.items(), ids=SCIPY)
def test_factor_agrees_with_scipy(unit, factor):
    assert isclose(to_si(1, unit), factor, rel_tol=1e-6 if unit == "inHg" else 1e-12)


@pytest.mark.parametrize("celsius", [-40, -15.5, 0, 20, 37.77, 100])
def test_temperatures_agree_with_scipy(celsius):
    kelvin = constants.convert_temperature(celsius, "C", "K")
    fahrenheit = constants.convert_temperature(celsius, "C", "F")
    assert isclose(to_si(celsius, "degC"), kelvin, rel_tol=1e-12)
    assert isclose(to_si(fahrenheit, "degF"), kelvin, rel_tol=1e-12)


@pytest.mark.parametrize("name", UNITS)
@pytest.mark.parametrize("value", [-3.5, 0.0, 1.0, 846.2])
def test_conversion_agrees_with_pint_and_comes_back(name, value):
    expected = REGISTRY.Quantity(value, UNITS[name].measure).to_base_units().magnitude
    assert isclose(to_si(value, name), expected, rel_tol=1e-9, abs_tol=1e-12)
    assert isclose(from_si(to_si(value, name), name), value, rel_tol=1e-9, abs_tol=1e-9)


def test_difference_of_temperatures_has_no_offset():
    assert isclose(difference_from_si(10, "degC"), 10)
    assert isclose(difference_from_si(10, "degF"), 18)


def test_units_of_one_quantity_share_their_si_unit():
    bases: dict[str, object] = {}
    for unit in UNITS.values():
        base = REGISTRY.Unit(unit.measure).dimensionality
        assert bases.setdefault(unit.quantity, base) == base


ROUNDED = [
    (19.98, 1, "up", "20.0"),
    (19.98, 1, "down", "19.9"),
    (19.94, 1, "nearest", "19.9"),
    (-19.98, 1, "up", "-19.9"),
    (-19.98, 1, "down", "-20.0"),
    (0.1 + 0.2, 1, "up", "0.3"),
    (0.3 - 0.1, 1, "down", "0.2"),
    (20.0, 0, "up", "20"),
    (20.0001, 0, "up", "21"),
    (Decimal("2.5"), 0, "nearest", "2"),
    (Decimal("3.5"), 0, "nearest", "4"),
    (Decimal("12.345"), 2, "up", "12.35"),
]


@pytest.mark.parametrize(("value", "decimals", "towards", "expected"), ROUNDED)
def test_rounding_before_judging(value, decimals, towards, expected):
    assert str(rounded(value, decimals, towards)) == expected


@pytest.mark.parametrize(
    ("number", "text"), [("-3.40", "−3.40"), ("1E+3", "1000"), ("1E-7", "0.0000001"), ("0", "0")]
)
def test_number_for_people(number, text):
    assert written(Decimal(number)) == text


def test_the_guide_to_checklists_lists_every_unit_beside_its_quantity():
    text = GUIDE.read_text(encoding="utf-8").partition("\n## Units")[2].partition("\n## ")[0]
    rows = [line.strip("| ").split(" | ") for line in text.splitlines() if "| `" in line]
    listed = {(row[0], name) for row in rows for name in row[1].replace("`", "\n").split("\n")}
    assert {(quantity, name) for quantity, name in listed if name.strip()} == {
        (unit.quantity, unit.name) for unit in UNITS.values()
    }
