"""One line of the table: what was measured, of ours and of the outside thing."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import quantiles


@dataclass(frozen=True, slots=True)
class Spread:
    """The median and the 99th percentile of one series of durations, in milliseconds."""

    median: float
    p99: float


@dataclass(frozen=True, slots=True)
class Row:
    """Two spreads that were taken alternately, on the same machine and disk."""

    name: str
    outside_name: str
    ours: Spread
    outside: Spread
    count: int

    @property
    def ratio(self) -> Spread:
        """How many times the outside figure ours is."""
        return Spread(self.ours.median / self.outside.median, self.ours.p99 / self.outside.p99)


def spread_of(seconds: Sequence[float]) -> Spread:
    """The spread of durations given in seconds.

    >>> spread_of([0.001, 0.002, 0.003]).median
    2.0
    """
    parts = quantiles(seconds, n=100, method="inclusive")
    return Spread(median=parts[49] * 1000, p99=parts[98] * 1000)
