"""The lines of a journal and how each holds on to the one before; knows no file."""

from collections.abc import Sequence
from dataclasses import dataclass
from hashlib import sha256
from itertools import accumulate
from typing import Any

from msgspec import UNSET, DecodeError, Raw, Struct, UnsetType, ValidationError
from msgspec.json import Decoder, Encoder

from fieldapp.journal.canonical import there_and_back

FORMAT = 1

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


class _Written(Struct, frozen=True, gc=False):
    """A body whose operations are canonical bytes already."""

    device: str
    operations: Raw
    previous: str
    sequence: int
    time: str
    format: int | UnsetType


@dataclass(frozen=True, slots=True)
class Head:
    """The entry a journal ends with."""

    sequence: int
    hash: str


START = Head(0, "0" * 64)
NOT_AN_ENTRY = "it is not an entry of a journal"


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
    body = line[_BEFORE : -len(_CLOSING)]
    digest, whole = framed(body)
    return (digest, body) if whole == line else None


def next_entry(
    head: Head, *, device: str, time: str, operations: list[Any]
) -> tuple[Head, Body, bytes]:
    """The head after a further entry, the body a reader of it will find, and its line."""
    written, read = there_and_back(operations, "operations")
    sequence = head.sequence + 1
    known = FORMAT if head == START else UNSET
    body = Body(device, read, head.hash, sequence, time, known)
    entry = _Written(device, Raw(written), head.hash, sequence, time, known)
    digest, line = framed(_WRITER.encode(entry))
    return Head(sequence, digest), body, line


def walk(raw: bytes) -> Chain:
    """Reads the bytes of a journal as far as they hold together."""
    written, hashes = _as_written(raw)
    bodies, fault = _following(written, hashes)
    ends = tuple(accumulate(len(body) + _FRAME for body in written[: len(bodies)]))
    end = ends[-1] if ends else 0
    torn = not fault and end < len(raw) and not _entry_follows(raw, end)
    if not fault and end < len(raw):
        fault = "it is not as it was written"
    return Chain(
        format=_format(written),
        bodies=tuple(bodies),
        hashes=tuple(hashes[: len(bodies)]),
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
    if saved.sequence and saved.hash != chain.hashes[saved.sequence - 1]:
        return saved.sequence, "it is not the entry that was saved, its .head file says another"
    return None


_WRITER = Encoder(order="sorted")
_READER = Decoder(Body)
_READER_OF_ANYTHING = Decoder()
_UNREADABLE = (DecodeError, UnicodeDecodeError, RecursionError)


def _as_written(raw: bytes) -> tuple[list[bytes], list[str]]:
    """Bodies and hashes of the lines up to the first that is not as it was written."""
    written: list[bytes] = []
    hashes: list[str] = []
    for line in raw.split(b"\n")[:-1]:
        body = line[_BEFORE:-1]
        digest = sha256(body).hexdigest()
        if line != b"".join((_OPENING, digest.encode(), _BETWEEN, body, b"]")):
            break
        written.append(body)
        hashes.append(digest)
    return written, hashes


def _following(written: Sequence[bytes], hashes: Sequence[str]) -> tuple[list[Body], str]:
    """The entries that hold together, and what is wrong with the next."""
    bodies: list[Body] = []
    device, previous, read = None, START.hash, _READER.decode
    for sequence, (text, digest) in enumerate(zip(written, hashes, strict=True), 1):
        try:
            body = read(text)
        except _UNREADABLE as problem:
            return bodies, _why_unreadable(problem)
        if body.sequence != sequence or body.previous != previous or body.device != device:
            fault = _fault(body, sequence, previous, device)
            if fault:
                return bodies, fault
        bodies.append(body)
        previous, device = digest, body.device
    return bodies, ""


def _fault(body: Body, sequence: int, previous: str, device: str | None) -> str:
    if body.sequence != sequence:
        return f"it bears the number {body.sequence}"
    if body.previous != previous:
        return "it does not follow from the entry before it"
    if device not in (None, body.device):
        return f"it was written by {body.device}, the ones before by {device}"
    return "" if device or body.format == FORMAT else NOT_AN_ENTRY


def _why_unreadable(problem: Exception) -> str:
    if isinstance(problem, ValidationError):
        return NOT_AN_ENTRY
    return "it is whole but cannot be read"


def _format(written: Sequence[bytes]) -> object:
    """The format that the first entry names, whatever else it holds."""
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
