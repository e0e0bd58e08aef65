"""Doubts about steps: what holds nothing back, and what runs out for nothing."""

from fieldapp.checklist.model import Checklist, Kind, Step
from fieldapp.checklist.reading.names import Tables, steps

ROLES = ("technician", "crew lead")


def doubt_steps(checklist: Checklist, tables: Tables) -> None:
    """Note steps that nothing needs, times that end nothing, and signatures that are missing."""
    needed = {name for step in checklist.steps() for name in step.needs}
    for step, table in steps(checklist, tables):
        if step.id not in needed and not _signs(step):
            what = "no step needs this one: it holds back nothing but the signatures"
            table.fault(what, "id")
        if step.id not in needed and not step.until and _ends(step):
            key = "lasts" if step.lasts is not None else "id"
            table.fault("its time never matters: no step needs it, and no until stands here", key)
    signed = {entry.role for step in checklist.steps() for entry in step.entries}
    for role in ROLES:
        if role not in signed:
            what = f"nobody signs as {role}: end with an entry of kind “sign”"
            tables["phase", len(checklist.phases) - 1].fault(what, "id")


def _signs(step: Step) -> bool:
    return any(entry.kind is Kind.SIGN for entry in step.entries)


def _ends(step: Step) -> bool:
    return step.lasts is not None or any(entry.expires for entry in step.entries)
