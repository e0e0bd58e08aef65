"""The story of a job that several tablets kept, each in a journal of its own."""

from collections.abc import Iterable
from pathlib import Path

from fieldapp.errors import FieldAppError
from fieldapp.journal.errors import JournalDamagedError
from fieldapp.journal.folders import journals_in
from fieldapp.journal.lines.chain import Body, Head
from fieldapp.journal.lines.reading import Inspection, sound_inspection
from fieldapp.journal.tablets.story import Conflict, Document, Kept, Lost, kept_in, told
from fieldapp.journal.tablets.wording import events

HEADS = "heads"
"""The table in which a tablet keeps the heads of the other journals it went on from."""


class ParallelStoriesError(FieldAppError):
    """Two tablets each went on with a job without knowing of the other."""

    def __init__(self, conflict: Conflict) -> None:
        many = " and ".join(events(len(branch.events)) for branch in conflict.branches)
        super().__init__(
            f"{conflict.both} each went on after event {conflict.after}, by {many}, and no program "
            f"chooses. Look at both sides with “fieldapp store conflict”, then say with "
            f"“fieldapp store settle” which one goes on"
        )
        self.conflict = conflict

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return (
            f"{self.conflict.both} each went on after event {self.conflict.after}. Touch the job "
            f"on the list of jobs: it shows both sides, and somebody says which goes on"
        )


class StoryIncompleteError(FieldAppError):
    """The journal of a tablet that worked in between is missing."""

    def __init__(self, missing: int) -> None:
        super().__init__(
            f"event {missing} is in none of the journals: the journal of a tablet that worked "
            f"on this job is missing. Bring it here by a hand-over file"
        )
        self.missing = missing

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return (
            f"Event {self.missing} is in none of the journals: a tablet worked on this job in "
            f"between. Bring its hand-over file: on the list of jobs touch Copies, then “Take in”"
        )


def other_journals(folder: Path, device: str) -> tuple[Inspection, ...]:
    """The journals that other tablets kept of a job; each must be sound."""
    paths = journals_in(folder)
    return tuple(sound_inspection(path) for path in paths if path.stem != device)


def heads_of(others: Iterable[Inspection]) -> dict[str, list[object]]:
    """The device of each journal with the number and hash of its last entry."""
    return {
        each.bodies[0].device: [each.chain.head.sequence, each.chain.head.hash]
        for each in others
        if each.bodies
    }


def demand_remembered(noted: Document, others: Iterable[Inspection]) -> None:
    """Refuse another tablet's journal that no longer holds what this one went on from."""
    there = {each.bodies[0].device: each for each in others if each.bodies}
    for device, (sequence, digest) in noted.items():
        found = there.get(device)
        if found is not None and not found.chain.holds(Head(sequence, digest)):
            why = "it is not the journal that this tablet went on from"
            raise JournalDamagedError(found.path, min(sequence, len(found.bodies) + 1), why)


def kept_by(journals: Iterable[Inspection]) -> list[Kept]:
    """Every event that journals keep, with what was known when it was kept."""
    return [kept for each in journals for kept in kept_in(each.bodies)]


def events_of(bodies: Iterable[Body]) -> list[Document]:
    """The events that entries keep, oldest first."""
    return [
        operation[3]
        for body in bodies
        for operation in body.operations
        if operation[:2] == ["insert", "events"]
    ]


def one_story(kept: Iterable[Kept]) -> list[Document]:
    """All events that count, in their order; the number of an event stands for its place."""
    found = told(kept)
    if isinstance(found, Conflict):
        raise ParallelStoriesError(found)
    if isinstance(found, Lost):
        raise StoryIncompleteError(found.number)
    return [each.event for each in found]
