"""What is shown of copies: the second place, the last copy, and jobs to hand over.

Touches it passes on:
    "places"               choose another card or share
    "copy" / "bring back"  everything to the second place, or what is missing here from it
    "hand over", number    one job as one file
    "files"                the hand-over files that lie ready to be taken in
"""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from fieldapp.screens.copies.cards import short
from fieldapp.screens.crew.crew_view import BACK, SAFE
from fieldapp.screens.crew.told import said_rows, told_rows
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.row_view import ListView, RowView

NO_PLACE = "None is set. Plug in a card or a share and touch here."
NO_CARD = (
    "Plug in a card or a stick, or connect a share, then come back. A copy on the tablet itself "
    "would be lost with the tablet."
)


@dataclass(frozen=True, slots=True)
class CopiesFacts:
    """The second place, what came of the last copy line by line, and the jobs that are here."""

    place: Path | None
    last: str
    whole: bool
    numbers: tuple[str, ...]


def copies_view(
    facts: CopiesFacts, start: int, told: tuple[str, bool], *, working: str
) -> ListView:
    """Return where everything is copied to, and how that went."""
    return ListView(
        title="Copies",
        rail=(BACK, SAFE, *_plates(facts, working), PlateView("files", "Take in", "a job")),
        rows=(
            *told_rows(told),
            _place_row(facts),
            *_last_rows(facts, working),
            *_back_row(facts),
            *map(_job_row, facts.numbers),
        ),
        start=start,
    )


def places_view(places: Sequence[Path], start: int, told: tuple[str, bool]) -> ListView:
    """Return the cards and shares that are there now."""
    rows = tuple(
        RowView("place", (str(place),), place.name or str(place), short(place), "todo", "to choose")
        for place in places
    )
    none = said_rows("unproven", "", "No card is here", NO_CARD)
    return ListView(
        title="Second place",
        rail=(BACK, SAFE),
        rows=(*told_rows(told), *(rows or none)),
        start=start,
    )


def _plates(facts: CopiesFacts, working: str) -> tuple[PlateView, ...]:
    if working:
        return (PlateView("copy", "Working…", kind="waiting"),)
    if facts.place is None or not facts.numbers:
        return ()
    return (PlateView("copy", "Copy now", "everything", kind="main"),)


def _place_row(facts: CopiesFacts) -> RowView:
    if facts.place is None:
        return RowView("places", (), "Second place", NO_PLACE, "unproven", "none")
    words = f"{short(facts.place)}: also whenever the window is closed."
    return RowView("places", (), "Second place", words, "done", "set", below="touch to change")


def _last_rows(facts: CopiesFacts, working: str) -> tuple[RowView, ...]:
    if working:
        return said_rows("now", "at work", "Copying", f"{working[:1].upper()}{working[1:]}.")
    if not facts.last:
        return ()
    mark, word = ("done", "copied") if facts.whole else ("failed", "not all")
    return said_rows(mark, word, "Last copy", facts.last)


def _back_row(facts: CopiesFacts) -> tuple[RowView, ...]:
    if facts.place is None:
        return ()
    words = "From the second place to this tablet; over nothing that is newer."
    return (RowView("bring back", (), "Bring back what is missing here", words, "todo", "restore"),)


def _job_row(number: str) -> RowView:
    words = "As one file, for another tablet or for the office."
    return RowView("hand over", (number,), f"Hand over {number}", words, "todo", "one file")
