"""Plants faults in a sound file and says on which line they stand."""

from pathlib import Path
from typing import NamedTuple

from fieldapp.checklist.problems import Problem
from fieldapp.checklist.reader import read_checklist
from fieldapp.engineering.catalogue import FORMULAS

VALID = (Path(__file__).parent / "valid.toml").read_text("utf-8")


class Fault(NamedTuple):
    """`old` becomes `new`; the problem stands on the line of `at`."""

    name: str
    old: str
    new: str
    at: str
    where: str
    what: str


def planted(text: str, fault: Fault) -> str:
    """Return `text` with the fault in it."""
    assert text.count(fault.old) == 1, f"{fault.name}: {text.count(fault.old)} places"
    return text.replace(fault.old, fault.new)


def line_of(text: str, part: str) -> int:
    """Return the one line on which `part` begins."""
    assert text.count(part) == 1, f"{part!r} stands {text.count(part)} times"
    return text[: text.index(part)].count("\n") + 1


def problems_in(text, catalogue=FORMULAS) -> tuple[Problem, ...]:
    """Return what is wrong with a checklist; something must be."""
    found = read_checklist(text, catalogue)
    assert isinstance(found, tuple), "nothing was found"
    return found
