"""Collects every message that the checker can give, from its code; “…” stands for what varies."""

import ast
import re
from pathlib import Path

import fieldapp.checklist as package
from fieldapp import units
from fieldapp.checklist import problems
from fieldapp.judgement import deciding

FOLDER = Path(package.__file__).parent
GAP = "…"
PLACES = {"fault": 0, "fault_name": 1, "note": 2, "Problem": 2, "NotANumberError": 0}
"""What notes a problem, and which of its arguments says what is wrong."""


def messages():
    """Return every message, each with the file that gives it."""
    of_toml = (*problems._SEEN, *problems._SAID)  # noqa: SLF001 - the words of TOML
    found = {said: "problems.py" for _, said in of_toml}
    for path in (*sorted(FOLDER.rglob("*.py")), Path(deciding.__file__), Path(units.__file__)):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        constants = _assigned(tree.body)
        for function in ast.walk(tree):
            if isinstance(function, ast.FunctionDef):
                for said in _messages_of(function, constants):
                    found.setdefault(said, path.name)
    return {said: name for said, name in found.items() if re.search(r"[a-z]{2}", said)}


def _messages_of(function, constants):
    names = {**constants, **_assigned(ast.walk(function))}
    for node in ast.walk(function):
        if isinstance(node, ast.Call):
            called = node.func
            name = called.attr if isinstance(called, ast.Attribute) else getattr(called, "id", "")
            place = PLACES.get(name)
            if place is not None and len(node.args) > place:
                yield from _said(node.args[place], names)
        if (
            isinstance(node, ast.Return)
            and function.name in ("unreadable", "_fault")
            and node.value
        ):
            yield from _said(node.value, names)


def _assigned(body):
    """Return what each name is assigned, every assignment of it."""
    found: dict[str, list[ast.expr]] = {}
    for node in body:
        if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
            found.setdefault(node.targets[0].id, []).append(node.value)
        if isinstance(node, ast.For) and isinstance(node.iter, ast.Tuple):
            for name, values in _told_in_turn(node):
                found.setdefault(name, []).extend(values)
    return found


def _told_in_turn(loop):
    """Return the names of a loop over a table written out, each with its column."""
    targets = loop.target.elts if isinstance(loop.target, ast.Tuple) else [loop.target]
    rows = [row.elts if isinstance(row, ast.Tuple) else [row] for row in loop.iter.elts]
    for place, target in enumerate(targets):
        if isinstance(target, ast.Name):
            yield target.id, [row[place] for row in rows]


def _said(node, names):
    """Return the words of an expression, once for each that a name in it may stand for."""
    match node:
        case ast.Constant(value=str(text)):
            return [text]
        case ast.Name(id=name) if name in names:
            return _named(name, names)
        case ast.JoinedStr(values=parts):
            return _joined([_said(part, names) for part in parts])
        case ast.FormattedValue(value=ast.Name(id=name)) if name in names:
            return [said for said in _named(name, names) if " " in said] or [GAP]
        case ast.IfExp() | ast.BoolOp():
            parts = node.values if isinstance(node, ast.BoolOp) else [node.body, node.orelse]
            return [said for part in parts for said in _said(part, names)]
        case _:
            return [GAP]


def _named(name, names):
    others = {key: value for key, value in names.items() if key != name}
    return [said for value in names[name] for said in _said(value, others)] or [GAP]


def _joined(parts):
    whole = [""]
    for part in parts:
        whole = [before + after for before in whole for after in part]
    return [re.sub(rf"{GAP}+", GAP, said) for said in whole]
