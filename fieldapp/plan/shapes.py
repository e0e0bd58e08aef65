"""What a plan is: the office's questions, each with a sentence, figures, and what is not known."""

from dataclasses import dataclass

COMMON = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure in the unit shown; `low` to `high` is how well it is known, None where one end is.

    `at_least` and `at_most` are its limits; `source` says where figure and limit come from, and
    `fact` names the fact of the job sheet that would state another.
    """

    label: str
    value: float
    unit: str = ""
    decimals: int = 0
    low: float | None = None
    high: float | None = None
    at_least: float | None = None
    at_most: float | None = None
    source: str = ""
    fact: str = ""

    @property
    def limited(self) -> bool:
        """Say whether the figure has a limit."""
        return self.at_least is not None or self.at_most is not None

    @property
    def inside(self) -> bool:
        """Say whether the figure keeps to its limits."""
        above = self.at_least is None or self.value >= self.at_least
        return above and (self.at_most is None or self.value <= self.at_most)


@dataclass(frozen=True, slots=True)
class Answer:
    """The answer to one question; `refusals` say what cannot be said, why, and what to do.

    `inputs` are what was put in, where the office may well put in something else.
    """

    id: str
    question: str
    sentence: str
    figures: tuple[Figure, ...] = ()
    refusals: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    inputs: tuple[Figure, ...] = ()

    @property
    def inside(self) -> bool:
        """Say whether every figure keeps to its limits."""
        return all(figure.inside for figure in self.figures)


@dataclass(frozen=True, slots=True)
class SaturationCurve:
    """How near one oil is to shedding water as it cools; temperatures in °C, saturations in %.

    The water stays what it was in the sample. `eye` are temperatures and what one would see.
    """

    points: tuple[tuple[float, float], ...]
    sample: tuple[float, float]
    free_water: float | None
    target: tuple[float, float] | None
    eye: tuple[tuple[float, str], ...]
    source: str


@dataclass(frozen=True, slots=True)
class Plan:
    """The whole plan of a job."""

    number: str
    unit: str
    rating: str
    site: str
    bay: str
    owner: str
    prepared_by: str
    planned_start: str
    sheet_fingerprint: str
    answers: tuple[Answer, ...]
    curve: SaturationCurve | None

    def answer(self, name: str) -> Answer:
        """Return the answer with that id."""
        return next(answer for answer in self.answers if answer.id == name)
