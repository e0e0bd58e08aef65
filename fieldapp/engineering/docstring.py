"""What a formula or a rule says of itself: inputs by its signature, the rest by its docstring."""

import inspect
from collections.abc import Callable, Sequence
from dataclasses import dataclass, fields, is_dataclass
from datetime import date
from enum import Enum
from types import UnionType
from typing import Annotated, Union, get_args, get_origin, get_type_hints

ROWS, ANSWER, DATE, YES_NO, TEXT = "rows", "answer", "date", "yes or no", "text"


@dataclass(frozen=True, slots=True)
class Input:
    """One input: its name, the quantity it measures (see `fieldapp.units`) or its kind, and what.

    Of an answer there are the words to choose from, of rows the columns; `make` makes a value of
    an answer's word, or of a row's values by name.
    """

    name: str
    quantity: str
    meaning: str
    needed: bool = True
    answers: tuple[str, ...] = ()
    columns: tuple["Input", ...] = ()
    make: Callable[..., object] = float


def section(text: str, title: str) -> str:
    """Return the words under a section title of a docstring, on one line."""
    lines = text.splitlines()
    words = []
    for line in lines[lines.index(title) + 2 :]:
        if not line.strip():
            break
        words.append(line.strip())
    return " ".join(words)


def remark(text: str) -> str:
    r"""Return the words between the first line of a docstring and its parameters, on one line.

    >>> remark("Return it.\n\nFor planning.\n\nParameters\n----------")
    'For planning.'
    """
    lines = text.splitlines()
    return " ".join(line.strip() for line in lines[1 : lines.index("Parameters")] if line.strip())


def meanings(text: str) -> dict[str, str]:
    """Return what a docstring says of each parameter; a meaning may go on over indented lines."""
    lines = text.splitlines()
    start = lines.index("Parameters") + 2
    found: dict[str, str] = {}
    name = ""
    for line in lines[start : lines.index("Returns")]:
        if line[:1].strip() and " : " in line:
            name, _, words = line.partition(" : ")
            found[name] = words.strip()
        elif line.strip():
            found[name] += f" {line.strip()}"
    return found


def inputs_of(calculate: Callable[..., object]) -> tuple[Input, ...]:
    """Return the inputs of a function, in the order of its signature."""
    said = meanings(inspect.cleandoc(calculate.__doc__ or ""))
    needed = {
        name: parameter.default is parameter.empty
        for name, parameter in inspect.signature(calculate).parameters.items()
    }
    hints = get_type_hints(calculate, include_extras=True)
    hints.pop("return")
    return tuple(_input(name, hint, said[name], needed[name]) for name, hint in hints.items())


def _input(name: str, hint: object, meaning: str, needed: bool) -> Input:  # noqa: FBT001
    if get_origin(hint) in (Union, UnionType):
        hint = get_args(hint)[0]
    if get_origin(hint) is Annotated:
        return Input(name, get_args(hint)[1], meaning, needed)
    if get_origin(hint) is Sequence:
        return _rows(name, get_args(hint)[0], meaning, needed)
    assert isinstance(hint, type)  # noqa: S101 - nothing else stands in a signature
    if issubclass(hint, Enum):
        answers = tuple(answer.value for answer in hint)
        return Input(name, ANSWER, meaning, needed, answers, make=hint)
    kinds = {date: DATE, bool: YES_NO, str: TEXT}
    return Input(name, kinds[hint], meaning, needed, make=hint)


def _rows(name: str, row: object, meaning: str, needed: bool) -> Input:  # noqa: FBT001
    assert isinstance(row, type)  # noqa: S101 - rows are records
    assert is_dataclass(row)  # noqa: S101
    hints = get_type_hints(row, include_extras=True)
    columns = tuple(_input(field.name, hints[field.name], "", True) for field in fields(row))  # noqa: FBT003
    return Input(name, ROWS, meaning, needed, columns=columns, make=row)
