"""What the field for a note on a timed attempt shows: what is asked, and what to take instead."""

from dataclasses import dataclass

from fieldapp.checklist.model import Entry, Kind
from fieldapp.screens.reason_view import CORRECT, REASONS

_FOUND = {
    Kind.TRACE: ("nothing unusual", "levels out", "a leak was heard", "stopped for the weather",
                 "stopped to make safe"),
    Kind.HOLD: ("nothing unusual", "a joint was touched", "stopped for the weather",
                "read too late", "stopped to make safe"),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class NoteView:
    """A note: its question, texts to take, and the plate that keeps it as `name`, `details`."""

    name: str
    details: tuple[object, ...]
    title: str
    hint: str
    reasons: tuple[str, ...]
    keep_first: str
    keep_second: str
    needs: str = "needs a reason"


def end_note(entry: Entry) -> NoteView:
    """Return the question at the end of an attempt."""
    return NoteView(
        "end", (), f"{entry.label} ends: what was found?", "touch one below, or type here",
        _FOUND[entry.kind], "End it", "the note stands in the record",
    )  # fmt: skip


def correction_note(sequence: int, fields: dict[str, str], was: str) -> NoteView:
    """Return the question why a reading is corrected."""
    return NoteView(
        "correct reading", (sequence, fields), f"What was wrong? {was}",
        "in your own words, or touch one below", REASONS[CORRECT], "Correct it",
        "the old value stays readable",
    )  # fmt: skip
