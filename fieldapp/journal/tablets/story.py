"""Which events of several tablets are one story, and where two went on apart; knows no file.

A tablet goes on from the last event of the story that it knows. So each event but the first has
one before it: of the number before its own, known to that tablet when it was kept, and not set
aside by a person. The events make a tree, and where it has one end there is one story.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, TypeAlias

from fieldapp.journal.lines.chain import Body

Document: TypeAlias = Mapping[str, Any]
Mark: TypeAlias = tuple[str, int]
"""A tablet and a place among the events of its journal: no two events have the same."""


@dataclass(frozen=True, slots=True)
class Kept:
    """An event as a tablet kept it; `known` is how far it knew the other journals then."""

    device: str
    place: int
    entry: int
    event: Document
    known: Mapping[str, int]

    @property
    def mark(self) -> Mark:
        """Which event it is."""
        return self.device, self.place

    @property
    def number(self) -> int:
        """Its number in the story."""
        number: int = self.event["sequence"]
        return number

    def knew(self, other: "Kept") -> bool:
        """Whether another event was known to the tablet when it kept this one."""
        if other.device == self.device:
            return other.place < self.place
        return other.entry <= self.known.get(other.device, 0)

    def set_aside(self) -> Iterator[tuple[Mark, Document]]:
        """The events that no longer count by it."""
        what = self.event["what"] if _settles(self.event) else {}
        for each in what.get("aside", ()):
            yield (each["device"], each["place"]), each["event"]


@dataclass(frozen=True, slots=True)
class Branch:
    """What one side went on with after the last event that all sides have."""

    device: str
    events: tuple[Kept, ...]


@dataclass(frozen=True, slots=True)
class Conflict:
    """Tablets that went on apart after an event; a person settles which side goes on."""

    after: int
    branches: tuple[Branch, ...]

    @property
    def both(self) -> str:
        """The tablets, as they are named in a sentence."""
        return " and ".join(branch.device for branch in self.branches)


@dataclass(frozen=True, slots=True)
class Lost:
    """An event that is in none of the journals, though others follow it."""

    number: int


Told: TypeAlias = tuple[Kept, ...] | Conflict | Lost


def kept_in(bodies: Iterable[Body]) -> Iterator[Kept]:
    """The events of one journal, in the order in which they were kept."""
    known: Mapping[str, int] = {}
    for body in bodies:
        for operation in body.operations:
            match operation:
                case ["insert", "heads", int(), dict(heads)]:
                    known = {device: head[0] for device, head in heads.items()}
                case ["insert", "events", int(place), dict(event)]:
                    yield Kept(body.device, place, body.sequence, event, known)


def told(kept: Iterable[Kept]) -> Told:
    """The story that events of any number of journals tell, whatever their order."""
    tree = _Tree(kept)
    if tree.lost is not None:
        return Lost(tree.lost)
    paths = [tree.path_to(end) for end in tree.ends()]
    if not paths:
        return () if not tree.kept else Lost(tree.kept[0].number)
    return paths[0] if len(paths) == 1 else _conflict(paths)


def way_to(kept: Iterable[Kept], branch: Branch) -> tuple[Kept, ...]:
    """The story that one side tells, from the first event on."""
    return _Tree(kept).path_to(branch.events[-1])


def aside_of(kept: Iterable[Kept], branch: Branch) -> tuple[Kept, ...]:
    """What is set aside when a branch goes on: all that is not on its way, and counts so far."""
    tree = _Tree(kept)
    way = {each.mark for each in tree.path_to(branch.events[-1])}
    rest = (each for each in tree.kept if each.mark not in way | tree.aside)
    return tuple(sorted(rest, key=lambda each: (each.number, each.mark)))


class _Tree:
    """Every event with the one before it."""

    def __init__(self, kept: Iterable[Kept]) -> None:
        self.kept = sorted({each.mark: each for each in kept}.values(), key=lambda each: each.mark)
        self._numbered: dict[int, list[Kept]] = defaultdict(list)
        for each in self.kept:
            self._numbered[each.number].append(each)
        self._settlements = [each for each in self.kept if _settles(each.event)]
        self.aside = {mark for each in self._settlements for mark, _ in each.set_aside()}
        self.before: dict[Mark, Kept] = {}
        self.lost = None if self._numbered[0] or not self.kept else 0
        for each in self.kept:
            self._find_before(each)

    def ends(self) -> list[Kept]:
        """The events that nothing follows and that count."""
        followed = {before.mark for before in self.before.values()}
        return [each for each in self.kept if each.mark not in followed | self.aside]

    def path_to(self, end: Kept) -> tuple[Kept, ...]:
        """The way from the first event to this one."""
        way = [end]
        while (before := self.before.get(way[-1].mark)) is not None:
            way.append(before)
        return tuple(reversed(way))

    def _find_before(self, each: Kept) -> None:
        if each.number == 0:
            return
        there = self._numbered.get(each.number - 1, [])
        found = [other for other in there if each.knew(other)]
        if _settles(each.event):
            found = [other for other in found if other.device == each.event["what"]["kept"]]
        if len(found) > 1:
            gone = {m for s in self._settlements if each.knew(s) for m, _ in s.set_aside()}
            found = [other for other in found if other.mark not in gone]
        if not found and len(there) == 1:  # it can have been no other
            found = there
        if len(found) == 1:
            self.before[each.mark] = found[0]
        elif self.lost is None or each.number - 1 < self.lost:
            self.lost = each.number - 1


def _settles(event: Document) -> bool:
    kind: object = event["what"]["kind"] if "what" in event else None
    return kind == "Settled"


def _conflict(paths: list[tuple[Kept, ...]]) -> Conflict:
    common = 0
    while len({path[common].mark for path in paths}) == 1:
        common += 1
    branches = (Branch(path[-1].device, path[common:]) for path in paths)
    return Conflict(common - 1, tuple(sorted(branches, key=lambda branch: branch.device)))
