"""Doubts about what can hurt: tank valves, vacuum, air, and proofs that may be left out."""

from fieldapp.checklist.model import Checklist, Kind, Step
from fieldapp.checklist.reading.names import Tables, steps

TANK_VALVES = ("suction_tank_valve", "return_tank_valve")
PULLED = {("vacuum_pump", "runs"), ("vacuum_valve", "open")}


def doubt_safety(checklist: Checklist, tables: Tables) -> None:
    """Note steps that open a tank valve, pull vacuum or let air in without what must be so."""
    vacuum = False
    for step, table in steps(checklist, tables):
        if vacuum and _opens(step) and ("vacuum_pump", "gone") not in step.requires:
            what = "opens a tank valve after vacuum was pulled: requires = { vacuum_pump = “gone” }"
            table.fault(what, "sets")
        if ("vacuum_valve", "open") in step.sets and not _both_shut(step):
            table.fault(f"pulls vacuum without both tank valves shut: {_SHUT}", "sets")
        for number, entry in enumerate(step.entries):
            below = table.below("entry", number)
            if entry.trip == "air" and not _both_shut(step):
                below.fault(f"lets air in without both tank valves shut: {_SHUT}", "trip")
            if entry.kind is Kind.ALARM and entry.optional:
                below.fault("the proof of a shutdown may be left out here: take optional out",
                            "optional")  # fmt: skip
            if entry.kind is Kind.ALARM and not step.undone_by:
                below.fault(_NOT_PUT_RIGHT, "kind")
        vacuum = vacuum or bool(PULLED & set(step.sets))


_NOT_PUT_RIGHT = (
    "failed, it could be proved again with nothing put right: say in undone_by what is reported"
)
_SHUT = "add both to requires as “closed”"


def _opens(step: Step) -> bool:
    return any((valve, "open") in step.sets for valve in TANK_VALVES)


def _both_shut(step: Step) -> bool:
    return all((valve, "closed") in step.requires for valve in TANK_VALVES)
