"""A job sheet as text and as typed fields: one from the other, and where its problems lie."""

import re
import tomllib
from collections.abc import Mapping, Sequence
from datetime import date

from fieldapp.checklist.facts import REQUIRED_SHUTDOWNS, SHUTDOWNS
from fieldapp.checklist.model import Checklist
from fieldapp.checklist.problems import Problem
from fieldapp.job.sheet_facts import SECTIONS, key_of
from fieldapp.job.sheet_writer import write_sheet
from fieldapp.screens.sheet.sheet_fields import (
    CREW,
    INSTRUMENT,
    OWNER,
    SHUTDOWN,
    Section,
    instruments_needed,
)

# As in a file: one that is not named is not fitted; of the required ones each must be said.
_NOT_FITTED = {f"{n}_fitted": "no" for n in SHUTDOWNS if n not in REQUIRED_SHUTDOWNS}
_HEADER = re.compile(r"\[+([a-z_.]+)\]+")


def text_of(typed: Mapping[str, str], checklist: Checklist) -> str:
    """Return the job sheet that was typed."""
    units = instruments_needed(checklist)
    instruments = [
        {"id": name, **group, "unit": group.get("unit", units.get(name, ""))}
        for name, group in _groups(typed, INSTRUMENT).items()
    ]
    crew = [group for _, group in sorted(_groups(typed, CREW).items(), key=lambda g: int(g[0]))]
    owner = {
        constant.id: _with_unit(typed.get(f"{OWNER} {constant.id}", ""), constant.unit)
        for constant in checklist.constants
    }
    owner |= {q.id: typed.get(f"{OWNER} {q.id}", "") for q in checklist.questions}
    stated = {**_NOT_FITTED, **{name: words for name, words in typed.items() if words}}
    return write_sheet(stated, instruments, crew, {k: v for k, v in owner.items() if v})


def typed_from(text: str) -> dict[str, str]:
    """Return the typed fields of a job sheet's text; of one that is no TOML, none."""
    try:
        document = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return {}
    typed: dict[str, str] = {}
    for section, members in SECTIONS.items():
        stated = document.get(section, {})
        typed |= {fact.id: _words(stated.get(key_of(fact), "")) for fact in members}
    for name in SHUTDOWNS:
        stated = document.get(SHUTDOWN, {}).get(name, {})
        typed |= {f"{name}_{key}": _words(value) for key, value in stated.items()}
    for person, at in zip(document.get(CREW, []), range(99), strict=False):
        typed |= {f"{CREW} {at} {key}": _words(value) for key, value in person.items()}
    for stated in document.get(INSTRUMENT, []):
        name = stated.get("id", "")
        typed |= {f"{INSTRUMENT} {name} {key}": _words(value)
                  for key, value in stated.items() if key != "id"}  # fmt: skip
    typed |= {f"{OWNER} {key}": _words(value) for key, value in document.get(OWNER, {}).items()}
    return {name: words for name, words in typed.items() if words}


def problems_in(
    section: Section, problems: Sequence[Problem], text: str, names: Sequence[str]
) -> dict[str, str]:
    """Return what is wrong in a section, by the key it is about; "" is the section itself.

    `names` are the instruments in the order of the text.
    """
    found: dict[str, str] = {}
    for problem in problems:
        table, key = _place_of(problem, text)
        if _same(table, section, names):
            known = {field.key for field in section.fields}
            found.setdefault(key if key in known else "", problem.what)
    return found


def instrument_names(text: str) -> tuple[str, ...]:
    """Return the instruments' ids in the order of the text."""
    try:
        stated = tomllib.loads(text).get(INSTRUMENT, [])
    except tomllib.TOMLDecodeError:
        return ()
    return tuple(str(one.get("id", "")) for one in stated)


def _same(table: tuple[str, int], section: Section, names: Sequence[str]) -> bool:
    if table[0] == INSTRUMENT and section.table[0] == INSTRUMENT:
        at = table[1]
        return at < len(names) and section.id == f"{INSTRUMENT} {names[at]}"
    if section.table[0] == SHUTDOWN:
        return table[0].split(".")[0] == SHUTDOWN
    return table == section.table


def _place_of(problem: Problem, text: str) -> tuple[tuple[str, int], str]:
    """Return the table of the file that a problem lies in, and the key it is about."""
    lines = text.splitlines()[: problem.line]
    headers = [m.group(1) for line in lines if (m := _HEADER.match(line))]
    if not headers:
        return ("", 0), ""
    name = headers[-1]
    at = headers.count(name) - 1 if name in (CREW, INSTRUMENT) else 0
    here = lines[-1].partition("=")[0].strip() if "=" in lines[-1] else ""
    return (name, at), here or problem.what.split(" ", 1)[0]


def _groups(typed: Mapping[str, str], kind: str) -> dict[str, dict[str, str]]:
    groups: dict[str, dict[str, str]] = {}
    for name, text in typed.items():
        parts = name.split(" ", 2)
        if parts[0] == kind and len(parts) == 3 and text:  # noqa: PLR2004 - kind, which, key
            groups.setdefault(parts[1], {})[parts[2]] = text
    return groups


def _with_unit(text: str, unit: str) -> str:
    return text if not text or " " in text.strip() else f"{text.strip()} {unit}"


def _words(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, date):
        return value.isoformat()
    return str(value)
