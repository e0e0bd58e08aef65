"""What the line diagram shows: where each part stands by the steps done and the valves closed."""

from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.record.chapters.places import quantity_of, vacuum_of
from fieldapp.record.chapters.shapes.shapes_of_sources import Diagram
from fieldapp.record.chapters.words import in_unit_text, unit_sign


def parts_of(evaluation: Evaluation) -> dict[str, str]:
    """Return the state of each part that is known, as judged: the record judges nothing anew."""
    return dict(evaluation.plant)


def diagram_of(job: Job, evaluation: Evaluation, parts: dict[str, str]) -> Diagram | None:
    """Return all that the drawing needs; None where the checklist moves no part of the skid."""
    if not job.checklist.moves_a_skid:
        return None
    vacuum = vacuum_of(job.checklist)
    return Diagram(
        parts=tuple(sorted(parts.items())),
        isolation=job.sheet.text_of("isolation_at") or "",
        suction_tag=job.sheet.text_of("suction_valve_tag") or "",
        return_tag=job.sheet.text_of("return_valve_tag") or "",
        unit=job.sheet.text_of("unit") or "",
        loop=_shown(vacuum.volume if vacuum else "", "L", 0, evaluation),
        bond=_latest(job, evaluation, "resistance"),
        level=_latest(job, evaluation, "share"),
    )


def _shown(name: str, unit: str, decimals: int, evaluation: Evaluation) -> str:
    value = evaluation.values.numbers.get(name)
    return f"{in_unit_text(value, unit, decimals)} {unit_sign(unit)}" if value else ""


def _latest(job: Job, evaluation: Evaluation, quantity: str) -> str:
    """Return the first bond resistance, or the last oil level, that was read with an instrument."""
    read = [
        (given[-1].since, entry)
        for step in job.checklist.steps()
        for entry in step.entries
        if entry.measure and quantity_of(entry.measure.unit) == quantity
        and entry.measure.instrument and (given := job.state.given.get(entry.id))
        and (quantity != "share" or "level" in entry.id)
    ]  # fmt: skip
    if not read:
        return ""
    pick = min if quantity == "resistance" else max
    _, entry = pick(read, key=lambda one: one[0])
    assert entry.measure is not None  # noqa: S101 - chosen by it
    return _shown(entry.id, entry.measure.unit, entry.measure.decimals, evaluation)
