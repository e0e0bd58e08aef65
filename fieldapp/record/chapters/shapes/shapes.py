"""What a record is made of: texts, whole numbers, yes and no; every figure is a text.

Times are ISO 8601, figures stand as they were typed or as the record prints them (ASCII minus).
"""

from dataclasses import dataclass

from fieldapp.record.chapters.shapes.notation import Moment, Place


@dataclass(frozen=True, slots=True)
class Judgement:
    """Where something stands against its limits; `words` is the short form of `sentence`."""

    place: Place
    words: str
    sentence: str
    limits: str = ""
    low: str = ""
    high: str = ""
    guard: str = ""

    @property
    def good(self) -> bool:
        """Say whether nothing need be explained or accepted."""
        return self.place in {"inside", "done", "noted", "not needed"}


@dataclass(frozen=True, slots=True)
class Deviation:
    """Something outside its limits: why it is kept, and who accepted it on what condition."""

    subject: str
    label: str
    sentence: str
    settled: bool
    reason: str = ""
    reason_by: str = ""
    reason_at: Moment = ""
    accepted_by: str = ""
    accepted_role: str = ""
    accepted_at: Moment = ""
    condition: str = ""
    document: str = ""
    stays_open_with: str = ""
    stays_open_until: str = ""


@dataclass(frozen=True, slots=True)
class Correction:
    """An old value, when it was made, and who put what in its place, why, and who has seen it."""

    label: str
    old: str
    new: str
    unit: str
    made_at: Moment
    at: Moment
    by: str
    reason: str
    seen_by: str = ""
    seen_at: Moment = ""


@dataclass(frozen=True, slots=True)
class Reading:
    """One line of a timed table: seconds since the first reading, and a value for each column."""

    seconds: int
    at: Moment
    values: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """The readings of a trace or a hold, with a head and a unit for each column."""

    heads: tuple[str, ...]
    units: tuple[str, ...]
    readings: tuple[Reading, ...]


@dataclass(frozen=True, slots=True)
class Row:
    """One entry as it was made; `standing` is false where it was made again later."""

    entry: str
    kind: str
    label: str
    at: Moment
    value: str
    unit: str
    by: str
    instrument: str
    judgement: Judgement
    standing: bool = True
    note: str = ""
    chapter: str = ""
    corrections: tuple[Correction, ...] = ()
    deviation: Deviation | None = None
    table: Table | None = None


@dataclass(frozen=True, slots=True)
class StepRows:
    """A step with its rows; `state` and `why` say where it stands."""

    step: str
    title: str
    state: str
    why: str
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class PhaseRows:
    """A phase with its steps, and how far it is in words."""

    phase: str
    title: str
    status: str
    steps: tuple[StepRows, ...]


@dataclass(frozen=True, slots=True)
class Figure:
    """A key figure against its limits, with its expanded uncertainty (k = 2)."""

    subject: str
    label: str
    step: str
    value: str
    unit: str
    uncertainty: str
    judgement: Judgement


@dataclass(frozen=True, slots=True)
class Repeat:
    """Something that was outside, failed or was done again, in one sentence."""

    kind: str
    label: str
    sentence: str
    chapter: str


@dataclass(frozen=True, slots=True)
class PumpReading:
    """One reading of a pump-down: absolute, on this site's gauge, and against the fit."""

    seconds: int
    pressure: str
    gauge: str
    fit: str
    off_fit: str
    inside: bool


@dataclass(frozen=True, slots=True)
class Fit:
    """The curve fitted to a pump-down: where it levels out, how fast it falls."""

    start: str
    ultimate: str
    time_constant: str
    spread: str
    speed: str
    inflow: str
    target_after: str
    sentence: str


@dataclass(frozen=True, slots=True)
class PumpAttempt:
    """One pump-down, from the pump opened to what was found."""

    number: int
    started: Moment
    ended: Moment
    by: str
    note: str
    notes: tuple[str, ...]
    judgement: Judgement
    readings: tuple[PumpReading, ...]
    fit: Fit | None


@dataclass(frozen=True, slots=True)
class HoldReading:
    """One reading of a hold test, brought to the first temperature."""

    minutes: str
    pressure: str
    temperature: str
    corrected: str
    rise: str


@dataclass(frozen=True, slots=True)
class HoldAttempt:
    """One hold test."""

    number: int
    started: Moment
    ended: Moment
    by: str
    note: str
    readings: tuple[HoldReading, ...]
    rise: str
    rise_uncertainty: str
    rise_limit: str
    rise_as_read: str
    leak: str
    leak_uncertainty: str
    litres_a_day: str
    shape: str
    judgement: Judgement


@dataclass(frozen=True, slots=True)
class Evacuation:
    """Everything about the vacuum: the target on this site's gauge, each attempt, the hold."""

    title: str
    target: str
    station: str
    station_uncertainty: str
    station_at: Moment
    residual: str
    residual_source: str
    below_air: str
    gauge_target: str
    deepest: str
    volume: str
    blank_off: str
    reached: str
    limit: str
    judgement: Judgement
    attempts: tuple[PumpAttempt, ...]
    holds: tuple[HoldAttempt, ...]


@dataclass(frozen=True, slots=True)
class Check:
    """Something that had to be seen when a shutdown acted."""

    text: str
    seen: bool


@dataclass(frozen=True, slots=True)
class Trial:
    """One test of a shutdown."""

    number: int
    at: Moment
    by: str
    tripped: bool
    value: str
    unit: str
    closed_after: str
    checks: tuple[Check, ...]
    judgement: Judgement
    standing: bool
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Shutdown:
    """A shutdown with every test of it, the failed ones too; `lapsed` is why it must be redone.

    `asked` is false where this job does not prove it: it is not fitted, or its turn is another day.
    """

    number: int
    trip: str
    name: str
    entry: str
    label: str
    set_point: str
    limits: str
    closed_within: str
    fitted: bool
    asked: bool
    lapsed: str
    trials: tuple[Trial, ...]

    @property
    def proven(self) -> bool:
        """Say whether the last test was good and nothing has undone it since."""
        return not self.lapsed and bool(self.trials) and self.trials[-1].judgement.good

    @property
    def failed(self) -> bool:
        """Say whether the last test was not good."""
        return bool(self.trials) and not self.trials[-1].judgement.good
