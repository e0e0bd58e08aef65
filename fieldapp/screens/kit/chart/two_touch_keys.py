"""Which keys a timed reading needs: a group around the expected value, then the reading itself."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_FLOOR, Decimal

GROUPS = 3
MOST_READINGS = 5


@dataclass(frozen=True, slots=True)
class ReadingKeys:
    """The starts of the groups, and the readings that belong to each, as plain figures.

    Where a group is one whole number, the second keys show fractions, the same for every group.
    """

    starts: tuple[Decimal, ...]
    division: Decimal
    per_group: int

    @property
    def wholes(self) -> bool:
        """Whether each group is one whole number."""
        return self.division * self.per_group == 1

    @property
    def decimals(self) -> int:
        """How many decimals the gauge's smallest division has."""
        return _decimals(self.division)

    def readings(self, group: int) -> tuple[Decimal, ...]:
        """The readings of a group."""
        return tuple(self.starts[group] + at * self.division for at in range(self.per_group))

    def text_of(self, group: int, reading: int, mark: str = ".") -> str:
        """A reading with as many decimals as the gauge has."""
        return _figures(self.readings(group)[reading], self.division, mark)

    def first_label(self, group: int, mark: str = ".") -> tuple[str, str]:
        """The two lines of a first key."""
        if self.wholes:
            return f"{self.starts[group]:.0f}", ""
        return (
            self.text_of(group, 0, mark),
            f"to {self.text_of(group, self.per_group - 1, mark)}",
        )

    def second_label(self, group: int | None, reading: int, mark: str = ".") -> str:
        """What a second key shows; without a group, only what is the same in all."""
        if self.wholes:
            fraction = _figures(reading * self.division, self.division, mark)
            return fraction.removeprefix("0") if mark in fraction else fraction
        return "" if group is None else self.text_of(group, reading, mark)


def keys_for(
    expected: Decimal,
    division: Decimal,
    low: Decimal = Decimal(0),
    high: Decimal | None = None,
) -> ReadingKeys:
    """The keys around an expected value, for a gauge with a smallest division.

    >>> [keys_for(Decimal("18.1"), Decimal("0.2")).first_label(at)[0] for at in range(3)]
    ['17', '18', '19']
    >>> keys_for(Decimal(247), Decimal(1)).first_label(1)
    ('245', 'to 249')
    """
    per_group = _per_group(division)
    span = division * per_group
    lowest = _floor(low, span)
    if high is not None:
        expected = min(expected, high)
    first = max(_floor(expected, span) - span, lowest)
    starts = [first + at * span for at in range(GROUPS)]
    if high is not None:
        starts = [start for start in starts if start <= high]
    return ReadingKeys(tuple(starts), division, per_group)


def _per_group(division: Decimal) -> int:
    # A group is a round number where two to five divisions make one: 1, 10, 100.
    for power in range(-3, 5):
        parts = Decimal(10) ** power / division
        if parts == int(parts) and 1 < parts <= MOST_READINGS:
            return int(parts)
    return MOST_READINGS


def _floor(value: Decimal, span: Decimal) -> Decimal:
    return (value / span).to_integral_value(ROUND_FLOOR) * span


def _figures(value: Decimal, division: Decimal, mark: str) -> str:
    return f"{value:.{_decimals(division)}f}".replace(".", mark).replace("-", "\N{MINUS SIGN}")


def _decimals(division: Decimal) -> int:
    exponent = division.normalize().as_tuple().exponent
    return max(0, -exponent) if isinstance(exponent, int) else 0
