"""What a table or a judgement gives: a sentence, figures, rows, and what must be said with them."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from fieldapp.engineering.validity import require
from fieldapp.errors import FieldAppError


class CannotSayError(FieldAppError):
    """What was given does not allow a judgement; the message says why, and what to do."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure in SI and the unit to show it in; `spread` is its uncertainty, about 95 %."""

    label: str
    value: float
    unit: str
    spread: float | None = None


@dataclass(frozen=True, slots=True)
class Said:
    """The answer of a rule; `rows` belong under `heads`."""

    sentence: str
    figures: tuple[Figure, ...] = ()
    heads: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    notes: tuple[str, ...] = ()


def require_each(name: str, values: Sequence[float], low: float, high: float) -> None:
    """Refuse a series with any value outside `low` to `high`."""
    for value in values:
        require(name, value, low, high)


def require_rising(times: Sequence[float], longest: float) -> None:
    """Refuse times that do not run forward from 0 or later to `longest` [s], and no times."""
    if not times:
        raise CannotSayError("no reading was given: give one or more")
    require_each("time", times, 0, longest)
    if any(late <= early for early, late in pairwise(times)):
        raise CannotSayError("the readings do not run forward in time: give them in their order")
