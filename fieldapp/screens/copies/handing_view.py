"""What is shown where a job is handed over as one file, or taken in.

Touches it passes on:
    "vouch", name / "unsigned"    write the file, signed with that person's key, or by nobody
    "places"                      choose a card or share first
    "take", file / "both"         take a file in; both sides where two tablets worked at once
"""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from fieldapp.crew.members import Member
from fieldapp.screens.copies.cards import short
from fieldapp.screens.copies.copies_view import NO_PLACE
from fieldapp.screens.crew.crew_view import BACK, SAFE
from fieldapp.screens.crew.told import said_rows, told_rows
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.row_view import ListView, RowView

NO_FILE = (
    "Copy the hand-over file to a card and plug it in: its name ends in .handover. It may lie in "
    "the card’s first folder or in its folder “hand-over”."
)


@dataclass(frozen=True, slots=True)
class Written:
    """A hand-over file that was written, who signed it, and what could not go with it."""

    path: Path
    signer: str
    left: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TakenIn:
    """What came of a hand-over file, line by line; `apart` if two sides are to be settled."""

    name: str
    lines: tuple[str, ...]
    number: str = ""
    apart: bool = False


def handing_view(
    number: str, place: Path | None, signers: Sequence[Member], written: Written | None,
    start: int, told: tuple[str, bool], *, working: str,
) -> ListView:  # fmt: skip
    """Return who may sign the file, or where it lies once it is written."""
    return ListView(
        title="Hand over",
        rail=(BACK, SAFE),
        rows=(*told_rows(told), *_handing_rows(number, place, signers, written, working)),
        start=start,
    )


def files_view(
    files: Sequence[Path], taken: TakenIn | None, apart: Path | None, start: int,
    told: tuple[str, bool],
) -> ListView:  # fmt: skip
    """Return the hand-over files that lie ready, and what came of the one touched."""
    both = (PlateView("both", "Take in both", "to settle here"),) if apart else ()
    rows = tuple(
        RowView("take", (str(path),), path.stem, short(path.parent), "todo", "to take in")
        for path in files
    )
    return ListView(
        title="Take a job in",
        rail=(BACK, SAFE, *both),
        rows=(
            *told_rows(told, "Not taken in"),
            *_taken_rows(taken),
            *(rows or said_rows("unproven", "", "No hand-over file is here", NO_FILE)),
        ),
        start=start,
    )


def _handing_rows(
    number: str, place: Path | None, signers: Sequence[Member], written: Written | None,
    working: str,
) -> tuple[RowView, ...]:  # fmt: skip
    if working:
        return said_rows("now", "at work", number, f"{working[:1].upper()}{working[1:]}.")
    if written is not None:
        return _written_rows(written)
    if place is None:
        return (RowView("places", (), "Second place", NO_PLACE, "unproven", "none"),)
    return (
        *said_rows("now", "one file", number,
                   f"Its journals and its pictures, to {short(place)}. Signed, it shows on the "
                   f"other tablet that nothing was changed."),
        *(RowView("vouch", (one.name,), f"Sign as {one.name}", f"{one.role}: your secret is asked.",
                  "todo", "sign") for one in signers),
        RowView("unsigned", (), "Write it unsigned", "Nobody vouches for it.", "unproven",
                "unsigned"),
    )  # fmt: skip


def _written_rows(written: Written) -> tuple[RowView, ...]:
    said = f"Signed by {written.signer}." if written.signer else "Unsigned: nobody vouches for it."
    rows = (
        *said_rows("done", "written", written.path.name, f"{short(written.path.parent)}. {said}"),
        *said_rows("todo", "then", "On the other tablet",
                   "Plug the card in, touch Copies, then “Take in”. Until it comes back, work on "
                   "this job on one tablet only."),
    )  # fmt: skip
    left = (row for words in written.left for row in said_rows("failed", "missing", "", words))
    return (*rows, *left)


def _taken_rows(taken: TakenIn | None) -> tuple[RowView, ...]:
    if taken is None:
        return ()
    mark, word = ("deviation", "two sides") if taken.apart else ("done", "taken in")
    first, *more = taken.lines
    rows = (row for words in more for row in said_rows("", "", "", words))
    return (*said_rows(mark, word, taken.name, first), *rows)
