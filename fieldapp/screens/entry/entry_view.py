"""What the screen of one entry shows: the task, its caution, the limits, and the verdict typed."""

from dataclasses import dataclass

from fieldapp.checklist.model import Entry, Kind, Step
from fieldapp.job.events import Fields
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.judgement.subjects import verdict_if
from fieldapp.judgement.words import people_unit, said
from fieldapp.screens.body_view import AskingView, AttemptView, Body, InstrumentView
from fieldapp.screens.draft import Draft, verdict_of_draft
from fieldapp.screens.entry.entry_answers import answer_body
from fieldapp.screens.entry.entry_numbers import may_be_negative, number_body
from fieldapp.screens.entry.entry_words import words_body
from fieldapp.screens.frame_view import FrameView, PlateView
from fieldapp.screens.instruments_view import instrument_view, others_for
from fieldapp.screens.kit.diagram.diagram_view import Diagram
from fieldapp.screens.marks import mark_of

_MOST_EARLIER = 3
_WORDS = (Kind.TEXT, Kind.SERIAL)


@dataclass(frozen=True, slots=True)
class EntryView:
    """One entry: its frame, the left block, the right block, and the small line diagram."""

    frame: FrameView
    asking: AskingView
    body: Body
    diagram: Diagram | None = None


def entry_view(
    job: Job,
    evaluation: Evaluation,
    entry: Entry,
    draft: Draft,
    part: str,
    frame: FrameView,
    diagram: Diagram | None = None,
    *,
    start: int = 0,
    unit: str = "",
    body: Body | None = None,
) -> EntryView:
    """Return what is shown of an entry; `part` is the field of a shutdown that is asked for.

    `body` is what is asked where the job alone does not tell it: the pictures on the tablet.
    """
    step = job.checklist.step_of(entry.id)
    return EntryView(
        frame=frame,
        asking=_asking(job, evaluation, step, entry, draft),
        body=body or body_of(job, evaluation, entry, draft, part, start, unit),
        diagram=diagram if step.part else None,
    )


def correction_plate(
    job: Job, evaluation: Evaluation, entry: Entry, draft: Draft
) -> PlateView | None:  # fmt: skip
    """Return the plate for which the fifth column has no room: a slip, or what cannot be taken."""
    verdict = verdict_of_draft(entry, draft, job, evaluation.values)
    signed = entry.kind is Kind.NUMBER and _signed(entry)
    if job.state.latest(entry.id) is None or verdict is None:
        crowded = signed and verdict is not None and not verdict.place.good
        return PlateView("missing", "Cannot measure", "say why") if crowded else None
    if entry.kind is Kind.TIME or (signed and not verdict.place.good):
        return PlateView("correct", "It was a slip", "correct it")
    return None


def _signed(entry: Entry) -> bool:
    return entry.measure is not None and may_be_negative(entry.measure.unit)


def body_of(
    job: Job,
    evaluation: Evaluation,
    entry: Entry,
    draft: Draft,
    part: str,
    start: int = 0,
    unit: str = "",
) -> Body:
    """Return what is asked on the right."""
    if entry.kind in _WORDS:
        return words_body(job, evaluation, entry, draft)
    if entry.kind in (Kind.NUMBER, Kind.TIME) or part in ("value", "closed_after"):
        return number_body(job, evaluation, entry, draft, part, unit)
    return answer_body(job, evaluation, entry, draft, part, start)


def _asking(
    job: Job, evaluation: Evaluation, step: Step, entry: Entry, draft: Draft
) -> AskingView:  # fmt: skip
    caution = step.caution
    at = step.entries.index(entry) + 1
    count = f"{at} of {len(step.entries)}: " if len(step.entries) > 1 else ""
    return AskingView(
        heading=f"{count}{step.title}" if step.title != entry.label else "",
        task=entry.label,
        text=step.text,
        signal_word=caution.word if caution else "",
        caution=caution.text if caution else "",
        instrument=_instrument(job, entry, draft),
        earlier=earlier_attempts(job, evaluation, entry),
        basis=f"Limit: {entry.basis}" if entry.basis else "",
    )


def _instrument(job: Job, entry: Entry, draft: Draft) -> InstrumentView | None:
    used = job.sheet.instrument(draft.instrument) if draft.instrument else None
    others = len(others_for(job, entry.measure)) > 1
    return instrument_view(used, draft.at, others=others) if used else None


def earlier_attempts(
    job: Job, evaluation: Evaluation, entry: Entry
) -> tuple[AttemptView, ...]:  # fmt: skip
    """Return what was given here before, oldest first; a correction says what it corrected."""
    found = []
    for given in job.state.given.get(entry.id, ()):
        verdict = verdict_if(entry, given, job, evaluation.values)
        words = _given_words(entry, given.fields)
        corrected = f" Corrected: “{given.reason}”." if given.corrects >= 0 else ""
        line = f"{given.at:%H:%M} {words}{verdict.sentence}{corrected}"
        found.append(AttemptView(mark_of(verdict), line))
    return tuple(found[-_MOST_EARLIER:])


def _given_words(entry: Entry, fields: Fields) -> str:
    words = said(fields)
    if entry.kind in (Kind.CONFIRM, Kind.ALARM) or not words:
        return ""
    unit = people_unit(fields.get("value_unit", "")) if fields.get("value_unit") else ""
    return f"{words}{unit}. "
