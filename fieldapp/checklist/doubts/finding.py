"""Finds what is doubtful in a checklist that is sound."""

from collections.abc import Mapping

from fieldapp.checklist.doubts.conditions import doubt_conditions
from fieldapp.checklist.doubts.figures import doubt_figures
from fieldapp.checklist.doubts.names import doubt_names
from fieldapp.checklist.doubts.safety import doubt_safety
from fieldapp.checklist.doubts.steps import doubt_steps
from fieldapp.checklist.doubts.wording import doubt_wording
from fieldapp.checklist.problems import Problem
from fieldapp.checklist.reader import Sound, read_with_lines
from fieldapp.engineering.catalogue import FORMULAS, Formula


def doubts_in(
    content: str | bytes, catalogue: Mapping[str, Formula] = FORMULAS
) -> tuple[Problem, ...]:
    """Return what is doubtful in a checklist, by line; nothing of one that is not sound."""
    found = read_with_lines(content, catalogue)
    if not isinstance(found, Sound):
        return ()
    for doubt in (
        doubt_names,
        doubt_steps,
        doubt_conditions,
        doubt_figures,
        doubt_safety,
        doubt_wording,
    ):
        doubt(found.checklist, found.document.tables)
    return found.document.problems()
