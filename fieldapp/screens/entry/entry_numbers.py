"""What the keypad side of an entry shows: a number, a shutdown's figures, or a time."""

from decimal import Decimal

from fieldapp.checklist.model import Entry, Kind, Limits, Measure
from fieldapp.job.job import Job
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.judgement.verdict import Range, judged, limit_sentence
from fieldapp.judgement.words import people_unit
from fieldapp.screens.body_view import Body, KeypadBody, RulerView
from fieldapp.screens.draft import Draft, number_in, range_for, verdict_of_draft
from fieldapp.screens.entry.entry_plates import evaluation_verdict, side_plates, verdict_view
from fieldapp.screens.entry.entry_times import time_body
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.units_view import in_own_unit
from fieldapp.units import is_unfinished, rounded, unit_named, written

SIGNED = {"temperature", "pressure above air"}


def number_body(
    job: Job, evaluation: Evaluation, entry: Entry, draft: Draft, part: str, unit: str = ""
) -> Body:  # fmt: skip
    """Return the keypad of a number, of one figure of a shutdown, or of a time.

    `unit` is the one it is typed in; limits and verdict stay in the entry's own.
    """
    if entry.kind is Kind.TIME:
        return time_body(job, evaluation, entry, draft)
    if entry.kind is Kind.ALARM:
        return _figure_of_shutdown(job, evaluation, entry, draft, part, unit)
    assert entry.measure is not None  # noqa: S101 - the reader saw to it
    typed = draft.fields.get("value", "")
    verdict = verdict_of_draft(entry, draft, job, evaluation.values)
    given = job.state.latest(entry.id)
    shown = typed or (given.fields.get("value", "") if given else "")
    unit = unit or entry.measure.unit
    if given and not typed:
        unit = given.fields.get("value_unit", unit)
    number = _number(shown, unit, entry.measure)
    kept = evaluation_verdict(evaluation, job, entry) if given and not typed else None
    return KeypadBody(
        limit=_limit_words(entry.measure, job, draft, evaluation, number if typed else None, unit),
        shown=shown,
        unit=people_unit(unit).strip(),
        typed=typed,
        signed=may_be_negative(entry.measure.unit),
        ruler=_ruler(entry.measure, job, draft, evaluation, number),
        verdict=verdict_view(verdict or kept, kept=bool(kept)),
        side=side_plates(verdict, given_before=given is not None),
    )


def may_be_negative(unit: str) -> bool:
    """Say whether a number in this unit may lie below nought."""
    return unit_named(unit).quantity in SIGNED


def _limit_words(
    measure: Measure, job: Job, draft: Draft, evaluation: Evaluation, number: Decimal | None,
    unit: str,
) -> str:  # fmt: skip
    used = job.sheet.instrument(draft.instrument) if draft.instrument else None
    limits, _ = range_for(measure, used, evaluation.values, number)
    return f"{_also(number, unit, measure)}{_short_beside(limits, measure, number, unit)}"


def _short_beside(limits: Range, measure: Measure, number: Decimal | None, unit: str) -> str:
    """Return the limit in words; beside what a number is in another unit, its first sentence."""
    sentence = limit_sentence(limits, measure)
    return f"{sentence.split('. ')[0].rstrip('.')}." if _also(number, unit, measure) else sentence


def _number(typed: str, unit: str, measure: Measure) -> Decimal | None:
    """Return the number typed, in the measure's own unit; None while it is not whole."""
    number = None if is_unfinished(typed) else number_in(typed)
    return None if number is None else in_own_unit(number, unit, measure)


def _also(number: Decimal | None, unit: str, measure: Measure) -> str:
    """Return what a number typed in another unit is in the entry's own."""
    if number is None or unit == measure.unit:
        return ""
    return f"That is {written(rounded(number, measure.decimals))}{people_unit(measure.unit)}. "


def _ruler(
    measure: Measure, job: Job, draft: Draft, evaluation: Evaluation, number: Decimal | None
) -> RulerView | None:  # fmt: skip
    used = job.sheet.instrument(draft.instrument) if draft.instrument else None
    limits, uncertainty = range_for(measure, used, evaluation.values, number)
    return ruler_of(limits, measure, number, uncertainty)


def ruler_of(
    limits: Range, measure: Measure, number: Decimal | None, uncertainty: Decimal
) -> RulerView | None:
    """Return the ruler for limits and a reading; None where there is no limit."""
    if limits.missing or (limits.low is None and limits.high is None):
        return None
    guard = limits.guard
    low, high = limits.low, limits.high
    return RulerView(
        lower=None if low is None else float(low),
        upper=None if high is None else float(high),
        guard=float(guard),
        reading=None if number is None else float(number),
        uncertainty=float(uncertainty),
        lower_text="" if low is None else written(low),
        upper_text="" if high is None else written(high),
        lower_guard_text=_guard(low, guard, measure, "up"),
        upper_guard_text=_guard(high, -guard, measure, "down"),
    )


def _guard(limit: Decimal | None, guard: Decimal, measure: Measure, towards: str) -> str:
    if limit is None or not guard:
        return ""
    return written(rounded(limit + guard, measure.decimals, towards))


def _figure_of_shutdown(
    job: Job, evaluation: Evaluation, entry: Entry, draft: Draft, part: str, unit: str
) -> KeypadBody:  # fmt: skip
    if part == "value":
        assert entry.measure is not None  # noqa: S101 - only then this part is asked for
        measure, asked = entry.measure, "Tripped at"
    else:
        measure = Measure("s", 1, Limits(high=entry.closed_within))
        asked = "Both valves closed after"
    typed = draft.fields.get(part, "")
    used = job.sheet.instrument(draft.instrument) if draft.instrument and part == "value" else None
    unit = unit if unit and part == "value" else measure.unit
    number = _number(typed, unit, measure)
    limits, uncertainty = range_for(measure, used, evaluation.values, number)
    verdict = judged(number, measure, limits, entry.waive) if number is not None else None
    next_plate = PlateView("next part", "Next", kind="main" if verdict else "waiting",
                           second="" if verdict else "type first")  # fmt: skip
    limit = f"{_also(number, unit, measure)}{_short_beside(limits, measure, number, unit)}"
    return KeypadBody(
        limit=f"{asked}: {_lowered(limit)}",
        shown=typed,
        unit=people_unit(unit).strip(),
        typed=typed,
        signed=may_be_negative(measure.unit),
        ruler=ruler_of(limits, measure, number, uncertainty),
        verdict=verdict_view(verdict),
        side=(PlateView("part before", "Back to the question"), next_plate),
    )


def _lowered(sentence: str) -> str:
    return sentence[:1].lower() + sentence[1:]
