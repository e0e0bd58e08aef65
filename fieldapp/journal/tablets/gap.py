"""Going on after a disk lost the end of a journal: a named person states the gap first.

It happens when the power goes on a tablet whose disk says that it has written what it has not.
The head beside the journal then knows of entries that are nowhere. What was found is kept aside,
and the statement becomes the next entry.
"""

from collections.abc import Callable
from contextlib import ExitStack
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from unicodedata import normalize

from fieldapp.errors import FieldAppError
from fieldapp.job.events import Event, GapStated, document_of
from fieldapp.journal.errors import JournalOfOtherDeviceError
from fieldapp.journal.lines import disk
from fieldapp.journal.lines.anchor import anchor_path, both_places
from fieldapp.journal.lines.canonical import canonical
from fieldapp.journal.lines.chain import next_entry, walk
from fieldapp.journal.lines.reading import Inspection, inspect
from fieldapp.journal.tablets.story import kept_in, told
from fieldapp.journal.tablets.union import HEADS, events_of, heads_of, kept_by, other_journals
from fieldapp.whole import write_whole

Sign = Callable[[bytes], tuple[str, str]]
PURPOSE = "statement of a gap, format 1"


class NoGapError(FieldAppError):
    """There is no gap that a person could state."""

    def __init__(self, path: Path, why: str) -> None:
        super().__init__(f"{path}: {why}")
        self.path = path
        self.why = why

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return f"There is no gap to state: {self.why.replace('its .head file', 'its head')}"


class GapUnnamedError(FieldAppError):
    """A gap is stated by somebody, and for a reason."""

    def __init__(self) -> None:
        super().__init__("say who states the gap, and why the entries are missing")


@dataclass(frozen=True, slots=True)
class Gap:
    """What a journal lost: how many entries, after which one, and the hash of the last."""

    path: Path
    after: int
    missing: int
    lost_head: str


def gap_in(path: Path) -> Gap:
    """Return what the end of a journal lost; nothing else may be wrong with it."""
    return _gap(_before_its_statement(inspect(path)))


def state_gap(
    path: Path,
    *,
    device: str,
    who: str,
    reason: str,
    clock: Callable[[], datetime],
    sign: Sign | None = None,
) -> Gap:
    """Keep a person's statement as the next entry, so that the journal can be opened again.

    `sign` gives that person's certificate and signature; a tablet without keys has none.
    """
    if not who.strip() or not reason.strip():
        raise GapUnnamedError
    with ExitStack() as held:
        held.enter_context(disk.named_trouble(path))
        held.enter_context(disk.alone(path))
        found = _before_its_statement(inspect(path))
        gap = _gap(found)
        if found.bodies[0].device != device:
            raise JournalOfOtherDeviceError(path, device, found.bodies[0].device)
        _keep_aside(path, path.read_bytes())
        _keep_aside(anchor_path(path), anchor_path(path).read_bytes())
        stated = GapStated(gap.missing, gap.lost_head, normalize("NFC", reason))
        _go_on(found, stated, who, clock(), sign)
    return gap


def text_of(event: Event) -> bytes:
    """What a person signs who states a gap; the lost head stands for journal and place."""
    what = event.what
    assert isinstance(what, GapStated)  # noqa: S101 - nothing else is signed here
    return canonical(document_of(replace(event, what=replace(what, certificate="", signature=""))))


def _before_its_statement(found: Inspection) -> Inspection:
    """A journal without a statement whose head a power cut kept away: it is made once more."""
    whole = found.chain.bodies
    *_, last = (None, *events_of(whole[-1:]))
    stated = last and last["what"]["kind"] == GapStated.__name__ and last["what"]["lost_head"]
    if not stated or found.saved is None or stated != found.saved.hash:
        return found
    raw = found.raw[: found.chain.end_of(len(whole) - 1)]
    chain = walk(raw)
    return replace(found, raw=raw, chain=chain, entry=len(whole), why="its end is missing")


def _gap(found: Inspection) -> Gap:
    path, head, saved = found.path, found.chain.head, found.saved
    if not found.why:
        raise NoGapError(path, "nothing is missing; open the job")
    if found.chain.fault and not found.chain.torn:
        raise NoGapError(path, "entries in it were changed; give it to the office as it is")
    if saved is None or saved.sequence <= head.sequence:
        raise NoGapError(path, "its .head file does not say what is missing; give it to the office")
    if not found.chain.bodies:
        raise NoGapError(path, "no entry is left; restore it from a backup, or begin the job again")
    return Gap(path, head.sequence, saved.sequence - head.sequence, saved.hash)


def _keep_aside(path: Path, content: bytes) -> None:
    write_whole(disk.free_name(path, "gap"), content)


def _go_on(found: Inspection, what: GapStated, who: str, now: datetime, sign: Sign | None) -> None:
    """The journal before its head: until both are there, the gap is still refused."""
    others = other_journals(found.path.parent, found.path.stem)
    number, heads = _next_number(found, others)
    event = Event(number, now, who, what)
    if sign is not None:
        certificate, signature = sign(text_of(event))
        event = replace(event, what=replace(what, certificate=certificate, signature=signature))
    place = 1 + len(events_of(found.bodies))
    head, _, line = next_entry(
        found.chain.head,
        device=found.bodies[0].device,
        time=now.isoformat(timespec="milliseconds"),
        operations=[*heads, ["insert", "events", place, document_of(event)]],
    )
    write_whole(found.path, found.sound + line)
    write_whole(anchor_path(found.path), both_places(head))


def _next_number(
    found: Inspection, others: tuple[Inspection, ...]
) -> tuple[int, list[list[object]]]:
    """The number of the statement, and the heads of others that it follows from if they are new.

    Where others went on meanwhile without this tablet, it follows from what this one knew.
    """
    own = list(kept_in(found.bodies))
    story = told([*own, *kept_by(others)])
    if not isinstance(story, tuple):
        return 1 + max(each.number for each in own), []
    count = sum(op[:2] == ["insert", HEADS] for body in found.bodies for op in body.operations)
    heads: list[object] = ["insert", HEADS, count + 1, heads_of(others)]
    return 1 + story[-1].number, [heads] if others else []
