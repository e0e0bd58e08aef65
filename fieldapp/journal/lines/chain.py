"""The lines of a journal and how each holds on to the one before; knows no file."""

from array import array
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from msgspec import UNSET, DecodeError, Struct, UnsetType, ValidationError
from msgspec.json import Decoder

from fieldapp.journal.lines.canonical import no_float, written_and_read

FORMAT = 1
BLOCK = 64 * 1024
"""Bytes of a journal that are taken apart at once: few enough to stay close to the processor."""

_OPENING, _BETWEEN, _CLOSING = b'["', b'",', b"]\n"
_BEFORE = 68  # bytes of a line before its body
_FRAME = _BEFORE + len(_CLOSING)


class Body(Struct, frozen=True, gc=False, forbid_unknown_fields=True):
    """What one entry says; only the first one names the format."""

    device: str
    operations: list[Any]
    previous: str
    sequence: int
    time: str
    format: int | UnsetType = UNSET


class Head(Struct, frozen=True, gc=False):
    """The entry a journal ends with."""

    sequence: int
    hash: str


START = Head(0, "0" * 64)
NOT_AN_ENTRY = "it is not an entry of a journal"


@dataclass(frozen=True, slots=True)
class Chain:
    """What the bytes of a journal hold: entries that hold together, then perhaps a fault."""

    raw: bytes
    format: object
    device: str
    bodies: tuple[Body, ...]
    ends: "array[int]"
    fault: str
    torn: bool

    @property
    def head(self) -> Head:
        """The last entry that holds together with those before it."""
        count = len(self.ends)
        return Head(count, self.hash_of(count)) if count else START

    @property
    def end(self) -> int:
        """The place in the file where that entry ends."""
        return self.end_of(len(self.ends))

    def end_of(self, sequence: int) -> int:
        """The place in the file where an entry ends."""
        return self.ends[sequence - 1] if sequence else 0

    def hash_of(self, sequence: int) -> str:
        """The hash of an entry, which stands in front of it."""
        begin = self.end_of(sequence - 1) + len(_OPENING)
        return self.raw[begin : begin + len(START.hash)].decode()

    def holds(self, head: Head) -> bool:
        """Whether an entry is in it."""
        return 0 < head.sequence <= len(self.ends) and self.hash_of(head.sequence) == head.hash


def framed(body: bytes) -> tuple[str, bytes]:
    r"""The hash of a body and the line that keeps both.

    >>> framed(b"{}")[1]
    b'["44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a",{}]\n'
    """
    digest = sha256(body).hexdigest()
    return digest, b"".join((_OPENING, digest.encode(), _BETWEEN, body, _CLOSING))


def unframed(line: bytes) -> tuple[str, bytes] | None:
    """Hash and body of a line, or None if a single bit of it is not as it was written."""
    body = line[_BEFORE : -len(_CLOSING)]
    digest, whole = framed(body)
    return (digest, body) if whole == line else None


def next_entry(
    head: Head, *, device: str, time: str, operations: list[Any]
) -> tuple[Head, Body, bytes]:
    """The head after a further entry, the body a reader of it will find, and its line."""
    sequence = head.sequence + 1
    known = FORMAT if head == START else UNSET
    entry = Body(device, operations, head.hash, sequence, time, known)
    written, body = written_and_read(entry, operations, _READER_BACK.decode, "operations")
    digest, line = framed(written)
    return Head(sequence, digest), body, line


def walk(raw: bytes, each: Callable[[Body], object] | None = None) -> Chain:
    """Reads the bytes of a journal as far as they hold together.

    Parameters
    ----------
    raw : the bytes.
    each : is given every entry in its turn; the chain then keeps none of them.
    """
    bodies: list[Body] = []
    ends, device, fault = _follow(raw, each or bodies.append)
    end = ends[-1] if ends else 0
    torn = not fault and end < len(raw) and not _entry_follows(raw, end)
    if not fault and end < len(raw):
        fault = "it is not as it was written"
    return Chain(
        raw=raw,
        format=FORMAT if ends else _format(raw),
        device=device,
        bodies=tuple(bodies),
        ends=ends,
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
        lost = saved.sequence - reached
        many = "1 saved entry is" if lost == 1 else f"{lost} saved entries are"
        return reached + 1, f"{many} missing or changed"
    if saved.sequence and not chain.holds(saved):
        return saved.sequence, "it is not the entry that was saved, its .head file says another"
    return None


_READER = Decoder(Body)
_READER_BACK = Decoder(Body, float_hook=no_float)
_READER_OF_ANYTHING = Decoder()
_UNREADABLE = (DecodeError, UnicodeDecodeError, RecursionError)


def _follow(raw: bytes, each: Callable[[Body], object]) -> tuple["array[int]", str, str]:
    """Where each entry ends that holds on to the one before, whose they are, what is wrong next."""
    ends, end = array("Q"), 0
    device, previous, read = "", START.hash, _READER.decode
    for sequence, (text, digest) in enumerate(_as_written(raw), 1):
        try:
            body = read(text)
        except _UNREADABLE as problem:
            return ends, device, _why_unreadable(problem)
        if body.sequence != sequence or body.previous != previous or body.device != device:
            fault = _fault(body, sequence, previous, device)
            if fault:
                return ends, device, fault
        each(body)
        end += len(text) + _FRAME
        ends.append(end)
        previous, device = digest, body.device
    return ends, device, ""


def _as_written(raw: bytes) -> Iterator[tuple[bytes, str]]:
    """Body and hash of each line up to the first that is not as it was written."""
    for lines in _blocks(raw):
        for line in lines:
            body = line[_BEFORE:-1]
            digest = sha256(body).hexdigest()
            if line != b"".join((_OPENING, digest.encode(), _BETWEEN, body, b"]")):
                return
            yield body, digest


def _blocks(raw: bytes) -> Iterator[list[bytes]]:
    """The lines, a few at a time: all of them at once would fill memory with a second copy."""
    begin = 0
    while end := raw.rfind(b"\n", begin, begin + BLOCK) + 1 or raw.find(b"\n", begin + BLOCK) + 1:
        yield raw[begin : end - 1].split(b"\n")
        begin = end


def _fault(body: Body, sequence: int, previous: str, device: str) -> str:
    if body.sequence != sequence:
        return f"it bears the number {body.sequence}"
    if body.previous != previous:
        return "it does not follow from the entry before it"
    if sequence > 1 and device != body.device:
        return f"it was written by {body.device}, the ones before by {device}"
    return "" if sequence > 1 or body.format == FORMAT else NOT_AN_ENTRY


def _why_unreadable(problem: Exception) -> str:
    if isinstance(problem, ValidationError):
        return NOT_AN_ENTRY
    return "it is whole but cannot be read"


def _format(raw: bytes) -> object:
    """The format that the first entry names, whatever else it holds."""
    written = next(_as_written(raw), None)
    try:
        first = _READER_OF_ANYTHING.decode(written[0]) if written else None
    except _UNREADABLE:
        first = None
    return first.get("format", FORMAT) if isinstance(first, dict) else FORMAT


def _entry_follows(raw: bytes, end: int) -> bool:
    """Whether a whole line stands anywhere after a place: then what lies between was damaged."""
    begin = raw.find(b"\n", end) + 1
    while begin and (stop := raw.find(b"\n", begin) + 1):
        if unframed(raw[begin:stop]):
            return True
        begin = stop
    return False
