"""The story of a job that several tablets kept, each in a journal of its own."""

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any, TypeAlias

from fieldapp.errors import FieldAppError
from fieldapp.journal.chain import Body, Head
from fieldapp.journal.errors import JournalDamagedError
from fieldapp.journal.reading import Inspection, sound_inspection

HEADS = "heads"
"""The table in which a tablet keeps the heads of the other journals it went on from."""

Document: TypeAlias = Mapping[str, Any]


class ParallelStoriesError(FieldAppError):
    """Two tablets each went on with a job without knowing of the other."""

    def __init__(self, after: int, devices: Sequence[str]) -> None:
        both = " and ".join(devices)
        super().__init__(
            f"{both} each went on after event {after}: what they kept cannot be told as one "
            f"story, and no program chooses. Keep both journals and settle it with the office"
        )
        self.after = after
        self.devices = tuple(devices)


def other_journals(folder: Path, device: str) -> tuple[Inspection, ...]:
    """The journals that other tablets kept of a job; each must be sound."""
    paths = sorted(path for path in folder.glob("*.journal") if path.stem != device)
    return tuple(sound_inspection(path) for path in paths)


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


def events_of(bodies: Iterable[Body]) -> list[Document]:
    """The events that entries keep, oldest first."""
    return [
        operation[3]
        for body in bodies
        for operation in body.operations
        if operation[:2] == ["insert", "events"]
    ]


def one_story(parts: Mapping[str, Iterable[Document]]) -> list[Document]:
    """All events in their order, given by device; the number of an event stands for its place."""
    story: dict[int, tuple[str, Document]] = {}
    for device, events in parts.items():
        for event in events:
            number = event["sequence"]
            if number in story:
                raise ParallelStoriesError(number - 1, sorted((story[number][0], device)))
            story[number] = device, event
    ordered = sorted(story)
    if ordered != [*range(len(ordered))]:
        missing = next(place for place, number in enumerate(ordered) if place != number)
        raise StoryIncompleteError(missing)
    return [story[number][1] for number in ordered]


class StoryIncompleteError(FieldAppError):
    """The journal of a tablet that worked in between is missing."""

    def __init__(self, missing: int) -> None:
        super().__init__(
            f"event {missing} is in none of the journals: the journal of a tablet that worked "
            f"on this job is missing. Bring it here by a hand-over file"
        )
        self.missing = missing
