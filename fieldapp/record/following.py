"""Whether records that are looked at together name each other rightly.

A record made after a hookup names the hookup’s journal head; a later revision names what was
signed before it. Given both files, the two can be held against each other.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

_SHOWN = 16
_ASK = "ask the crew for both as they were signed"


@dataclass(frozen=True, slots=True)
class Named:
    """What a record says of itself and of others: `earlier` is (revision, head) of each before.

    `signed` are the heads that technician and lead signed, `began` and `closed` the moments of the
    first entry and of the lead's signature.
    """

    place: str
    number: str
    revision: int
    head: str
    signed: tuple[str, ...] = ()
    follows: str = ""
    follows_head: str = ""
    earlier: tuple[tuple[int, str], ...] = ()
    began: str = ""
    closed: str = ""


@dataclass(frozen=True, slots=True)
class Relation:
    """What one record says of another, in a sentence, and whether that is right."""

    place: str
    words: str
    right: bool


def named_in(place: str, record: dict[str, Any]) -> Named:
    """Return what the attached data of a record says of itself and of others."""
    heading = record["heading"]
    signatures = [one for one in record["signatures"] if isinstance(one, dict)]
    return Named(
        place,
        str(heading.get("number") or ""),
        int(heading.get("revision") or 1),
        str(record["journal"].get("hash") or ""),
        tuple(str(one.get("head") or "") for one in signatures),
        str(heading.get("follows") or ""),
        str(heading.get("follows_head") or ""),
        tuple((one["revision"], one["head"]) for one in record.get("earlier") or ()),
        str(heading.get("began") or ""),
        max((str(one.get("at") or "") for one in signatures), default=""),
    )


def relations(records: Sequence[Named]) -> tuple[Relation, ...]:
    """Return what the records say of each other."""
    found = [one for record in records for one in _of(record, records)]
    return (*found, *_twice(records))


def _of(record: Named, records: Sequence[Named]) -> Iterator[Relation]:
    if record.follows:
        hookups = [one for one in records if one.number == record.follows]
        yield _following(record, hookups)
    for revision, head in record.earlier:
        before = [one for one in records if (one.number, one.revision) == (record.number, revision)]
        if before:
            yield _revising(record, revision, head, before)


def _following(record: Named, hookups: Sequence[Named]) -> Relation:
    for one in hookups:
        if record.follows_head and record.follows_head in (one.head, *one.signed):
            words = f"follows {one.number} and names its journal head rightly ({one.place})"
            return Relation(record.place, words, right=True)
    if not hookups:
        words = f"follows {record.follows}: give that record too, and the two are compared"
        return Relation(record.place, words, right=True)
    if record.follows_head and all(_was_open(one, record) for one in hookups):
        words = (
            f"follows {record.follows} and began before that was signed off: the journal head "
            f"{_short(record.follows_head)} that it names stands in the journal alone"
        )
        return Relation(record.place, words, right=True)
    words = (
        f"follows {record.follows} and names the journal head {_short(record.follows_head)}, but "
        f"{_ends(hookups)}; {_ASK}"
    )
    return Relation(record.place, words, right=False)


def _revising(record: Named, revision: int, head: str, before: Sequence[Named]) -> Relation:
    for one in before:
        if head in one.signed:
            words = f"names what was signed as revision {revision} rightly ({one.place})"
            return Relation(record.place, words, right=True)
    places = ", ".join(one.place for one in before)
    words = f"names another revision {revision} than {places}; {_ASK}"
    return Relation(record.place, words, right=False)


def _twice(records: Sequence[Named]) -> Iterator[Relation]:
    """Find two records of one job and revision whose journals end differently."""
    for place, one in enumerate(records):
        for other in records[:place]:
            same = (one.number, one.revision) == (other.number, other.revision)
            if same and one.head != other.head:
                words = (
                    f"is {one.number}, revision {one.revision}, and so is {other.place}, but their "
                    "journals end differently; ask the crew which one counts"
                )
                yield Relation(one.place, words, right=False)


def _was_open(hookup: Named, record: Named) -> bool:
    """Say whether a hookup was not signed off yet when the list that follows it began."""
    if not (hookup.closed and record.began):
        return False
    try:
        return datetime.fromisoformat(record.began) < datetime.fromisoformat(hookup.closed)
    except (TypeError, ValueError):  # what another version, or a forger, wrote there is no time
        return False


def _ends(hookups: Sequence[Named]) -> str:
    return ", ".join(f"{one.place} ends in {_short(one.head)}" for one in hookups)


def _short(head: str) -> str:
    return f"{head[:_SHOWN]}…" if head else "none"
