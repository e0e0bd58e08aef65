"""What a checklist is made of, once it has been read and found sound."""

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum


class Kind(StrEnum):
    """What a person gives at an entry."""

    CONFIRM = "confirm"
    NUMBER = "number"
    CHOICE = "choice"
    TEXT = "text"
    SERIAL = "serial"
    TIME = "time"
    TRACE = "trace"
    HOLD = "hold"
    ALARM = "alarm"
    PHOTO = "photo"
    SIGN = "sign"


class Follows(StrEnum):
    """What has to be before a list begins: nothing, a hookup, or a hookup that is signed off."""

    NOTHING = ""
    HOOKUP = "hookup"
    SIGNED_HOOKUP = "signed hookup"


class Waive(StrEnum):
    """Who may accept an entry that is not inside its limits."""

    NEVER = "never"
    OWNER = "owner"
    LEAD = "lead"
    REASON = "reason"


class Rule(StrEnum):
    """How a reading is judged: as it stands, or with the instrument's uncertainty taken off."""

    SIMPLE = "simple"
    GUARDED = "guarded"


class SignalWord(StrEnum):
    """How much is at stake, by ANSI Z535 and ISO 3864."""

    DANGER = "DANGER"
    WARNING = "WARNING"
    CAUTION = "CAUTION"
    NOTICE = "NOTICE"


@dataclass(frozen=True, slots=True)
class Caution:
    """What can hurt someone, said before the step."""

    word: SignalWord
    text: str


@dataclass(frozen=True, slots=True)
class Bound:
    """A limit's figure: a number in the entry's unit, or the name of a value."""

    number: Decimal | None = None
    name: str = ""


@dataclass(frozen=True, slots=True)
class Limits:
    """What a number must keep to; `within` (in the unit) or `within_percent` goes about `about`."""

    low: Bound | None = None
    high: Bound | None = None
    about: Bound | None = None
    within: Decimal | None = None
    within_percent: Decimal | None = None
    rule: Rule = Rule.SIMPLE


@dataclass(frozen=True, slots=True)
class Measure:
    """A number with its unit, decimals, limits and the instrument it is taken with."""

    unit: str
    decimals: int
    limits: Limits = Limits()
    instrument: str = ""


@dataclass(frozen=True, slots=True)
class Column:
    """One quantity of a timed table."""

    id: str
    label: str
    measure: Measure


@dataclass(frozen=True, slots=True)
class Option:
    """One answer of a choice; `waive` is set where the answer is outside."""

    text: str
    waive: Waive | None = None


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing to give. Which of the parts are filled depends on the kind (see `reader.KEYS`).

    - `measure`: a number's; an alarm's trip value.
    - `options`: a choice's answers. `equals`: the fact that a text, serial or choice must match.
    - `columns`, `times`, `readings`: what a trace or a hold reads, the minutes at which a hold
      is read, and how many readings a trace needs at least.
    - `trip`, `checks`, `closed_within`: an alarm's shutdown, what must be seen, and seconds.
    - `ahead_low`, `ahead_high`, `age_high`: how many seconds a time may lie ahead or back.
    - `expires`: the step lapses when the time given has passed.
    """

    id: str
    kind: Kind
    label: str
    line: int
    waive: Waive = Waive.REASON
    basis: str = ""
    optional: bool = False
    measure: Measure | None = None
    options: tuple[Option, ...] = ()
    equals: str = ""
    other_person: bool = False
    columns: tuple[Column, ...] = ()
    times: tuple[int, ...] = ()
    readings: int = 0
    every: int = 0
    trip: str = ""
    checks: tuple[str, ...] = ()
    closed_within: Bound | None = None
    required: bool = False
    ahead_low: float | None = None
    ahead_high: float | None = None
    age_high: float | None = None
    expires: bool = False
    role: str = ""


@dataclass(frozen=True, slots=True)
class Answer:
    """What must have been answered at an earlier entry: one of `texts`."""

    entry: str
    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Step:
    """One action, its caution, its gate (`needs`) and what makes it stale.

    It is asked for by a fact of the job sheet (`when`, `unless`), or by an answer given before
    (`when_answer`, `unless_answer`).

    `lasts` (seconds) and an entry that expires count only until the steps of `until` are done;
    without `until`, until all steps that need this one are done. `causes` names what doing the
    step makes happen to others. `requires` is what must be true of valves, pumps and volumes
    before the step may be done, `sets` what is true once it is: (part, state) pairs.
    """

    id: str
    title: str
    line: int
    entries: tuple[Entry, ...]
    text: str = ""
    caution: Caution | None = None
    needs: tuple[str, ...] = ()
    when: str = ""
    unless: str = ""
    when_answer: Answer | None = None
    unless_answer: Answer | None = None
    undone_by: tuple[str, ...] = ()
    lasts: float | None = None
    until: tuple[str, ...] = ()
    causes: tuple[str, ...] = ()
    part: str = ""
    requires: tuple[tuple[str, str], ...] = ()
    sets: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Phase:
    """A part of the job that ends with something true of the hookup."""

    id: str
    title: str
    line: int
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Constant:
    """A figure that stands in the checklist; the job sheet may state the owner's instead."""

    id: str
    label: str
    number: Decimal
    unit: str
    source: str
    owner: bool
    line: int


@dataclass(frozen=True, slots=True)
class Question:
    """A yes/no fact that the job sheet answers for this checklist; no answer means `otherwise`."""

    id: str
    label: str
    otherwise: bool
    line: int


@dataclass(frozen=True, slots=True)
class Happening:
    """Something a person can report that makes steps stale, such as “a joint was touched”."""

    id: str
    label: str
    line: int


@dataclass(frozen=True, slots=True)
class Computed:
    """A value worked out by a formula of the engineering catalogue.

    `inputs` pairs the formula's input with the name of a value or with a quantity as text.
    `rounding` says to which side it is rounded when shown: a vacuum target up, the deepest
    possible down. With limits it is judged like an entry of the step named by `step`.
    """

    id: str
    label: str
    formula: str
    inputs: tuple[tuple[str, str], ...]
    unit: str
    decimals: int
    line: int
    rounding: str = "nearest"
    step: str = ""
    limits: Limits = Limits()
    waive: Waive = Waive.REASON
    basis: str = ""

    @property
    def judged(self) -> bool:
        """Say whether it has limits of its own."""
        return self.limits != Limits()


@dataclass(frozen=True, slots=True)
class Checklist:
    """A whole checklist, as its author wrote it; `follows` is what has to be before it."""

    id: str
    revision: int
    title: str
    phases: tuple[Phase, ...]
    constants: tuple[Constant, ...] = ()
    questions: tuple[Question, ...] = ()
    happenings: tuple[Happening, ...] = ()
    computed: tuple[Computed, ...] = ()
    follows: Follows = Follows.NOTHING

    @property
    def moves_a_skid(self) -> bool:
        """Whether it opens, closes, fills or runs anything of a skid."""
        moved = {part for step in self.steps() for part, _ in step.sets}
        return bool(moved - {"bond", "supply"})

    def steps(self) -> tuple[Step, ...]:
        """Return every step, in order."""
        return tuple(step for phase in self.phases for step in phase.steps)

    def step(self, step_id: str) -> Step:
        """Return the step called `step_id`."""
        return next(step for step in self.steps() if step.id == step_id)

    def step_of(self, entry_id: str) -> Step:
        """Return the step that holds the entry called `entry_id`."""
        return next(s for s in self.steps() if any(e.id == entry_id for e in s.entries))

    def entry(self, entry_id: str) -> Entry:
        """Return the entry called `entry_id`."""
        return next(e for step in self.steps() for e in step.entries if e.id == entry_id)
