"""What a record says of where its figures come from, and of the people and things about it."""

from dataclasses import dataclass
from typing import Literal

from fieldapp.record.chapters.shapes.notation import Digits, Jpeg, Moment, State
from fieldapp.record.chapters.shapes.shapes import (
    Deviation,
    Evacuation,
    Figure,
    Judgement,
    PhaseRows,
    Repeat,
    Shutdown,
)

PaperName = Literal["A4", "Letter"]


@dataclass(frozen=True, slots=True)
class Term:
    """One input of a computed value."""

    name: str
    label: str
    value: str
    unit: str


@dataclass(frozen=True, slots=True)
class Computation:
    """A computed value with its rule in words, its inputs, where it holds, and its source."""

    id: str
    label: str
    formula: str
    rule: str
    inputs: tuple[Term, ...]
    value: str
    unit: str
    uncertainty: str
    judgement: Judgement
    valid_for: str
    source: str


@dataclass(frozen=True, slots=True)
class Agreed:
    """A figure or answer that was fixed before the job: the checklist's, or the owner's."""

    id: str
    label: str
    value: str
    unit: str
    source: str


@dataclass(frozen=True, slots=True)
class Stated:
    """One line of the job sheet."""

    id: str
    section: str
    label: str
    value: str


@dataclass(frozen=True, slots=True)
class Instrument:
    """An instrument, what it was used for, and how much of its calibration interval is used up."""

    id: str
    name: str
    serial: str
    used_for: tuple[str, ...]
    accuracy: str
    calibrated: str
    due: str
    used_up_percent: int
    days_left: int


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody of the crew; `events` is how many lines of the journal are theirs."""

    name: str
    initials: str
    role: str
    company: str
    events: int


@dataclass(frozen=True, slots=True)
class Warned:
    """A caution that was shown before a step."""

    step: str
    title: str
    word: str
    text: str


@dataclass(frozen=True, slots=True)
class Happened:
    """Something reported, made safe, closed or sent back, and what was done again after it."""

    at: Moment
    kind: str
    what: str
    note: str
    by: str
    again: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Signature:
    """A signature that stands: whose, as what, when, the pen strokes (0 to 1).

    `typed` is the printed name where a hand that cannot draw typed it instead, `key` the SHA-256
    of the person's public key, where the roster gave it.
    """

    role: str
    name: str
    at: Moment
    meaning: str
    head: Digits
    key: Digits
    strokes: tuple[tuple[tuple[str, str], ...], ...]
    typed: str


@dataclass(frozen=True, slots=True)
class Journal:
    """Where the journal ends: the last line's number and hash, and how many events it holds."""

    sequence: int
    hash: Digits
    events: int


@dataclass(frozen=True, slots=True)
class Outcome:
    """How the job stands, in words and in counts."""

    state: State
    sentence: str
    counts: str
    trips: int
    trips_proven: int
    deviations_accepted: int
    deviations_open: int
    tests_repeated: int
    entries_corrected: int
    steps_open: int


@dataclass(frozen=True, slots=True)
class Heading:
    """What the record is of: its number, the unit, the place, the method, and when.

    `follows` is the number of the commissioning record that this one comes after, and
    `follows_head` the hash that its journal ended in; `libraries` are those that drew the pages.
    """

    kind: str
    number: str
    revision: int
    title: str
    follows: str
    follows_head: Digits
    unit: str
    unit_lines: tuple[str, ...]
    site: str
    owner: str
    place: str
    crew: str
    began: Moment
    issued: Moment
    checklist: str
    checklist_revision: int
    checklist_sha256: Digits
    sheet_sha256: Digits
    program: str
    libraries: tuple[str, ...]
    paper: PaperName


@dataclass(frozen=True, slots=True)
class Earlier:
    """A revision that was signed and sent back: what its signature stood for, and why."""

    revision: int
    head: Digits
    signed_by: str
    signed_at: Moment
    sent_back_by: str
    sent_back_at: Moment
    reason: str


@dataclass(frozen=True, slots=True)
class Photo:
    """A photo of an entry, made smaller for the record; `jpeg` is Base64.

    `sha256` is that of the file as it was taken; `missing` says why there is no picture.
    """

    entry: str
    label: str
    step: str
    at: Moment
    by: str
    name: str
    sha256: Digits
    jpeg: Jpeg
    missing: str


@dataclass(frozen=True, slots=True)
class Diagram:
    """What the line diagram shows: (part, state) pairs, and what is written beside them."""

    parts: tuple[tuple[str, str], ...]
    isolation: str
    suction_tag: str
    return_tag: str
    unit: str
    loop: str
    bond: str
    level: str


@dataclass(frozen=True, slots=True)
class Content:
    """A whole record."""

    format: Literal[1]
    heading: Heading
    earlier: tuple[Earlier, ...]
    outcome: Outcome
    figures: tuple[Figure, ...]
    deviations: tuple[Deviation, ...]
    repeats: tuple[Repeat, ...]
    diagram: Diagram | None
    evacuation: Evacuation | None
    shutdowns: tuple[Shutdown, ...]
    phases: tuple[PhaseRows, ...]
    computations: tuple[Computation, ...]
    agreed: tuple[Agreed, ...]
    stated: tuple[Stated, ...]
    instruments: tuple[Instrument, ...]
    people: tuple[Person, ...]
    photos: tuple[Photo, ...]
    cautions: tuple[Warned, ...]
    happenings: tuple[Happened, ...]
    signatures: tuple[Signature, ...]
    journal: Journal
    notices: tuple[str, ...]
