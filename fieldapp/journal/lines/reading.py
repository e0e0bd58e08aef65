"""Reading a journal that may be damaged, or open elsewhere, without touching it."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from fieldapp.journal.errors import JournalDamagedError, JournalFormatError
from fieldapp.journal.lines import disk
from fieldapp.journal.lines.anchor import anchor_path, heads_at, newest
from fieldapp.journal.lines.chain import FORMAT, Body, Chain, Head, damage, unframed, walk


@dataclass(frozen=True, slots=True)
class Inspection:
    """What a journal holds, and what is wrong with it if anything is."""

    path: Path
    raw: bytes
    chain: Chain
    saved: Head | None
    entry: int
    why: str

    @property
    def bodies(self) -> tuple[Body, ...]:
        """The entries up to the first damage."""
        return self.chain.bodies[: self.entry - 1] if self.why else self.chain.bodies

    @property
    def sound(self) -> bytes:
        """The bytes of those entries, as they were written."""
        return self.raw[: self.chain.end_of(len(self.bodies))]

    @property
    def torn(self) -> int:
        """How many bytes at the end are not a whole entry and were never acknowledged."""
        return 0 if self.why else len(self.raw) - self.chain.end

    @property
    def words(self) -> str:
        """What is wrong, in a sentence; nothing if all is in order."""
        if self.why:
            return f"{self.path}, entry {self.entry}: {self.why}"
        if self.torn:
            return (
                f"{self.path}: its last {self.torn} bytes are not a whole entry "
                f"and were never acknowledged"
            )
        return ""


def inspect(path: Path | str) -> Inspection:
    """All that can be said of a journal; the head is read first, since it may only lag behind."""
    path = Path(path)
    with disk.named_trouble(path):
        saved = newest(heads_at(anchor_path(path)))
        raw = path.read_bytes()
    chain = chain_of_known_format(path, raw)
    entry, why = damage(chain, saved) or (0, "")
    return Inspection(path, raw, chain, saved, entry, why)


def sound_inspection(path: Path | str) -> Inspection:
    """The same of a journal that must not be damaged."""
    found = inspect(path)
    if found.why:
        raise JournalDamagedError(found.path, found.entry, found.why)
    return found


def salvage(path: Path | str) -> tuple[tuple[Body, ...], str]:
    """The entries up to the first damage and what is wrong; changes nothing.

    The text is empty if the journal is sound.
    """
    found = inspect(path)
    return found.bodies, found.words


def whole_lines(raw: bytes) -> list[bytes]:
    """Every line that is as it was written, wherever it stands."""
    return [line for line in raw.splitlines(keepends=True) if unframed(line)]


def sound_chain(
    path: Path, raw: bytes, saved: Head | None, each: Callable[[Body], object] | None = None
) -> Chain:
    """The chain of a journal's bytes, or why it cannot be relied on; `each` as in `walk`."""
    chain = chain_of_known_format(path, raw, each)
    found = damage(chain, saved)
    if found:
        raise JournalDamagedError(path, *found)
    return chain


def chain_of_known_format(
    path: Path, raw: bytes, each: Callable[[Body], object] | None = None
) -> Chain:
    """The chain of a journal's bytes, if this version can read it."""
    chain = walk(raw, each)
    if chain.format != FORMAT:
        raise JournalFormatError(path, chain.format, FORMAT)
    return chain
