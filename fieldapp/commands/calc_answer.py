"""What a formula or a rule gave: in words for people, or as JSON."""

import json
from math import isfinite
from textwrap import wrap

from fieldapp.commands.calc_inputs import Typed
from fieldapp.commands.calc_page import INDENT, WIDE, gives, grounds, paragraph
from fieldapp.commands.width import width
from fieldapp.engineering.catalogue import Formula, Rule
from fieldapp.engineering.rules.said import Figure, Said
from fieldapp.judgement.words import people_unit
from fieldapp.units import difference_from_si, from_si

DIGITS, FEW_DIGITS, SPREAD_DIGITS = 6, 4, 2


def answer_words(formula: Formula, units: tuple[str, ...], result: float) -> str:
    """Return a number in each of the units, with where it holds and where it comes from."""
    figures = " = ".join(f"{from_si(result, unit):.{DIGITS}g} {unit}" for unit in units)
    lines = wrap(f"{formula.name} = {figures}", width(WIDE), subsequent_indent=" " * INDENT)
    return "\n".join((*lines, *_grounds(formula)))


def answer_json(formula: Formula, typed: Typed, units: tuple[str, ...], result: float) -> str:
    """Return a number in each of the units, and all that belongs to it."""
    return _json({
        "formula": formula.name,
        "inputs": typed.words,
        "quantity": formula.quantity,
        "result": {unit: from_si(result, unit) for unit in units},
        "gives": gives(formula),
        "note": formula.note,
        "valid_for": formula.valid_for,
        "source": formula.source,
    })  # fmt: skip


def said_words(rule: Rule, said: Said) -> str:
    """Return a judgement: sentence, figures, rows and notes, then where it holds."""
    lines = wrap(f"{rule.name}: {said.sentence}", width(WIDE), subsequent_indent=" " * INDENT)
    wide = max((len(figure.label) for figure in said.figures), default=0)
    for figure in said.figures:
        lines += paragraph(figure.label, _figure_words(figure), wide)
    if said.rows:
        lines += ["", *_table((said.heads, *said.rows)), ""]
    for note in said.notes:
        lines += paragraph("note     ", note)
    return "\n".join((*lines, *_grounds(rule)))


def said_json(rule: Rule, typed: Typed, said: Said) -> str:
    """Return a judgement with its figures in their units, and all that belongs to it."""
    return _json({
        "rule": rule.name,
        "inputs": typed.words,
        "sentence": said.sentence,
        "figures": [_figure_json(figure) for figure in said.figures],
        "heads": said.heads,
        "rows": said.rows,
        "notes": said.notes,
        "note": rule.note,
        "valid_for": rule.valid_for,
        "source": rule.source,
    })  # fmt: skip


def _grounds(each: Formula | Rule) -> list[str]:
    """Return what to heed and to rest on; what a rule gives has just been said."""
    beside = [pair for pair in grounds(each) if isinstance(each, Formula) or pair[0] != "gives"]
    return [line for title, words in beside for line in paragraph(f"{title:<9}", words)]


def _figure_words(figure: Figure) -> str:
    unit = people_unit(figure.unit)
    words = f"{_plain(from_si(figure.value, figure.unit), FEW_DIGITS)}{unit}"
    spread = _spread(figure)
    return words if spread is None else f"{words} ± {_plain(spread, SPREAD_DIGITS)}{unit}"


def _figure_json(figure: Figure) -> dict[str, object]:
    return {
        "label": figure.label,
        "value": from_si(figure.value, figure.unit),
        "unit": figure.unit,
        "uncertainty": _spread(figure),
    }


def _spread(figure: Figure) -> float | None:
    if figure.spread is None or not isfinite(figure.spread):
        return None
    return difference_from_si(figure.spread, figure.unit)


def _plain(value: float, digits: int) -> str:
    """Return a number with so many digits, without an exponent where people read none."""
    text = f"{value:.{digits}g}"
    return f"{float(text):.0f}" if "e+" in text else text


def _table(rows: tuple[tuple[str, ...], ...]) -> list[str]:
    wide = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return [
        (" " * INDENT + "  ".join(_set(cell, room) for cell, room in zip(row, wide, strict=True)))
        .rstrip()
        for row in rows
    ]  # fmt: skip


def _set(cell: str, room: int) -> str:
    """Return a cell in its room: figures to the right, words to the left."""
    return f"{cell:>{room}}" if cell.replace(".", "").replace("-", "").isdigit() else (
        f"{cell:<{room}}"
    )  # fmt: skip


def _json(found: dict[str, object]) -> str:
    return json.dumps(found, indent=2, ensure_ascii=False)
