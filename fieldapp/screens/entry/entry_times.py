"""Typing a time with digits: 1830 is 18:30 of the day shown, 20260616 is a day."""

from datetime import datetime, timedelta

from fieldapp.checklist.model import Entry
from fieldapp.job.job import Job
from fieldapp.job.moments import span
from fieldapp.judgement.evaluation import Evaluation
from fieldapp.screens.body_view import KeypadBody, VerdictView
from fieldapp.screens.draft import Draft, verdict_of_draft
from fieldapp.screens.entry.entry_plates import side_plates, verdict_view
from fieldapp.screens.frame_view import PlateView

_CLOCK, _DAY = 4, 8


def written_time(digits: str, days: int, now: datetime) -> str:
    """Return the time as the journal keeps it; what is not whole yet stays as it is.

    >>> written_time("1830", 1, datetime.fromisoformat("2026-06-16T08:00+02:00"))
    '2026-06-17 18:30'
    """
    if len(digits) == _CLOCK and digits.isdecimal():
        clock = f"{digits[:2]}:{digits[2:]}"
        return clock if days == 0 else f"{now + timedelta(days=days):%Y-%m-%d} {clock}"
    if len(digits) == _DAY and digits.isdecimal():
        return f"{digits[:4]}-{digits[4:6]}-{digits[6:]}"
    return digits


def shown_time(digits: str) -> str:
    """Return the digits as they stand on the screen."""
    if len(digits) <= _CLOCK:
        return digits if len(digits) <= 2 else f"{digits[:2]}:{digits[2:]}"  # noqa: PLR2004
    return "-".join(part for part in (digits[:4], digits[4:6], digits[6:]) if part)


def time_body(job: Job, evaluation: Evaluation, entry: Entry, draft: Draft) -> KeypadBody:
    """Return the keypad for a time."""
    digits, days = draft.fields.get("digits", ""), int(draft.fields.get("days", "0"))
    verdict = verdict_of_draft(entry, draft, job, evaluation.values)
    given = job.state.latest(entry.id)
    kept = given.fields["value"] if given else ""
    side = side_plates(verdict, given_before=given is not None)
    day = f"{draft.at + timedelta(days=days):%a} {(draft.at + timedelta(days=days)).day}"
    word = {0: "today", 1: "tomorrow", -1: "yesterday"}.get(days, day)
    return KeypadBody(
        limit=f"{_limits(entry)}Type 1830 for 18:30, 20260616 for a day.",
        shown=shown_time(digits) or kept,
        unit=word if len(digits) <= _CLOCK and digits else "",
        typed=digits,
        whole=True,
        verdict=verdict_view(verdict) if verdict else VerdictView(),
        side=(PlateView("day", "next day" if days == 0 else word, "change the day"), *side[1:]),
    )


def _limits(entry: Entry) -> str:
    parts = []
    if entry.ahead_low is not None:
        parts.append(f"At least {span(entry.ahead_low)} ahead.")
    if entry.ahead_high is not None:
        parts.append(f"At most {span(entry.ahead_high)} ahead.")
    if entry.age_high is not None:
        parts.append(f"At most {span(entry.age_high)} old.")
    return "".join(f"{part} " for part in parts)
