"""`fieldapp calc`: lists formulas, tables and judgements, and works one out."""

from difflib import get_close_matches

import click

from fieldapp.commands.calc_answer import answer_json, answer_words, said_json, said_words
from fieldapp.commands.calc_inputs import UnusableError, typed_for
from fieldapp.commands.calc_page import entry, page, page_json
from fieldapp.commands.setting import content_of
from fieldapp.engineering.catalogue import FORMULAS, RULES, Formula, Rule
from fieldapp.engineering.validity import OutsideValidity, said_in
from fieldapp.errors import FieldAppError
from fieldapp.units import UNITS

REFUSED = 1
NO_UNIT = "gives words and figures in units of their own: leave --unit out"


@click.command(short_help="List the formulas and tables, or work one out.")
@click.argument("name", required=False)
@click.argument("inputs", nargs=-1, metavar="[INPUT=VALUE]…")
@click.option("--json", "as_json", is_flag=True, help="Print the answer as JSON.")
@click.option("--unit", help="Unit of the answer; otherwise the usual ones.")
def calc(name: str | None, inputs: tuple[str, ...], unit: str | None, *, as_json: bool) -> int:
    """List formulas, tables and judgements with inputs, validity and source; or work one out.

    NAME alone says what it takes. Values are written with their units: fieldapp calc gauge_vacuum
    station_pressure="843.2 hPa" residual_pressure="166.65 hPa"

    Rows of readings: reading="0 s; 843 hPa" reading="30 s; 708 hPa" or reading=@readings.txt
    """
    if name is None:
        click.echo(page_json() if as_json else page())
        return 0
    if name in (*FORMULAS, *RULES) and not (inputs or unit or as_json):
        click.echo(entry(name))
        return 0
    try:
        click.echo(_worked_out(name, inputs, unit, as_json=as_json))
    except UnusableError as fault:
        click.echo(
            " ".join(f"calc {name}: {fault}".split()), err=True
        )  # one line, whatever was typed
        return REFUSED
    return 0


def _worked_out(name: str, inputs: tuple[str, ...], unit: str | None, *, as_json: bool) -> str:
    if name in FORMULAS:
        return _number(FORMULAS[name], inputs, unit, as_json=as_json)
    if name not in RULES:
        near = get_close_matches(name, (*FORMULAS, *RULES), n=1)
        meant = f"; is “{near[0]}” meant?" if near else ""
        raise UnusableError(f"no formula of that name: “fieldapp calc” lists them{meant}")
    if unit is not None:
        raise UnusableError(NO_UNIT)
    return _judgement(RULES[name], inputs, as_json=as_json)


def _number(
    formula: Formula, inputs: tuple[str, ...], unit: str | None, *, as_json: bool
) -> str:  # fmt: skip
    typed = typed_for(formula.inputs, inputs, content_of)
    units = _units(formula, unit)
    try:
        result = formula.calculate(**typed.values)
    except OutsideValidity as refusal:
        raise UnusableError(said_in(refusal, typed.units)) from refusal
    if as_json:
        return answer_json(formula, typed, units, result)
    return answer_words(formula, units, result)


def _judgement(rule: Rule, inputs: tuple[str, ...], *, as_json: bool) -> str:
    typed = typed_for(rule.inputs, inputs, content_of)
    try:
        said = rule.judge(**typed.values)
    except OutsideValidity as refusal:
        raise UnusableError(said_in(refusal, typed.units)) from refusal
    except FieldAppError as refusal:
        raise UnusableError(str(refusal)) from refusal
    return said_json(rule, typed, said) if as_json else said_words(rule, said)


def _units(formula: Formula, unit: str | None) -> tuple[str, ...]:
    fitting = tuple(u.name for u in UNITS.values() if u.quantity == formula.quantity)
    if unit is None:
        return fitting
    if unit not in fitting:
        raise UnusableError(f"the answer is {formula.quantity}: ask for it in {', '.join(fitting)}")
    return (unit,)
