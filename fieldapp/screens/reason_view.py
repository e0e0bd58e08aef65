"""What the screen for a reason shows: what it is asked for, and five common ones to touch."""

from dataclasses import dataclass

from fieldapp.actions.sign_off import label_of
from fieldapp.checklist.model import Waive
from fieldapp.job.job import Job
from fieldapp.screens.frame_view import FrameView

EXPLAIN, CORRECT, CONDITION, DOCUMENT, NOTE = "explain", "correct", "condition", "document", "note"
MISSING = "missing"
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
    DOCUMENT: (),
    NOTE: (),
}
_KEEP = {
    EXPLAIN: ("Keep the reason", "it stands in the record"),
    CORRECT: ("Correct it", "the old value stays readable"),
    CONDITION: ("Accept it", "the name and the time are kept"),
    DOCUMENT: ("Accept it", "the name and the time are kept"),
    MISSING: ("Leave it out", "it stands in the record"),
    NOTE: ("Keep it", "with the time"),
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


def reason_view(
    job: Job, purpose: str, subject: str, typed: str, frame: FrameView, person: str = ""
) -> ReasonView:
    """Return the question for a purpose."""
    first, second = _KEEP[purpose]
    if purpose == MISSING:
        second = _who_decides(job, subject)
    hint = "in your own words, or touch one below" if REASONS[purpose] else "touch here and type"
    title = _title(job, purpose, subject, person)
    return ReasonView(frame, title, hint, REASONS[purpose], typed, first, second)


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
        MISSING: f"{label}: why can it not be taken?",
        CONDITION: f"{label}: {person} accepts it on what condition?",
        DOCUMENT: f"{label}: number of the owner’s document?",
    }[purpose]
