"""The job sheet answers by name and by kind; an instrument says how far it may be off."""

from datetime import date
from decimal import Decimal

import pytest

from fieldapp.job.sheet import Instrument, JobSheet, Person, width_in
from fieldapp.units import UNITS, Quantity, parse_quantity

DAY = date(2031, 4, 1)


def instrument(unit="hPa", **accuracies):
    return Instrument("gauge", "Gauge", "G-1", unit, date(2030, 9, 1), DAY, **accuracies)


SHEET = JobSheet(
    "K-1",
    {
        "elevation": parse_quantity("1500 m"),
        "bay": "T2",
        "gas_cushion": False,
        "sample_date": DAY,
    },
    (instrument(),),
    (Person("Ada", "technician", "Crew"), Person("Ben", "crew lead", "Crew")),
    {"hold_pressure": parse_quantity("15 Torr"), "second_cooler": True},
    "text",
)


def test_fact_is_given_as_its_kind_only():
    assert SHEET.number_of("elevation") == Quantity(Decimal(1500), UNITS["m"])
    assert SHEET.text_of("bay") == "T2"
    assert SHEET.yes_no("gas_cushion") is False
    assert SHEET.date_of("sample_date") == DAY
    asked = (SHEET.number_of, SHEET.text_of, SHEET.yes_no, SHEET.date_of)
    for name in (*SHEET.facts, "nothing"):
        assert sum(ask(name) is not None for ask in asked) == (name != "nothing")


def test_owner_states_figures_and_answers():
    assert SHEET.owner_number("hold_pressure") == parse_quantity("15 Torr")
    assert SHEET.owner_answer("second_cooler") is True
    assert SHEET.owner_number("second_cooler") is None
    assert SHEET.owner_answer("hold_pressure") is None


def test_people_and_instruments_by_name():
    assert SHEET.person("Ben") == Person("Ben", "crew lead", "Crew")
    assert SHEET.person("Eve") is None
    assert [person.name for person in SHEET.people("technician")] == ["Ada"]
    assert SHEET.instrument("gauge") == instrument()
    assert SHEET.instrument("clock") is None


def test_fingerprint_is_the_sha_256_of_the_text():
    # printf text | sha256sum
    assert SHEET.fingerprint() == "982d9e3eb996f559e633f4d194def3761d909f5a3b647d1a851fead67c32c9d1"


UNCERTAINTIES = {
    "absolute": ({"accuracy": "0.2 hPa"}, "20", "hPa", "0.2"),
    "of the reading": ({"of_reading": "2"}, "20.5", "hPa", "0.41"),
    "of a negative reading": ({"of_reading": "2"}, "-20.5", "hPa", "0.41"),
    "of the span": ({"unit": "inHg", "of_span": "1.6", "span": "30 inHg"}, "25", "inHg", "0.48"),
    "all add up": (
        {"accuracy": "0.1 hPa", "of_reading": "1", "of_span": "0.5", "span": "100 hPa"},
        "50",
        "hPa",
        "1.1",
    ),
    "in another unit": ({"accuracy": "1 hPa"}, "2", "kPa", "0.1"),
    "kelvins for degrees Celsius": ({"unit": "degC", "accuracy": "0.5 K"}, "20", "degC", "0.5"),
    "kelvins for degrees Fahrenheit": ({"unit": "degF", "accuracy": "0.5 K"}, "68", "degF", "0.9"),
    "nothing known": ({}, "20", "hPa", "0"),
}


@pytest.mark.parametrize(
    ("accuracies", "reading", "unit", "expected"), UNCERTAINTIES.values(), ids=UNCERTAINTIES
)
def test_uncertainty(accuracies, reading, unit, expected):
    typed = {
        key: value
        if key == "unit"
        else Decimal(value)
        if " " not in value
        else parse_quantity(value)
        for key, value in accuracies.items()
    }
    assert instrument(**typed).uncertainty(Decimal(reading), unit) == Decimal(expected)


def test_repeatability_is_known_or_not():
    assert instrument(repeatability=parse_quantity("0.3 hPa")).repeatability_in("kPa") == Decimal(
        "0.03"
    )
    assert instrument().repeatability_in("hPa") is None


def test_calibration_counts_through_its_last_day():
    assert not instrument().overdue(DAY)
    assert instrument().overdue(date(2031, 4, 2))


@pytest.mark.parametrize(
    ("width", "unit", "expected"),
    [("1 K", "degF", "1.8"), ("1 degF", "degC", "0.555555555556"), ("1 bar g", "kPa g", "100")],
)
def test_width_in_another_unit(width, unit, expected):
    assert width_in(parse_quantity(width), unit) == Decimal(expected)
