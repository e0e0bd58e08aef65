"""Whether the journals of a hand-over file are what this program writes, to the last byte."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from cattrs.errors import BaseValidationError, ForbiddenExtraKeysError

from fieldapp.actions.beginning import job_of
from fieldapp.errors import FieldAppError
from fieldapp.handover.archive import MANIFEST, SIGNATURE, journal_name
from fieldapp.handover.errors import HandOverRefusedError
from fieldapp.handover.manifest import Manifest, Part, manifest_in
from fieldapp.job.events import Begun, Settled, event_of
from fieldapp.journal.errors import DocumentRefusedError
from fieldapp.journal.lines.chain import START, Body, Chain, Head, next_entry, walk
from fieldapp.journal.tablets.story import Document, Kept
from fieldapp.journal.tablets.union import HEADS, events_of

TABLES = ("events", HEADS)
MOST_OF_A_NUMBER = 10
"""Events of one number in a journal: one more than how often its tablet was settled against."""
_NO_JOB = (
    FieldAppError, BaseValidationError, ForbiddenExtraKeysError, KeyError, IndexError, TypeError,
    ValueError, AttributeError, AssertionError, RecursionError, OverflowError,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Journal:
    """A journal out of a hand-over file that was found sound."""

    device: str
    raw: bytes
    chain: Chain


@dataclass(frozen=True, slots=True)
class Examined:
    """What a hand-over file holds."""

    manifest: Manifest
    signed: bytes
    signature: bytes | None
    journals: tuple[Journal, ...]


def examined(members: dict[str, bytes]) -> Examined:
    """Return the contents of a hand-over file once each of them was looked at whole."""
    manifest = manifest_in(members[MANIFEST])
    named = {MANIFEST, SIGNATURE, *(journal_name(part.device) for part in manifest.journals)}
    for name in members:
        if name not in named:
            raise HandOverRefusedError(f"{name} in it is not on its list")
    journals = tuple(_journal(part, members) for part in manifest.journals)
    return Examined(manifest, members[MANIFEST], members.get(SIGNATURE), journals)


def demand_true_settlements(kept: Sequence[Kept]) -> None:
    """Refuse a settlement that gives other events as set aside than the tablets kept."""
    there = {each.mark: each.event for each in kept}
    for each in kept:
        for mark, event in each.set_aside():
            if there.get(mark, event) != event:
                raise HandOverRefusedError(
                    f"event {each.number} of {each.device} in it sets aside what {mark[0]} did "
                    f"not keep"
                )


def demand_job(number: str, story: list[Document]) -> None:
    """Refuse events that are not those of a job of that number."""
    try:
        events = tuple(event_of(document) for document in story)
        job_of(events)
        begun = events[0].what
        found = begun.number if isinstance(begun, Begun) else ""
    except _NO_JOB as reason:
        raise HandOverRefusedError("what it holds does not add up to a job") from reason
    if found != number:
        raise HandOverRefusedError(f"it says that it is job {number}, and holds job {found}")


def _journal(part: Part, members: dict[str, bytes]) -> Journal:
    name = journal_name(part.device)
    raw = members.get(name)
    if raw is None:
        raise HandOverRefusedError(f"{name} is missing in it")
    chain = walk(raw)
    if chain.fault or chain.head != Head(part.sequence, part.hash):
        raise HandOverRefusedError(f"{name} in it is not the journal that its list names")
    if chain.bodies[0].device != part.device:
        raise HandOverRefusedError(f"{name} in it was written by {chain.bodies[0].device!a}")
    _demand_own_writing(name, raw, chain)
    _demand_events(chain)
    return Journal(part.device, raw, chain)


def _demand_own_writing(name: str, raw: bytes, chain: Chain) -> None:
    """Each entry, written once more, gives the same bytes; so no second reading is possible."""
    head, begin = START, 0
    numbers = dict.fromkeys(TABLES, 0)
    for body, end in zip(chain.bodies, chain.ends, strict=True):
        try:
            head, _, line = next_entry(
                head, device=body.device, time=body.time, operations=body.operations
            )
        except DocumentRefusedError as reason:
            raise HandOverRefusedError(f"{name} in it, entry {body.sequence}: {reason}") from reason
        if line != raw[begin:end] or not _adds(body, numbers):
            raise HandOverRefusedError(f"{name} in it, entry {body.sequence}: no tablet wrote this")
        begin = end


def _demand_events(chain: Chain) -> None:
    """Refuse a journal with an event that no job has."""
    try:
        documents = events_of(chain.bodies)
        for document in documents:
            _structure(document)
        numbers = Counter(document["sequence"] for document in documents)
    except _NO_JOB as reason:
        raise HandOverRefusedError("what it holds does not add up to a job") from reason
    if max(numbers.values(), default=0) > MOST_OF_A_NUMBER:
        raise HandOverRefusedError("what it holds gives a number to more events than a job can")


def _structure(document: Document) -> None:
    what = event_of(document).what
    if isinstance(what, Settled):
        for each in what.aside:
            _structure(each.event)


def _adds(body: Body, numbers: dict[str, int]) -> bool:
    """Say whether an entry adds the next documents to the tables that a job has."""
    for operation in body.operations:
        match operation:
            case ["insert", ("events" | "heads") as table, int(number), dict(document)] if (
                number is not True
            ):
                if table == HEADS and not _are_heads(document):
                    return False
                numbers[table] += 1
                if number != numbers[table]:
                    return False
            case _:
                return False
    return True


def _are_heads(document: Mapping[str, object]) -> bool:
    """Say whether a document names the last entries of journals."""
    for head in document.values():
        match head:
            case [int(sequence), str(digest)] if (
                sequence is not True and sequence > 0 and len(digest) == len(START.hash)
            ):
                continue
        return False
    return True
