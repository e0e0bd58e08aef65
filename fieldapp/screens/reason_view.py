"""What the screen for a reason shows: what it is asked for, and five common ones to touch."""

from dataclasses import dataclass
from datetime import date, timedelta

from fieldapp.actions.sign_off import label_of
from fieldapp.checklist.model import Waive
from fieldapp.job.job import Job
from fieldapp.screens.frame_view import FrameView

EXPLAIN, CORRECT, CONDITION, DOCUMENT, NOTE = "explain", "correct", "condition", "document", "note"
MISSING = "missing"
PERSON, DUE = "person", "due"
_DAYS = {0: "today", 1: "tomorrow", 7: "in a week", 30: "in a month", 90: "in three months"}
REASONS = {
    EXPLAIN: (
        "measured twice, the same both times",
        "no finer instrument on site",
        "weather, cannot wait for better",
        "the owner’s engineer was asked",
        "will be put right before start",
    ),
    CORRECT: (
        "digits turned round",
        "read the wrong scale",
        "wrong line on the plate",
        "wrong unit",
        "touched the wrong plate",
    ),
    CONDITION: (
        "measured again before start",
        "watched by a person until then",
        "put right at the next visit",
        "only for today’s work",
        "with the skid off first",
    ),
    MISSING: (
        "the instrument is broken",
        "the instrument is not on site",
        "the place cannot be reached",
        "it is not safe to go there now",
        "this unit has no such point",
    ),
    PERSON: (),
    DUE: (),
    DOCUMENT: (),
    NOTE: (),
}
_KEEP = {
    EXPLAIN: ("Keep the reason", "it stands in the record"),
    CORRECT: ("Correct it", "the old value stays readable"),
    CONDITION: ("Accept it", "the name and the time are kept"),
    DOCUMENT: ("Accept it", "the name and the time are kept"),
    MISSING: ("Leave it out", "it stands in the record"),
    PERSON: ("Next", "then: by which day"),
    DUE: ("Leave it open", "with the name and the day"),
    NOTE: ("Keep it", "with the time"),
}


_NEEDS = {
    PERSON: "needs a name",
    DUE: "needs a day",
    CONDITION: "needs a condition",
    DOCUMENT: "needs a number",
    NOTE: "needs a word",
}


@dataclass(frozen=True, slots=True)
class ReasonView:
    """What a text is asked for, what stands typed, and what to take instead."""

    frame: FrameView
    title: str
    hint: str
    reasons: tuple[str, ...]
    typed: str
    keep_first: str
    keep_second: str
    waits_for: str = "needs a reason"


def reason_view(
    job: Job, purpose: str, subject: str, typed: str, frame: FrameView, person: str,
    today: date,
) -> ReasonView:  # fmt: skip
    """Return the question for a purpose."""
    first, second = _KEEP[purpose]
    if purpose == MISSING:
        second = _who_decides(job, subject)
    reasons = _reasons(job, purpose, today)
    hint = "in your own words, or touch one below" if reasons else "touch here and type"
    if purpose == DUE:
        hint = "a day such as 2026-06-30, or touch one below"
    title = _title(job, purpose, subject, person)
    waits = _NEEDS.get(purpose, "needs a reason")
    return ReasonView(frame, title, hint, reasons, typed, first, second, waits)


def _reasons(job: Job, purpose: str, today: date) -> tuple[str, ...]:
    """Return what can be taken instead of typing: never more than five."""
    if purpose == PERSON:
        return tuple(person.name for person in job.sheet.crew)[:5]
    if purpose == DUE:
        return tuple(f"{today + timedelta(days=days)}, {words}" for days, words in _DAYS.items())
    return REASONS[purpose]


def day_in(text: str) -> str:
    """Return the day in what was typed or taken.

    >>> day_in("2026-06-30, in a week")
    '2026-06-30'
    """
    return text.partition(",")[0].strip()


def _who_decides(job: Job, entry: str) -> str:
    waive = job.checklist.entry(entry).waive
    if waive is Waive.NEVER:
        return "the job stops until it is taken"
    decides = {Waive.REASON: "the crew lead sees it", Waive.LEAD: "the crew lead decides"}
    return decides.get(waive, "the owner’s engineer decides")


def _title(job: Job, purpose: str, subject: str, person: str) -> str:
    if purpose == NOTE:
        return "What is to be added?"
    label = label_of(job, subject)
    return {
        EXPLAIN: f"{label}: why is it kept?",
        CORRECT: f"{label}: what was wrong?",
        PERSON: f"{label}: who puts it right?",
        DUE: f"{label}: by which day?",
        MISSING: f"{label}: why can it not be taken?",
        CONDITION: f"{label}: {person} accepts it on what condition?",
        DOCUMENT: f"{label}: number of the owner’s document?",
    }[purpose]
