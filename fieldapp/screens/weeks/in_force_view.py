"""What is in force now, the most urgent first, what was brought to an end, and leaving with it."""

from collections.abc import Sequence
from datetime import datetime

from fieldapp.job.moments import span
from fieldapp.judgement.in_force import SOON, InForce
from fieldapp.screens.frame_view import FrameView, PlateView
from fieldapp.screens.row_view import ListView, RowView

NOTHING = "Nothing is in force: no permit, nothing blocked, no valve open without flow."
SHOUT = "Leaving is not refused. Whoever takes over is named, with the time, in the record."
SAFE = PlateView("safe", "Stop and make safe", kind="warning")
LEFT_OPEN = "Nobody takes over: that is stamped too. Lock both tank valves; tell the control room."


def in_force_plate(found: Sequence[InForce], now: datetime) -> PlateView:
    """Return the plate that leads here: how much is in force, and what ends first."""
    if not found:
        return PlateView("in force", "In force", "nothing")
    left = next((left for f in found if (left := f.seconds_left(now)) is not None), None)
    second = "without an end" if left is None else _left(left)
    return PlateView("in force", f"{len(found)} in force", second)


def in_force_view(
    found: Sequence[InForce], ended: Sequence[InForce], now: datetime, frame: FrameView, start: int
) -> ListView:  # fmt: skip
    """Return what is in force and what was; a row leads to what brings it to an end."""
    rows = (
        *(_row(fact, now) for fact in found),
        *(_ended_row(fact) for fact in sorted(ended, key=_ended_at, reverse=True)),
    )
    return ListView(
        title="In force",
        under=(f"{len(found)} now",),
        rail=(PlateView("block", "Enter more", "who, when"),),
        rows=rows,
        start=start,
        empty=NOTHING,
        frame=frame,
    )


def leaving_view(
    found: Sequence[InForce], now: datetime, start: int, told: tuple[str, bool]
) -> ListView:  # fmt: skip
    """Return what somebody leaves behind, and the three ways from here; none is refused."""
    count = len(found)
    words = f"{count} things are in force" if count != 1 else "1 thing is in force"
    return ListView(
        title="Leaving?",
        under=(),
        rail=(
            PlateView("back", "Back", "to the job"),
            SAFE,
            PlateView("hand over", "Hand over", "by name", "main"),
            PlateView("stay", "I stay", "on site"),
        ),
        rows=(
            *(_quiet(_row(fact, now)) for fact in found),
            RowView("left", (), "Leave, with nobody named", LEFT_OPEN, "deviation", "left"),
        ),
        start=start,
        caution=("WARNING", f"{words}. {SHOUT}"),
        told=told,
    )


def words_of(fact: InForce) -> str:
    """Return a thing in force as it is stamped."""
    until = f" until {_at(fact.until, fact.since)}" if fact.until else ""
    return f"{fact.what}{f' ({fact.words})' if fact.words else ''}{until}"


def _row(fact: InForce, now: datetime) -> RowView:
    left = fact.seconds_left(now)
    word, mark = "in force", "now"
    if left is not None and left < SOON:
        word, mark = ("ran out", "failed") if left < 0 else ("ends soon", "notyet")
    touch, details = "", tuple[str, ...]()
    if fact.sequence >= 0:
        touch, details = "restore", (str(fact.sequence),)
    elif fact.step:
        touch, details = "go", (fact.step,)
    return RowView(
        touch, details, f"{fact.what}{f': {fact.words}' if fact.words else ''}",
        f"Since {_at(fact.since, now)}, by {fact.by or 'nobody named'}.", mark, word,
        right=_left(left) if left is not None else "no end",
        below=_at(fact.until, now) if fact.until else "",
    )  # fmt: skip


def _ended_row(fact: InForce) -> RowView:
    ended = f"Back {_at(fact.ended, fact.since)}" if fact.ended else "Back"
    words = f"{ended} by {fact.ended_by}. It was since {fact.since:%d %b %H:%M}, by {fact.by}."
    return RowView("", (), fact.what, words, "done", "back")


def _quiet(row: RowView) -> RowView:
    return RowView("", (), row.first, row.second, row.mark, row.word, right=row.right,
                   below=row.below)  # fmt: skip


def _left(seconds: float) -> str:
    """Return the time left, rounded down, or by how much it ran out, rounded up.

    >>> _left(3 * 3600.0 - 1), _left(59.0), _left(-61.0)
    ('2 h left', '0 min left', '2 min over')
    """
    if seconds < 0:
        return f"{span(-seconds)} over"
    minutes = int(seconds // 60)
    return f"{minutes} min left" if minutes < 120 else f"{minutes // 60} h left"  # noqa: PLR2004


def _at(moment: datetime, near: datetime) -> str:
    same = moment.date() == near.date()
    return f"{moment:%H:%M}" if same else f"{moment:%d %b %H:%M}"


def _ended_at(fact: InForce) -> datetime:
    return fact.ended or fact.since
