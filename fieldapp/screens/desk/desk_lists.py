"""The checklists of this tablet: which begin a job, which follow one, and what they ask."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from fieldapp.checklist.model import Checklist, Follows
from fieldapp.checklist.reader import read_checklist
from fieldapp.engineering.catalogue import FORMULAS
from fieldapp.job.sheet_checks import owner_names
from fieldapp.screens.desk.state.desk_state import DeskState

FOLDER = "checklists"


@dataclass(frozen=True, slots=True)
class OwnLists:
    """An owner's lists: the texts of the sound ones by id, and what is wrong with the others."""

    texts: Mapping[str, str]
    faulty: Mapping[str, str]


@lru_cache(maxsize=32)
def checklist_of(text: str) -> Checklist:
    """Return the checklist of a text that is known to be sound."""
    found = read_checklist(text, FORMULAS)
    assert isinstance(found, Checklist), found  # noqa: S101 - looked at before it is offered
    return found


def own_lists(home: Path) -> OwnLists:
    """Return the lists in the home's folder of checklists; one of a shipped id replaces that."""
    texts, faulty = {}, {}
    for path in sorted((home / FOLDER).glob("*/checklist.toml")):
        name = path.parent.name
        try:
            content = path.read_bytes()
        except OSError as failure:
            faulty[name] = f"cannot be read: {(failure.strerror or 'copy it again').lower()}"
            continue
        found = read_checklist(content, FORMULAS)
        if isinstance(found, Checklist):
            texts[found.id] = content.decode("utf-8-sig")
        else:
            more = f" (and {len(found) - 1} more)" if len(found) > 1 else ""
            faulty[name] = f"line {found[0].line}: {found[0].where}: {found[0].what}{more}"
    return OwnLists(texts, faulty)


def asked_of_owner(state: DeskState) -> frozenset[str]:
    """Return what any list of this tablet asks the owner: one job sheet serves them all."""
    return frozenset().union(*(owner_names(checklist_of(t)) for t in state.checklists.values()))


def following(state: DeskState) -> tuple[Checklist, ...]:
    """Return the lists that follow a hookup."""
    found = map(checklist_of, state.checklists.values())
    return tuple(one for one in found if one.follows is not Follows.NOTHING)


def standalone(state: DeskState) -> tuple[tuple[str, Checklist], ...]:
    """Return the lists that begin a job of their own; the first if there is none."""
    found = tuple((name, checklist_of(text)) for name, text in state.checklists.items())
    alone = tuple(each for each in found if each[1].follows is Follows.NOTHING)
    return alone or found[:1]
