"""What is shown of a job that cannot be opened: why, and what a named person can state.

Touches it passes on:
    "sides" / "gap"     look at both sides, or state what the disk lost
    "keep", tablet      that side goes on
    "by", name          who states it
"""

from collections.abc import Mapping, Sequence
from datetime import datetime

from fieldapp.job.sheet import Person
from fieldapp.journal.exporting import told_words
from fieldapp.journal.tablets.gap import Gap
from fieldapp.journal.tablets.story import Branch, Conflict
from fieldapp.journal.tablets.wording import entries, events
from fieldapp.screens.crew.crew_view import BACK, SAFE
from fieldapp.screens.crew.told import said_rows, told_rows
from fieldapp.screens.frame_view import FrameView, PlateView
from fieldapp.screens.reason_view import ReasonView
from fieldapp.screens.row_view import ListView, RowView

SETTLE, GAP = "settle", "gap"
APART = "Two tablets went on with it at once. Touch to look at both sides and settle it."
_SETTLING = (
    "valves and joints were looked at on site",
    "the other tablet was used by mistake",
    "that side has the later work",
    "both crews agreed on it",
    "the office decided it",
)
_LOSING = (
    "the power went while the tablet wrote",
    "the battery ran out",
    "the tablet was switched off hard",
    "the card was taken out",
    "not known",
)


def hurt_view(
    number: str, sentence: str, cause: Conflict | Gap | None, start: int, told: tuple[str, bool]
) -> ListView:
    """Return why a job cannot be opened, and the plate that helps."""
    return ListView(
        title="Not open",
        rail=(BACK, SAFE, *_plate(cause)),
        rows=(*told_rows(told), *_why_rows(number, sentence, cause)),
        start=start,
    )


def sides_view(
    number: str, conflict: Conflict, device: str, start: int, told: tuple[str, bool]
) -> ListView:
    """Return what each side kept, and the row that lets it go on."""
    rows = (
        row for branch in conflict.branches for row in _side_rows(number, conflict, branch, device)
    )
    return ListView(title="Both sides", rail=(BACK, SAFE), start=start,
                    rows=(*told_rows(told), *rows))  # fmt: skip


def who_view(crew: Sequence[Person], purpose: str, start: int, told: tuple[str, bool]) -> ListView:
    """Return the people of the job, one of whom states it."""
    title = "Who settles it?" if purpose == SETTLE else "Who states it?"
    rows = tuple(RowView("by", (one.name,), one.name, one.role, "todo") for one in crew)
    return ListView(title=title, rail=(BACK, SAFE), rows=(*told_rows(told), *rows),
                    start=start)  # fmt: skip


def why_view(
    number: str, name: str, purpose: str, typed: str, clock: datetime, told: tuple[str, bool]
) -> ReasonView:
    """Return the question why a side goes on, or why entries are missing."""
    words, stopped = told
    frame = FrameView(
        unit=number, site="not open", clock=f"{clock:%H:%M}", plates=(SAFE,), aside=True,
        refused=words, not_saved=words if stopped else "",
    )  # fmt: skip
    settles = purpose == SETTLE
    title = f"{name}: why does that side go on?" if settles else f"{name}: why is it missing?"
    reasons = _SETTLING if settles else _LOSING
    keep = "Settle it" if settles else "State it"
    hint = "in your own words, or touch one below"
    return ReasonView(frame, title, hint, reasons, typed, keep, "with name and time")


def _plate(cause: Conflict | Gap | None) -> tuple[PlateView, ...]:
    if isinstance(cause, Conflict):
        return (PlateView("sides", "Both sides", "to settle", "main"),)
    if isinstance(cause, Gap):
        return (PlateView("gap", "State the gap", "and go on", "main"),)
    return ()


def _why_rows(number: str, sentence: str, cause: Conflict | Gap | None) -> tuple[RowView, ...]:
    if isinstance(cause, Conflict):
        words = (
            f"{cause.both} each went on after event {cause.after}. Somebody looks at both sides, "
            f"and at valves and joints, and says which goes on."
        )
        stays = "The other stays readable, in the job and on its record; what it did is done again."
        return (
            *said_rows("deviation", "two sides", number, words),
            *said_rows("todo", "then", "Nothing is lost", stays),
        )
    if isinstance(cause, Gap):
        words = (
            f"The disk lost {entries(cause.missing)} after entry {cause.after}, though this tablet "
            f"had kept them."
        )
        return (
            *said_rows("failed", "lost", number, words),
            *said_rows(
                "now",
                "first",
                "Look for a copy",
                "On the list of jobs: Copies, then “Bring back what is missing here”.",
            ),
            *said_rows(
                "todo",
                "else",
                "State the gap",
                "By name and with a reason; then enter again what is missing.",
            ),
        )
    return said_rows("failed", "not open", number, sentence)


def _side_rows(number: str, conflict: Conflict, branch: Branch, device: str) -> tuple[RowView, ...]:
    here = "This tablet" if branch.device == device else "The other tablet"
    words = (
        f"{branch.device}: {events(len(branch.events))} after event {conflict.after}. "
        f"Touch if it goes on."
    )
    rows = (_event_row(kept.event) for kept in branch.events)
    first = f"{here}, {number}"
    return (RowView("keep", (branch.device,), first, words, "deviation", "goes on?"), *rows)


def _event_row(document: Mapping[str, object]) -> RowView:
    number, at, by, said = told_words(document).split("  ", 3)
    return RowView("", (), said, f"{by}, {at}", below=f"event {number}")
