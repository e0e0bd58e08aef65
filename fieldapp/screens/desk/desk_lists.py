"""The checklists of this tablet: which begin a job, which follow one, and what they ask."""

from functools import lru_cache

from fieldapp.actions.following import stands_alone
from fieldapp.checklist.model import Checklist
from fieldapp.checklist.reader import read_checklist
from fieldapp.engineering.catalogue import FORMULAS
from fieldapp.job.sheet_checks import owner_names
from fieldapp.screens.desk.desk_state import DeskState


@lru_cache(maxsize=32)
def checklist_of(text: str) -> Checklist:
    """Return the checklist of a text that came with the program."""
    found = read_checklist(text, FORMULAS)
    assert isinstance(found, Checklist), found  # noqa: S101 - tests hold the checklists sound
    return found


def asked_of_owner(state: DeskState) -> frozenset[str]:
    """Return what any list of this tablet asks the owner: one job sheet serves them all."""
    return frozenset().union(*(owner_names(checklist_of(t)) for t in state.checklists.values()))


def following(state: DeskState) -> tuple[Checklist, ...]:
    """Return the lists that follow a hookup."""
    return tuple(checklist_of(t) for n, t in state.checklists.items() if not stands_alone(n))


def standalone(state: DeskState) -> tuple[tuple[str, Checklist], ...]:
    """Return the lists that begin a job of their own; the first if none is known to."""
    found = {name: text for name, text in state.checklists.items() if stands_alone(name)}
    texts = found or dict(list(state.checklists.items())[:1])
    return tuple((name, checklist_of(text)) for name, text in texts.items())
