"""What the desk holds of copies and hand-over files while somebody is at them; none is kept."""

from dataclasses import dataclass
from pathlib import Path

from fieldapp.job.sheet import Person
from fieldapp.journal.tablets.gap import Gap
from fieldapp.journal.tablets.story import Conflict
from fieldapp.screens.copies.handing_view import TakenIn, Written


@dataclass(slots=True)
class CopiesInHand:
    """What came of the last copy here, of the file written, and of the file taken in.

    `progress` is how far a copy has come, `apart` a file that holds another side of a job,
    `cause` what a person can put right of a job that cannot be opened, and `crew` its people.
    `closing` while the window waits for the last copy, `copied` once that is made, `hurried` once
    nobody wants to wait for it.
    """

    last: str = ""
    progress: str = ""
    written: Written | None = None
    taken: TakenIn | None = None
    apart: Path | None = None
    cause: Conflict | Gap | None = None
    crew: tuple[Person, ...] = ()
    closing: bool = False
    copied: bool = False
    hurried: bool = False
