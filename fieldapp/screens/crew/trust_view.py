"""What the office sent: the files that lie ready, and what one of them says before it counts.

Touches passed on:
    "offer", file      look into a file
    "take in"          take it in; the first time that means: the fingerprint was compared
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from fieldapp.crew.fingerprint import in_groups
from fieldapp.crew.people import name_of
from fieldapp.crew.roster import Roster
from fieldapp.screens.crew.crew_view import BACK, SAFE
from fieldapp.screens.crew.told import said_rows, told_rows
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.row_view import ListView, RowView

COMPARE = (
    "The office’s fingerprint: have the office read it out, and compare group by group. Only if "
    "all are the same, touch “It is the same”."
)


def trust_view(files: Sequence[str], folder: Path, start: int, told: tuple[str, bool]) -> ListView:
    """Return the files that lie in the folder for what the office sends."""
    rows = tuple(RowView("offer", (name,), name, "", "todo", "to look at") for name in files)
    if not rows:
        words = (
            f"Copy the office's trust file into the folder {folder} of this tablet, then come back."
        )
        rows = said_rows("unproven", "", "No file is here", words)
    return ListView(title="From the office", rail=(BACK, SAFE), rows=(*told_rows(told), *rows),
                    start=start)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Offer:
    """What was found in a file, what this tablet holds, and why it cannot be taken in."""

    name: str
    offered: Roster | None
    held: Roster | None
    refused: str


def offer_view(
    offer: Offer, now: datetime, start: int, told: tuple[str, bool], *, working: str
) -> ListView:
    """Return what a file says, and the plate that takes it in."""
    rows = _rows(offer) if offer.offered else said_rows("unproven", "", offer.name, "")
    refused = (offer.refused, False) if offer.refused else told
    return ListView(
        title="From the office",
        under=(f"at {now:%H:%M}",),
        rail=(BACK, SAFE, *_plate(offer, working)),
        rows=(*told_rows(refused, "Not taken in"), *rows),
        start=start,
    )


def _plate(offer: Offer, working: str) -> tuple[PlateView, ...]:
    if working:
        return (PlateView("take in", "Working…", kind="waiting"),)
    if offer.offered is None or offer.refused:
        return ()
    if offer.held is None:
        return (PlateView("take in", "It is the same", "take it in", "main"),)
    return (PlateView("take in", "Take it in", kind="main"),)


def _rows(offer: Offer) -> tuple[RowView, ...]:
    offered, held = offer.offered, offer.held
    assert offered is not None  # noqa: S101 - the caller saw to it
    until = offered.revocation_list.next_update_utc
    due = f"{until:%Y-%m-%d}" if until else "not known"
    same = held is not None and held.fingerprint == offered.fingerprint
    known = "known to this tablet" if same else "another than this tablet knows"
    known = known if held else "new to this tablet"
    before = f" This tablet has number {held.number}." if held and same else ""
    names = ", ".join(sorted({person.name for person in offered.people})) or "nobody yet"
    who = f"{offer.name}: an office {known}. It vouches for: {names}."
    compare = said_rows("now", "compare", in_groups(offered.fingerprint), COMPARE)
    return (
        RowView("", (), name_of(offered.authority), who),
        *(compare if not held else ()),
        RowView("", (), f"List number {offered.number}",
                f"{len(offered.revocation_list)} withdrawn; the next list is due {due}.{before}"),
    )  # fmt: skip
