"""`fieldapp calc`: the formulas, what they need and where they stop; and what one gives."""

import json
import textwrap

import click

from fieldapp.engineering.catalogue import FORMULAS, Formula, Input
from fieldapp.engineering.validity import OutsideValidity, said_in
from fieldapp.units import (
    UNITS,
    NotANumberError,
    Quantity,
    UnknownUnitError,
    from_si,
    parse_number,
    parse_quantity,
)

BARE = ("count", "turns", "plain number")
REFUSED = 1


@click.command(short_help="List the formulas, or work one out.")
@click.argument("name", required=False)
@click.argument("inputs", nargs=-1, metavar="[INPUT=VALUE]…")
@click.option("--json", "as_json", is_flag=True, help="Print the answer as JSON.")
@click.option("--unit", help="Unit of the answer; otherwise the usual ones.")
def calc(name: str | None, inputs: tuple[str, ...], unit: str | None, *, as_json: bool) -> int:
    """List the formulas with their inputs, validity and source; or work one out.

    Values are written with their units: fieldapp calc gauge_vacuum
    station_pressure="843.2 hPa" residual_pressure="166.65 hPa"
    """
    if name is None:
        click.echo(_catalogue_json() if as_json else _catalogue())
        return 0
    if name not in FORMULAS:
        click.echo(f"calc: no formula “{name}”: “fieldapp calc” lists them", err=True)
        return REFUSED
    formula = FORMULAS[name]
    try:
        given = _given(formula, inputs)
        units = _units(formula, unit)
        result = _result(formula, given)
    except _UnusableError as fault:
        click.echo(f"calc {name}: {fault}", err=True)
        return REFUSED
    click.echo(_answer_json(formula, given, units, result) if as_json else _answer(
        formula, units, result
    ))  # fmt: skip
    return 0


class _UnusableError(ValueError):
    """An input that cannot be used; the message says which, why and what to do."""


def _given(formula: Formula, inputs: tuple[str, ...]) -> dict[str, Quantity]:
    known = {wanted.name: wanted for wanted in formula.inputs}
    given: dict[str, Quantity] = {}
    for text in inputs:
        name, sign, value = text.partition("=")
        if not sign or name not in known:
            names = ", ".join(known)
            raise _UnusableError(f"“{text}” names no input: write INPUT=VALUE, inputs are {names}")
        given[name] = _quantity(known[name], value)
    missing = [name for name in known if name not in given]
    if missing:
        raise _UnusableError(f"missing: {', '.join(missing)}")
    return given


def _quantity(wanted: Input, text: str) -> Quantity:
    try:
        if wanted.quantity in BARE and " " not in text.strip():
            return Quantity(parse_number(text), UNITS["pieces"])
        quantity = parse_quantity(text)
    except (NotANumberError, UnknownUnitError) as fault:
        raise _UnusableError(f"{wanted.name}: {fault}") from fault
    if quantity.unit.quantity != wanted.quantity:
        units = _units_of(wanted.quantity)
        raise _UnusableError(
            f"{wanted.name}: {text} is {quantity.unit.quantity}; give {wanted.quantity} in {units}"
        )
    return quantity


def _result(formula: Formula, given: dict[str, Quantity]) -> float:
    try:
        return formula.calculate(**{key: value.si() for key, value in given.items()})
    except OutsideValidity as refusal:
        units = {key: value.unit.name for key, value in given.items()}
        raise _UnusableError(said_in(refusal, units)) from refusal


def _units_of(quantity: str) -> str:
    return ", ".join(unit.name for unit in UNITS.values() if unit.quantity == quantity)


def _units(formula: Formula, unit: str | None) -> tuple[str, ...]:
    fitting = tuple(u.name for u in UNITS.values() if u.quantity == formula.quantity)
    if unit is None:
        return fitting
    if unit not in fitting:
        raise _UnusableError(
            f"the answer is {formula.quantity}: ask for it in {', '.join(fitting)}"
        )
    return (unit,)


def _answer(formula: Formula, units: tuple[str, ...], result: float) -> str:
    figures = " = ".join(f"{from_si(result, unit):.6g} {unit}" for unit in units)
    return f"{formula.name} = {figures}\n{_paragraph('valid for', formula.valid_for)}\n" + (
        _paragraph("source", formula.source)
    )


def _answer_json(
    formula: Formula, given: dict[str, Quantity], units: tuple[str, ...], result: float
) -> str:
    return json.dumps(
        {
            "formula": formula.name,
            "inputs": {key: f"{value.number} {value.unit.name}" for key, value in given.items()},
            "quantity": formula.quantity,
            "result": {unit: from_si(result, unit) for unit in units},
            "valid_for": formula.valid_for,
            "source": formula.source,
        },
        indent=2,
    )


def _catalogue() -> str:
    return "\n\n".join(
        "\n".join(
            (
                f"{formula.name}: {formula.summary}",
                *(
                    _paragraph(
                        wanted.name,
                        f"{wanted.quantity} ({_units_of(wanted.quantity)}): {wanted.meaning}",
                    )
                    for wanted in formula.inputs
                ),
                _paragraph("gives", f"{formula.quantity} ({_units_of(formula.quantity)})"),
                _paragraph("valid for", formula.valid_for),
                _paragraph("source", formula.source),
            )
        )
        for formula in FORMULAS.values()
    )


def _catalogue_json() -> str:
    return json.dumps(
        [
            {
                "name": formula.name,
                "summary": formula.summary,
                "inputs": {i.name: {"quantity": i.quantity, "meaning": i.meaning}
                           for i in formula.inputs},
                "quantity": formula.quantity,
                "valid_for": formula.valid_for,
                "source": formula.source,
            }
            for formula in FORMULAS.values()
        ],
        indent=2,
    )  # fmt: skip


def _paragraph(title: str, words: str) -> str:
    return textwrap.fill(f"  {title}: {words}", 96, subsequent_indent="      ")
