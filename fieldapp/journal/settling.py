"""A person settles which story goes on, where tablets went on with a job apart.

The statement is the next event after the side that goes on. It carries what the other sides kept,
so that nothing is lost to whoever reads the job, on whichever tablet.
"""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from unicodedata import normalize

from fieldapp.errors import FieldAppError
from fieldapp.job.events import Aside, Event, Settled, document_of
from fieldapp.journal.folders import journals_in
from fieldapp.journal.jobs import note_heads
from fieldapp.journal.lines.reading import sound_inspection
from fieldapp.journal.store import JobDB
from fieldapp.journal.tablets.story import Branch, Conflict, aside_of, told
from fieldapp.journal.tablets.union import kept_by, other_journals


class NothingToSettleError(FieldAppError):
    """The journals tell one story."""

    def __init__(self, number: str) -> None:
        super().__init__(f"job {number}: its journals tell one story; there is nothing to settle")
        self.number = number


class SettlementUnnamedError(FieldAppError):
    """Stories are settled by somebody, and for a reason."""

    def __init__(self) -> None:
        super().__init__("say who settles it, and why that side goes on")


class NoSuchSideError(FieldAppError):
    """The tablet that is to go on is none of those that went on apart."""

    def __init__(self, device: str, sides: tuple[str, ...]) -> None:
        super().__init__(f"{device} is no side of it: name {' or '.join(sides)}")
        self.device = device
        self.sides = sides


def conflict_in(folder: Path) -> Conflict | None:
    """Where the journals of a job go apart; None if they tell one story."""
    found = told(kept_by(sound_inspection(path) for path in journals_in(folder)))
    return found if isinstance(found, Conflict) else None


def settle(
    folder: Path, *, device: str, who: str, keep: str, reason: str, clock: Callable[[], datetime]
) -> Settled:
    """Keep a person's statement of which side goes on, in this tablet's own journal."""
    if not who.strip() or not reason.strip():
        raise SettlementUnnamedError
    path = folder / f"{device}.journal"
    with JobDB(str(path), device=device, clock=clock) as database:
        others = other_journals(folder, device)
        kept = kept_by((sound_inspection(path), *others))
        found = told(kept)
        if not isinstance(found, Conflict):
            raise NothingToSettleError(folder.name)
        branch = _side(found, keep)
        aside = tuple(Aside(each.device, each.place, each.event) for each in aside_of(kept, branch))
        what = Settled(found.after, keep, normalize("NFC", reason.strip()), aside)
        event = Event(branch.events[-1].number + 1, clock(), who.strip(), what)
        note_heads(database, others)
        database.table("events").insert(document_of(event))
    return what


def _side(found: Conflict, keep: str) -> Branch:
    sides = [branch for branch in found.branches if branch.device == keep]
    if len(sides) != 1:
        raise NoSuchSideError(keep, tuple(branch.device for branch in found.branches))
    return sides[0]
