"""The catalogue as a page to print, and as JSON: what each takes, gives and rests on."""

import json
import textwrap
from collections.abc import Iterator

from fieldapp.commands.calc_inputs import BETWEEN, units_of
from fieldapp.commands.width import width
from fieldapp.engineering.catalogue import FORMULAS, RULES, SUBJECTS, Formula, Rule
from fieldapp.engineering.docstring import ANSWER, DATE, ROWS, YES_NO, Input
from fieldapp.units import UNITS

WIDE = 100
INDENT, GAP = 4, 2
COLUMNS = 3
ALL: tuple[Formula | Rule, ...] = (*FORMULAS.values(), *RULES.values())
HEADING = "Formulas, tables and judgements of the trade"
HOW = """\
Work one out, each input with its unit:
    fieldapp calc velocity flow="12 L/min" bore="25.4 mm"
Rows of readings by naming the input once a row, or from a file, a row a line; “;” stands between
values, and a row of units spares them in the rows below:
    fieldapp calc hold_test reading="min; hPa; degC" reading="0; 62.0; 21.5" reading="10; 63; 22" …
    fieldapp calc hold_test reading=@readings.txt …
Validity is stated in SI units; beyond it a formula refuses. “Value from memory”: the owner’s
edition of the standard wins. Nothing here permits work: the owner’s procedures, local codes and
licensed practice decide.

"""
UNITS_HEADING = "Units as they are written"


def page() -> str:
    """Return the whole catalogue, no line wider than a printed page."""
    count = f"{len(FORMULAS)} formulas, {len(RULES)} tables and judgements"
    lines = [f"{HEADING}{count:>{WIDE - len(HEADING)}}", "=" * WIDE, "", HOW]
    for subject in SUBJECTS:
        lines += [subject, *_columns([each.name for each in _of(subject)]), ""]
    for subject in SUBJECTS:
        lines += ["", *_heading(subject)]
        for each in _of(subject):
            lines += ["", *_entry(each)]
        lines.append("")
    return "\n".join([*lines, "", *_heading(UNITS_HEADING), "", *_units()])


def entry(name: str) -> str:
    """Return what the catalogue says of one formula, table or judgement."""
    return "\n".join(_entry(FORMULAS[name] if name in FORMULAS else RULES[name]))


def page_json() -> str:
    """Return the catalogue as JSON: formulas first, then what gives words."""
    return json.dumps(
        [
            {
                "name": each.name,
                "subject": each.subject,
                "kind": "formula" if isinstance(each, Formula) else "rule",
                "summary": each.summary,
                "inputs": {wanted.name: _input_json(wanted) for wanted in each.inputs},
                "quantity": each.quantity if isinstance(each, Formula) else "words",
                "gives": gives(each),
                "note": each.note,
                "valid_for": each.valid_for,
                "source": each.source,
            }
            for each in ALL
        ],
        indent=2,
        ensure_ascii=False,
    )


def paragraph(title: str, words: str, wide: int = 0) -> list[str]:
    """Return words beside their title, wrapped under themselves; `wide` is the title's column."""
    left = f"{' ' * INDENT}{title:<{wide or len(title)}}{' ' * GAP}"
    return textwrap.wrap(words, width(WIDE), initial_indent=left, subsequent_indent=" " * len(left))


def grounds(each: Formula | Rule) -> list[tuple[str, str]]:
    """Return what it gives, what to heed, where it holds and where it comes from, each titled."""
    said = [("gives", gives(each)), ("note", each.note)]
    said += [("valid for", each.valid_for), ("source", each.source)]
    return [(title, words) for title, words in said if words]


def gives(each: Formula | Rule) -> str:
    """Return the quantity that a formula gives and what it means, or of what a rule's words tell.

    >>> gives(FORMULAS["pump_inlet_pressure"])
    'pressure above air [Pa]; below zero the pump draws air at every weak joint'
    """
    if isinstance(each, Rule) or each.quantity in each.gives:
        return each.gives
    return f"{each.quantity}: {each.gives}"


def _of(subject: str) -> Iterator[Formula | Rule]:
    yield from (each for each in ALL if each.subject == subject)


def _heading(words: str) -> list[str]:
    return [words, "-" * len(words)]


def _columns(names: list[str]) -> list[str]:
    """Return names in columns that are read downwards."""
    rows = -(-len(names) // COLUMNS)
    wide = (WIDE - INDENT) // COLUMNS
    return [
        (" " * INDENT + "".join(f"{name:<{wide}}" for name in names[row::rows])).rstrip()
        for row in range(rows)
    ]


def _entry(each: Formula | Rule) -> list[str]:
    summary = f"{each.summary[:1].upper()}{each.summary[1:]}"
    beside = [(wanted.name, _input_words(wanted)) for wanted in each.inputs]
    beside += grounds(each)
    wide = max(len(title) for title, _ in beside)
    lines = [each.name, *textwrap.wrap(summary, width(WIDE), initial_indent=" " * INDENT,
                                       subsequent_indent=" " * INDENT)]  # fmt: skip
    for title, words in beside:
        lines += paragraph(title, words, wide)
    return lines


def _input_words(wanted: Input) -> str:
    left_out = "" if wanted.needed else " (may be left out)"
    kinds = {
        ROWS: f"rows of “{f'{BETWEEN} '.join(column.name for column in wanted.columns)}”",
        ANSWER: f"one of “{'”, “'.join(wanted.answers)}”",
        DATE: "a date such as 1984-05-01",
        YES_NO: "yes or no",
    }
    kind = kinds.get(wanted.quantity, wanted.quantity)
    named_so = kind == wanted.name.replace("_", " ")
    return f"{'' if named_so else f'{kind}: '}{wanted.meaning}{left_out}"


def _input_json(wanted: Input) -> dict[str, object]:
    found: dict[str, object] = {"quantity": wanted.quantity, "meaning": wanted.meaning}
    if not wanted.needed:
        found["needed"] = False
    if wanted.answers:
        found["answers"] = list(wanted.answers)
    if wanted.columns:
        found["columns"] = {column.name: column.quantity for column in wanted.columns}
    return found


def _units() -> list[str]:
    quantities = dict.fromkeys(unit.quantity for unit in UNITS.values())
    wide = max(map(len, quantities))
    return [
        line for quantity in quantities for line in paragraph(quantity, units_of(quantity), wide)
    ]
