"""What is shown while everything is copied before the window closes.

Touches it passes on:
    "stay"         go on with the work; the window stays open
    "leave now"    close it without waiting
"""

from pathlib import Path

from fieldapp.screens.copies.cards import short
from fieldapp.screens.crew.crew_view import SAFE
from fieldapp.screens.crew.told import said_rows, told_rows
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.row_view import ListView, RowView

_STAY = PlateView("stay", "Stay", "go on")
_LEAVE = PlateView("leave now", "Leave now", "do not wait")
_BY_ITSELF = (
    "The window closes by itself. Whoever leaves now loses nothing: all is safe on this tablet, "
    "but the copy is not whole."
)
_STILL = "What is on this tablet is safe. Leave now, or stay and copy again."


def closing_view(
    place: Path | None, working: str, last: str, start: int, told: tuple[str, bool]
) -> ListView:
    """Return how far the copy has come, or what was not copied."""
    return ListView(
        title="Closing",
        rail=(_STAY, SAFE, _LEAVE),
        rows=(*told_rows(told, "Not copied"), *_rows(place, working, last)),
        start=start,
    )


def _rows(place: Path | None, working: str, last: str) -> tuple[RowView, ...]:
    if working:
        where = f" to {short(place)}" if place else ""
        return (
            *said_rows("now", "at work", f"Copying{where}", f"{working[:1].upper()}{working[1:]}."),
            *said_rows("", "", "", _BY_ITSELF),
        )
    not_all = said_rows("failed", "not all", "Last copy", last) if last else ()
    return (*not_all, *said_rows("todo", "then", "The window is still open", _STILL))
