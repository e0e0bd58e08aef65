"""What a printed blank holds: phases, steps and what is written in by hand."""

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Column:
    """One quantity of a table of readings."""

    label: str
    unit: str
    limits: str


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer, and who may accept it where it is outside."""

    text: str
    otherwise: str


@dataclass(frozen=True, slots=True)
class Room:
    """Room for one entry or worked-out value; which parts are filled depends on `kind`.

    `box` a figure, `tick` a confirmation, `words` a line, `choice` one of several answers,
    `table` readings at `rows`, `proof` a shutdown with its `checks`, `sign` a signature.
    """

    kind: str
    label: str
    unit: str = ""
    limits: str = ""
    otherwise: str = ""
    choices: tuple[Choice, ...] = ()
    columns: tuple[Column, ...] = ()
    rows: tuple[str, ...] = ()
    checks: tuple[str, ...] = ()
    closed: str = ""


@dataclass(frozen=True, slots=True)
class BlankStep:
    """One step: what comes before it, its caution, its order, and room for its entries.

    `left_out` says why the job sheet does not ask for it; "" if it may be asked for.
    """

    number: int
    title: str
    text: str
    caution: tuple[str, str]
    terms: tuple[str, ...]
    rooms: tuple[Room, ...]
    left_out: str = ""


@dataclass(frozen=True, slots=True)
class BlankPhase:
    """A part of the job."""

    title: str
    steps: tuple[BlankStep, ...]


@dataclass(frozen=True, slots=True)
class Blank:
    """A whole blank; `facts` and `instruments` are what the job sheet states, if one is given."""

    id: str
    title: str
    revision: int
    fingerprint: str
    phases: tuple[BlankPhase, ...]
    again: tuple[tuple[str, str], ...]
    facts: tuple[tuple[str, str], ...]
    instruments: tuple[tuple[str, str], ...] = field(default=())
    people: tuple[tuple[str, str], ...] = field(default=())
    sheet_fingerprint: str = ""
