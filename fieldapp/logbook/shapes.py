"""What the logbook says: readings, stretches between them, weighings, the rest test, what is due.

Everything is in the units in which the crew speaks: L, kg, mg/kg, °C, days.
"""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class Amount:
    """Water in kg with its expanded uncertainty (k = 2)."""

    water: float
    uncertainty: float

    @property
    def low(self) -> float:
        """Return the least that it may be."""
        return self.water - self.uncertainty

    @property
    def high(self) -> float:
        """Return the most that it may be."""
        return self.water + self.uncertainty

    def plus(self, other: "Amount") -> "Amount":
        """Return both together; probes err the same way each time, so the ends add up."""
        return Amount(self.water + other.water, self.uncertainty + other.uncertainty)


NOTHING = Amount(0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the ledger: what was read, the water since the line before, and in all.

    `since` is None where the litres or the moisture are not known; then `total` is "at least".
    """

    number: str
    title: str
    at: datetime
    day: float
    signed: bool
    litres: float | None = None
    inlet: float | None = None
    outlet: float | None = None
    oil: float | None = None
    since: Amount | None = None
    total: Amount = NOTHING
    at_least: bool = False
    new_cartridges: bool = False
    rate: float | None = None
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Weighing:
    """One set of cartridges: its water on the scale, and by the oil while it was in."""

    number: str
    at: datetime
    day: float
    drained: float
    scale: Amount | None
    by_oil: Amount
    sentence: str


@dataclass(frozen=True, slots=True)
class Draw:
    """One sample of a rest test, with what it says of the paper, and why it may not count."""

    name: str
    days: float | None
    water: float | None
    oil: float | None
    paper: float | None = None
    second: float | None = None
    low: float | None = None
    high: float | None = None
    obstacles: tuple[str, ...] = ()

    @property
    def counts(self) -> bool:
        """Say whether a decision may rest on it."""
        return self.paper is not None and not self.obstacles


@dataclass(frozen=True, slots=True)
class Dryness:
    """Whether the paper is dry: "not known", "resting", "dry", "not dry"; and in a sentence."""

    state: str
    sentence: str
    draws: tuple[Draw, ...] = ()
    rebound: float | None = None
    target: float | None = None
    decided_by: str = ""


@dataclass(frozen=True, slots=True)
class Due:
    """When somebody has to come next, for what, and why; `latest` is None where nothing is due."""

    what: str
    latest: datetime | None
    why: str
    earliest: datetime | None = None

    def late(self, now: datetime) -> bool:
        """Say whether it should have been done by now."""
        return self.latest is not None and now > self.latest


@dataclass(frozen=True, slots=True)
class Enough:
    """How much water is to come out by the job sheet: likely, least, most [kg]; or why unknown."""

    likely: float | None
    low: float | None = None
    high: float | None = None
    why: str = ""


@dataclass(frozen=True, slots=True)
class Logbook:
    """All that the weeks after a hookup add up to."""

    number: str
    unit: str
    site: str
    lines: tuple[Line, ...]
    removed: Amount
    at_least: bool
    enough: Enough
    weighings: tuple[Weighing, ...]
    change: str
    due: Due
    dryness: Dryness
    notes: tuple[str, ...] = ()
