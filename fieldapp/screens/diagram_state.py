"""The line diagram of a job now: what the steps done, the valves closed and the trips say."""

from collections.abc import Iterator

from fieldapp.checklist.facts import VOLUMES
from fieldapp.checklist.model import Kind
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.judgement.verdict import Place
from fieldapp.screens.kit.diagram.diagram_view import PARTS, STATES, TRIPS, Diagram, PartState

# The drawing's words where they differ from the checklist's.
_DRAWN = {
    ("vacuum_pump", "gone"): "absent",
    ("bond", "on"): "made",
    ("bond", "off"): "absent",
}
_HOSES = ("suction_hose", "return_hose")
_TAGS = {"suction_tank_valve": "suction_valve_tag", "return_tank_valve": "return_valve_tag"}
_TRIP_OF_PLACE = {
    Place.NOT_NEEDED: "not fitted",
    Place.INSIDE: "proven",
    Place.OUTSIDE: "failed",
    Place.TOO_NEAR: "failed",
}


def diagram_of(job: Job, evaluation: Evaluation, part: str = "", flag: str = "here") -> Diagram:
    """Return the line diagram; `part` is the one that the present step is about."""
    known = dict(evaluation.plant)
    if any(s.done for s in evaluation.steps.values() if s.step.part == "control_room"):
        known["control_room"] = "told"
    volumes = tuple((name, known[name]) for name in VOLUMES if name in known)
    parts = tuple(_parts(job, known))
    return Diagram(
        unit=job.sheet.text_of("unit") or "",
        parts=parts,
        volumes=volumes,
        trips=tuple(_trips(job, evaluation)),
        here=part if part in PARTS else None,
        flag=flag if part in PARTS else "",
        isolation_at="skid" if job.sheet.yes_no("isolation_at_skid") else "tank",
    )


def _parts(job: Job, known: dict[str, str]) -> Iterator[PartState]:
    for part in PARTS:
        tag = job.sheet.text_of(_TAGS.get(part, "")) or ""
        state = known.get(part, "")
        if part in _HOSES:
            state = "fitted" if part in known else "absent"
        elif part in VOLUMES:
            state = "fitted"
        state = _DRAWN.get((part, state), state)
        if state in STATES[part]:
            yield PartState(part, state, tag)
        elif tag:
            yield PartState(part, STATES[part][0], tag)


def _trips(job: Job, evaluation: Evaluation) -> Iterator[tuple[str, str]]:
    for step in job.checklist.steps():
        for entry in step.entries:
            if entry.kind is Kind.ALARM and entry.trip in TRIPS:
                verdict = evaluation.steps[step.id].verdicts[entry.id]
                yield entry.trip, _TRIP_OF_PLACE.get(verdict.place, "unproven")
