"""The lines of a journal and how each holds on to the one before; knows no file."""

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from typing import Any, NotRequired, TypeAlias, TypedDict

from fieldapp.journal.canonical import there_and_back

FORMAT = 1
BATCH = 256 * 1024

_OPENING, _BETWEEN, _CLOSING = b'["', b'",', b"]\n"
_HASH = slice(2, 66)
_BODY = slice(68, -2)

Line: TypeAlias = tuple[str, bytes, int]
"""Hash and body of a line, and the place in the file where the line ends."""


class Body(TypedDict):
    """What one entry says; only the first one names the format."""

    format: NotRequired[int]
    device: str
    operations: list[Any]
    previous: str
    sequence: int
    time: str


@dataclass(frozen=True, slots=True)
class Head:
    """The entry a journal ends with."""

    sequence: int
    hash: str


START = Head(0, "0" * 64)


@dataclass(frozen=True, slots=True)
class Chain:
    """What the bytes of a journal hold: entries that hold together, then perhaps a fault."""

    format: object
    bodies: tuple[Body, ...]
    hashes: tuple[str, ...]
    ends: tuple[int, ...]
    fault: str
    torn: bool

    @property
    def head(self) -> Head:
        """The last entry that holds together with those before it."""
        return Head(len(self.hashes), self.hashes[-1]) if self.hashes else START

    @property
    def end(self) -> int:
        """The place in the file where that entry ends."""
        return self.end_of(len(self.ends))

    def end_of(self, sequence: int) -> int:
        """The place in the file where an entry ends."""
        return self.ends[sequence - 1] if sequence else 0


def framed(body: bytes) -> tuple[str, bytes]:
    r"""The hash of a body and the line that keeps both.

    >>> framed(b"{}")[1]
    b'["44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a",{}]\n'
    """
    digest = sha256(body).hexdigest()
    return digest, b"".join((_OPENING, digest.encode(), _BETWEEN, body, _CLOSING))


def unframed(line: bytes) -> tuple[str, bytes] | None:
    """Hash and body of a line, or None if a single bit of it is not as it was written."""
    body = line[_BODY]
    digest = sha256(body).hexdigest()
    whole = line[:2] == _OPENING and line[66:68] == _BETWEEN and line[-2:] == _CLOSING
    return (digest, body) if whole and line[_HASH] == digest.encode() else None


def next_entry(
    head: Head, *, device: str, time: str, operations: list[Any]
) -> tuple[Head, Body, bytes]:
    """The head after a further entry, the body a reader of it will find, and its line."""
    sequence = head.sequence + 1
    entry = Body(
        device=device, operations=operations, previous=head.hash, sequence=sequence, time=time
    )
    if head == START:
        entry["format"] = FORMAT
    written, body = there_and_back(entry)
    digest, line = framed(written)
    return Head(sequence, digest), body, line


def walk(raw: bytes) -> Chain:
    """Reads the bytes of a journal as far as they hold together."""
    lines = tuple(_whole_lines(raw))
    bodies = tuple(_parsed(lines))
    sound, fault = _follow(lines, bodies)
    end = lines[sound - 1][2] if sound else 0
    torn = sound == len(lines) and end < len(raw) and not _entry_follows(raw, end)
    if not fault and end < len(raw):
        fault = "it is not as it was written"
    return Chain(
        format=_format(bodies),
        bodies=bodies[:sound],
        hashes=tuple(digest for digest, _, _ in lines[:sound]),
        ends=tuple(end for _, _, end in lines[:sound]),
        fault=fault,
        torn=torn,
    )


def damage(chain: Chain, saved: Head | None) -> tuple[int, str] | None:
    """Where a journal is damaged and why, or None.

    Parameters
    ----------
    chain : what the file holds.
    saved : the last entry that was acknowledged, as the head anchor has it.
    """
    reached = chain.head.sequence
    if chain.fault and not chain.torn:
        return reached + 1, chain.fault
    if saved is None:
        return reached + 1, "its .head file, which says what comes last, is missing or damaged"
    if saved.sequence > reached:
        return reached + 1, f"{saved.sequence - reached} saved entries are missing or changed"
    if saved.sequence and saved.hash != chain.hashes[saved.sequence - 1]:
        return saved.sequence, "it is not the entry that was saved, its .head file says another"
    return None


def _whole_lines(raw: bytes) -> Iterator[Line]:
    begin = 0
    while end := raw.find(b"\n", begin) + 1:
        found = unframed(raw[begin:end])
        if found is None:
            return
        yield *found, end
        begin = end


def _parsed(lines: Sequence[Line]) -> Iterator[Body]:
    """Bodies one by one until one cannot be read; parsed in batches, which is twice as fast."""
    for batch in _batches(lines):
        parsed = _parsed_together(batch)
        if parsed is None:
            yield from _parsed_singly(batch)
            return
        yield from parsed


def _batches(lines: Sequence[Line]) -> Iterator[list[bytes]]:
    batch: list[bytes] = []
    size = 0
    for _, body, _ in lines:
        batch.append(body)
        size += len(body)
        if size >= BATCH:
            yield batch
            batch, size = [], 0
    yield batch


def _parsed_together(bodies: list[bytes]) -> list[Body] | None:
    parsed = _parsed_or_none(b"[" + b",".join(bodies) + b"]")
    return parsed if isinstance(parsed, list) and len(parsed) == len(bodies) else None


def _parsed_singly(bodies: list[bytes]) -> Iterator[Body]:
    for body in bodies:
        parsed = _parsed_or_none(body)
        if parsed is None:
            return
        yield parsed


def _parsed_or_none(text: bytes) -> Any | None:  # noqa: ANN401 - JSON may hold anything
    try:
        return json.loads(text.decode())
    except (ValueError, RecursionError):
        return None


def _format(bodies: Sequence[object]) -> object:
    first = bodies[0] if bodies else None
    return first.get("format", FORMAT) if isinstance(first, dict) else FORMAT


def _follow(lines: Sequence[Line], bodies: Sequence[Body]) -> tuple[int, str]:
    """How many entries hold together, and what is wrong with the next."""
    previous, device = START.hash, None
    for sequence, (body, line) in enumerate(zip(bodies, lines, strict=False), 1):
        fault = _fault(body, sequence, previous, device)
        if fault:
            return sequence - 1, fault
        previous, device = line[0], body["device"]
    unread = len(bodies) < len(lines)
    return len(bodies), "it is whole but cannot be read" if unread else ""


def _fault(body: Mapping[str, object], sequence: int, previous: str, device: str | None) -> str:
    try:
        if body["sequence"] != sequence:
            return f"it bears the number {body['sequence']}"
        if body["previous"] != previous:
            return "it does not follow from the entry before it"
        if device not in (None, body["device"]):
            return f"it was written by {body['device']}, the ones before by {device}"
        known = sequence > 1 or body["format"] == FORMAT
        whole = known and isinstance(body["operations"], list) and isinstance(body["time"], str)
    except (KeyError, TypeError):
        whole = False
    return "" if whole else "it is not an entry of a journal"


def _entry_follows(raw: bytes, end: int) -> bool:
    """Whether a whole line stands anywhere after a place: then what lies between was damaged."""
    begin = raw.find(b"\n", end) + 1
    while begin and (stop := raw.find(b"\n", begin) + 1):
        if unframed(raw[begin:stop]):
            return True
        begin = stop
    return False
