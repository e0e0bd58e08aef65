"""What can happen in a job; the journal keeps these, and nothing else, for ever."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

import cattrs
from cattrs.strategies import configure_tagged_union

Fields = Mapping[str, str]
"""What a person gave, field by field, exactly as typed; a number's unit stands beside it."""

Stroke = tuple[tuple[str, str], ...]
"""A pen stroke of a drawn signature: points across and down, 0 to 1, as decimals in text."""


@dataclass(frozen=True, slots=True)
class Begun:
    """A job was begun from a checklist and a job sheet, whose texts the journal keeps whole.

    A job that follows a hookup names it in `follows`; `head` is the hash that the hookup's journal
    ended in when this job began.
    """

    number: str
    checklist: str
    sheet: str
    follows: str = ""
    head: str = ""


@dataclass(frozen=True, slots=True)
class Entered:
    """Something was given at an entry; `corrects` is the event that it corrects (else -1)."""

    entry: str
    fields: Fields
    instrument: str = ""
    reason: str = ""
    corrects: int = -1


@dataclass(frozen=True, slots=True)
class Started:
    """A trace or a hold began (again): a new attempt."""

    entry: str


@dataclass(frozen=True, slots=True)
class Read:
    """One timed reading of a trace or a hold; `taken` is when the needle stood there.

    `instrument` is named only where another one was used than the columns name.
    """

    entry: str
    fields: Fields
    taken: datetime
    instrument: str = ""
    reason: str = ""
    corrects: int = -1


@dataclass(frozen=True, slots=True)
class Ended:
    """A trace or a hold ended, with what was found."""

    entry: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Explained:
    """The technician says why something outside its limits is kept; `subject` is what."""

    subject: str
    reason: str


@dataclass(frozen=True, slots=True)
class Accepted:
    """A deviation was accepted, by whom and on what condition."""

    subject: str
    accepter: str
    role: str
    condition: str
    document: str = ""


@dataclass(frozen=True, slots=True)
class Promised:
    """A deviation stays open: who puts it right, and by which day (YYYY-MM-DD)."""

    subject: str
    person: str
    due: str


@dataclass(frozen=True, slots=True)
class Seen:
    """The crew lead has seen a correction or a reason; `sequence` is that event's."""

    sequence: int


@dataclass(frozen=True, slots=True)
class Reported:
    """Something happened that makes steps stale, such as a joint touched."""

    happening: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Closed:
    """A valve was closed; never gated, never refused."""

    part: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class MadeSafe:
    """Something was done to make safe; never gated, never refused."""

    done: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Blocked:
    """Something was blocked, opened or isolated, by whom and in which role, until when.

    `until` is a time as people write it, "" where nobody named one. No login: a name is enough.
    """

    what: str
    person: str
    role: str
    until: str = ""


@dataclass(frozen=True, slots=True)
class Restored:
    """What `sequence` blocked is back as it was, restored and proved by whom, and how."""

    sequence: int
    person: str
    role: str
    proved: str = ""


@dataclass(frozen=True, slots=True)
class HandedOver:
    """Somebody left the site with things in force; `person` took them over ("" for nobody)."""

    in_force: tuple[str, ...]
    person: str = ""
    role: str = ""


@dataclass(frozen=True, slots=True)
class SentBack:
    """The crew lead sent the job back, saying what to do again."""

    reason: str


@dataclass(frozen=True, slots=True)
class Signed:
    """A person signed in a role; `head` is the journal's head that was signed.

    By strokes on the pad, or by their printed name, `typed` by a hand that cannot draw.
    """

    role: str
    name: str
    head: str
    strokes: tuple[Stroke, ...] = ()
    typed: str = ""


@dataclass(frozen=True, slots=True)
class GapStated:
    """A person states that the disk lost entries that were kept, and lets the work go on.

    `missing` is how many; `lost_head` the hash of the last of them, which nobody can read now.
    `certificate` and `signature` (hexadecimal) are the person's, where the tablet has their key.
    """

    missing: int
    lost_head: str
    reason: str
    certificate: str = ""
    signature: str = ""


@dataclass(frozen=True, slots=True)
class Aside:
    """An event that another tablet kept and that does not go on: its place there, and itself."""

    device: str
    place: int
    event: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Settled:
    """A person settles which of the stories goes on that tablets told apart from each other.

    `after` is the last event that all of them have (-1: none), `kept` the tablet whose last event
    goes on. What the others kept stays readable in `aside`, and nothing of it counts.
    """

    after: int
    kept: str
    reason: str
    aside: tuple[Aside, ...] = ()

    def events(self) -> tuple["Event", ...]:
        """Return the events that were set aside, as they were kept."""
        return tuple(event_of(each.event) for each in self.aside)


What = (
    Begun | Entered | Started | Read | Ended | Explained | Accepted | Promised | Seen | Reported
    | Closed | MadeSafe | Blocked | Restored | HandedOver | SentBack | Signed | GapStated | Settled
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Event:
    """What happened, when by the tablet's clock, and who did it; `sequence` counts from 0."""

    sequence: int
    at: datetime
    by: str
    what: What


def _converter() -> cattrs.Converter:
    converter = cattrs.Converter(forbid_extra_keys=True, detailed_validation=False)
    converter.register_unstructure_hook(datetime, datetime.isoformat)
    converter.register_structure_hook(datetime, lambda text, _: datetime.fromisoformat(text))
    configure_tagged_union(What, converter, tag_name="kind", tag_generator=lambda c: c.__name__)
    return converter


_CONVERTER = _converter()


def document_of(event: Event) -> dict[str, object]:
    """Return the event as the journal stores it: ASCII keys, texts and whole numbers only."""
    document: dict[str, object] = _plain(_CONVERTER.unstructure(event))
    return document


def _plain(value: object) -> Any:  # noqa: ANN401 - JSON has no narrower type
    """Return a value with its tuples as lists, as JSON has them."""
    if isinstance(value, Mapping):
        return {key: _plain(part) for key, part in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(part) for part in value]
    return value


def event_of(document: Mapping[str, object]) -> Event:
    """Return the event that `document_of` stored."""
    return _CONVERTER.structure(document, Event)
