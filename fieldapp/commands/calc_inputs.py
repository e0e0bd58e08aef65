"""Reads what was typed for a formula or a rule: numbers with units, words, dates, rows."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from fieldapp.engineering.docstring import ANSWER, DATE, ROWS, TEXT, YES_NO, Input
from fieldapp.units import (
    UNITS,
    NotANumberError,
    Quantity,
    UnknownUnitError,
    parse_number,
    parse_quantity,
)

BARE = ("count", "turns", "plain number")
BETWEEN, COMMENT, FILE = ";", "#", "@"
MOST_ROWS = 10_000
TOO_MANY = f"more than {MOST_ROWS} rows: give the ones that matter"


class UnusableError(ValueError):
    """An input that cannot be used; the message says which, why and what to do."""


@dataclass(slots=True)
class Typed:
    """What was typed, by input: SI values to work with, the words themselves, units by name."""

    values: dict[str, object] = field(default_factory=dict)
    words: dict[str, str | list[str]] = field(default_factory=dict)
    units: dict[str, str] = field(default_factory=dict)


def typed_for(
    inputs: tuple[Input, ...], texts: Iterable[str], content_of: Callable[[Path], bytes]
) -> Typed:
    """Return what was typed as INPUT=VALUE; rows by naming the input again, or from @FILE."""
    known, typed = {wanted.name: wanted for wanted in inputs}, Typed()
    rows: dict[str, list[str]] = {}
    for text in texts:
        name, sign, value = text.partition("=")
        if not sign or name not in known:
            names = ", ".join(known)
            raise UnusableError(f"“{text}” names no input: write INPUT=VALUE, inputs are {names}")
        if known[name].quantity == ROWS:
            rows.setdefault(name, []).extend(_lines(name, value, content_of))
        elif name in typed.values:
            raise UnusableError(f"{name} is given twice: give it once")
        else:
            _take(known[name], value, typed)
    missing = [w.name for w in inputs if w.needed and w.name not in (typed.values | rows)]
    if missing:
        raise UnusableError(f"missing: {', '.join(missing)}")
    for name, lines in rows.items():
        typed.values[name] = _rows(known[name], lines, typed)
        typed.words[name] = lines
    return typed


def units_of(quantity: str) -> str:
    """Return the units of a quantity as they are written."""
    return ", ".join(unit.name for unit in UNITS.values() if unit.quantity == quantity)


def _take(wanted: Input, text: str, typed: Typed) -> None:
    typed.words[wanted.name] = text
    if wanted.quantity not in (ANSWER, DATE, TEXT, YES_NO):
        quantity = _quantity(wanted, text, wanted.name)
        typed.values[wanted.name] = quantity.si()
        typed.units[wanted.name] = quantity.unit.name
        typed.words[wanted.name] = f"{quantity.number} {quantity.unit.name}"
        return
    readers = {ANSWER: _answer, DATE: _date, TEXT: _text, YES_NO: _yes_no}
    typed.values[wanted.name] = readers[wanted.quantity](wanted, text)


def _quantity(wanted: Input, text: str, place: str, unit: str = "") -> Quantity:
    """Return a number with its unit; `unit` is what the head of the column says."""
    plain = text.strip()
    try:
        if " " not in plain and unit:
            quantity = Quantity(parse_number(plain), UNITS[unit])
        elif " " not in plain and wanted.quantity in BARE:
            return Quantity(parse_number(plain), UNITS["pieces"])
        else:
            quantity = parse_quantity(plain)
    except (NotANumberError, UnknownUnitError) as fault:
        raise UnusableError(f"{place}: {fault}") from fault
    if quantity.unit.quantity != wanted.quantity:
        raise UnusableError(
            f"{place}: {plain} is {quantity.unit.quantity}; give {wanted.quantity} in "
            f"{units_of(wanted.quantity)}"
        )
    return quantity


def _answer(wanted: Input, text: str) -> object:
    found = next((each for each in wanted.answers if each.lower() == text.strip().lower()), None)
    if found is None:
        answers = ", ".join(wanted.answers)
        raise UnusableError(f"{wanted.name}: “{text}” is none of the answers: {answers}")
    return wanted.make(found)


def _date(wanted: Input, text: str) -> date:
    try:
        return date.fromisoformat(text.strip())
    except ValueError as fault:
        words = f"{wanted.name}: “{text}” is no date: write it like 1984-05-01"
        raise UnusableError(words) from fault


def _text(wanted: Input, text: str) -> str:
    if not text.strip():
        raise UnusableError(f"{wanted.name}: nothing was typed: write who or what")
    return text.strip()


def _yes_no(wanted: Input, text: str) -> bool:
    answers = {"yes": True, "no": False}
    if text.strip().lower() not in answers:
        raise UnusableError(f"{wanted.name}: “{text}” is neither yes nor no")
    return answers[text.strip().lower()]


def _lines(name: str, value: str, content_of: Callable[[Path], bytes]) -> list[str]:
    """Return one row, or the rows of a file without its blank lines and comments."""
    if not value.startswith(FILE):
        return [value]
    try:
        text = content_of(Path(value[1:])).decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        raise UnusableError(f"{name}: {value[1:]} is no text in UTF-8: save it as such") from fault
    lines = [line.strip() for line in text.splitlines()]
    return [line for line in lines if line and not line.startswith(COMMENT)]


def _rows(wanted: Input, lines: list[str], typed: Typed) -> list[object]:
    """Return the rows; one of units alone says what the bare numbers below it are in."""
    if len(lines) > MOST_ROWS:
        raise UnusableError(f"{wanted.name}: {TOO_MANY}")
    units = [""] * len(wanted.columns)
    rows = []
    for number, line in enumerate(lines, start=1):
        place = f"{wanted.name}, row {number}"
        cells = [cell.strip() for cell in line.split(BETWEEN)]
        if len(cells) != len(wanted.columns):
            columns = f"{BETWEEN} ".join(column.name for column in wanted.columns)
            raise UnusableError(f"{place}: “{line}” is not {columns}: one value each")
        if all(cell in UNITS for cell in cells if cell) and any(cells):
            units = cells
            continue
        rows.append(_row(wanted, cells, units, place, typed))
    return rows


def _row(wanted: Input, cells: list[str], units: list[str], place: str, typed: Typed) -> object:
    values: dict[str, object] = {}
    for column, cell, unit in zip(wanted.columns, cells, units, strict=True):
        if column.quantity == TEXT:
            values[column.name] = _text(column, cell)
            continue
        quantity = _quantity(column, cell, f"{place}, {column.name}", unit)
        values[column.name] = quantity.si()
        typed.units.setdefault(column.name, quantity.unit.name)
    return wanted.make(**values)
