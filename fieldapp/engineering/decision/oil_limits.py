"""Limits of insulating oil by voltage class: what two standards print, for the engineer.

Every figure is a value from memory; the owner's edition of the standard wins.
"""

from dataclasses import dataclass
from enum import StrEnum

from fieldapp.engineering.validity import require

KILOVOLT = 1000.0
HIGHEST_VOLTAGE = 1200 * KILOVOLT
WATER, ACIDITY, TENSION, GAS = "water", "acidity", "interfacial tension", "total gas"
DISSIPATION_25, DISSIPATION_100 = "dissipation factor 25 °C", "dissipation factor 100 °C"
DISSIPATION_90 = "dissipation factor 90 °C"
BREAKDOWN_1, BREAKDOWN_2 = "breakdown, 1 mm, D1816", "breakdown, 2 mm, D1816"
BREAKDOWN = "breakdown, 2.5 mm"
PPM, KV, KOH, MN_M = "mg/kg", "kV", "mg KOH/g", "mN/m"
MEMORY = "(value from memory; the owner’s edition wins)"
NOT_DRYNESS = (
    "Consensus values, also in IEEE 637. Not to be used to infer how dry the solid insulation is; "
    "the water limit may be too much at low temperature."
)


@dataclass(frozen=True, slots=True)
class Scatter:
    """How breakdown tests scatter: variation of one operator and between laboratories [%].

    Two results of one operator, or of two laboratories, should not differ by more than `two` and
    `two_laboratories` [% of their mean].
    """

    test: str
    operator: float
    laboratories: float
    two: float
    two_laboratories: float
    range_of_five: float


# ASTM D1816, section 11, as reproduced
SCATTERS = (
    Scatter(BREAKDOWN_1, 14, 17, 40, 47, 120),
    Scatter(BREAKDOWN_2, 11, 14, 30, 40, 92),
)


class Condition(StrEnum):
    """The three conditions of IEC 60422."""

    GOOD = "good"
    FAIR = "fair"
    POOR = "poor"


@dataclass(frozen=True, slots=True)
class Limit:
    """One test with its bounds; `high` at most, `low` at least."""

    test: str
    unit: str
    low: float | None = None
    high: float | None = None

    def keeps(self, value: float) -> bool:
        """Say whether a value keeps to the limit."""
        above = self.low is None or value >= self.low
        return above and (self.high is None or value <= self.high)


@dataclass(frozen=True, slots=True)
class Boundary:
    """One test of IEC 60422: fair lies between `good` and `poor`."""

    test: str
    unit: str
    good: float
    poor: float

    def condition(self, value: float) -> Condition:
        """Return the condition that a value speaks of."""
        sign = 1 if self.good < self.poor else -1
        if sign * value < sign * self.good:
            return Condition.GOOD
        return Condition.FAIR if sign * value <= sign * self.poor else Condition.POOR


@dataclass(frozen=True, slots=True)
class OilLimits:
    """The limits of a voltage class, where they stand, and what must be said with them."""

    voltage_class: str
    source: str
    limits: tuple[Limit, ...] = ()
    boundaries: tuple[Boundary, ...] = ()
    warning: str = NOT_DRYNESS


def ieee_in_service(voltage: float) -> OilLimits:
    """Return the limits for continued use of service-aged oil at a voltage [V].

    >>> ieee_in_service(110_000).limits[0].high
    25
    """
    column = _ieee_column(voltage)
    water, one, two = (35, 25, 20)[column], (23, 28, 30)[column], (40, 47, 50)[column]
    return OilLimits(
        ("at most 69 kV", "above 69, below 230 kV", "230 kV and more")[column],
        f"IEEE C57.106-2006, service-aged oil {MEMORY}",
        (
            Limit(WATER, PPM, high=water),
            Limit(BREAKDOWN_1, KV, low=one),
            Limit(BREAKDOWN_2, KV, low=two),
            Limit(ACIDITY, KOH, high=(0.20, 0.15, 0.10)[column]),
            Limit(TENSION, MN_M, low=(25, 30, 32)[column]),
            Limit(DISSIPATION_25, "%", high=0.5),
            Limit(DISSIPATION_100, "%", high=5.0),
        ),
    )


def ieee_new_equipment(voltage: float) -> OilLimits:
    """Return the limits of oil in new equipment before it is energised, at a voltage [V].

    >>> [limit.low for limit in ieee_new_equipment(400_000).limits[1:3]]
    [35, 60]
    """
    column = _ieee_column(voltage) + (voltage >= 345 * KILOVOLT)
    classes = ("at most 69 kV", "above 69, below 230 kV", "230 kV and more", "345 kV and more")
    limits: tuple[Limit, ...] = (
        Limit(WATER, PPM, high=(20, 10, 10, 10)[column]),
        Limit(BREAKDOWN_1, KV, low=(25, 30, 32, 35)[column]),
        Limit(BREAKDOWN_2, KV, low=(45, 52, 55, 60)[column]),
        Limit(ACIDITY, KOH, high=0.015),
        Limit(TENSION, MN_M, low=38),
        Limit(DISSIPATION_25, "%", high=0.05),
    )
    if voltage >= 69 * KILOVOLT:
        limits = (*limits, Limit(GAS, "%", high=0.5))
    return OilLimits(classes[column], f"IEEE C57.106-2006, new equipment {MEMORY}", limits)


def iec_in_service(voltage: float, *, inhibited: bool) -> OilLimits:
    """Return the boundaries of good, fair and poor at a highest voltage for equipment [V].

    >>> iec_in_service(123_000, inhibited=False).boundaries[0].condition(24).value
    'fair'
    """
    require("voltage", voltage, 1, HIGHEST_VOLTAGE)
    row = 0 if voltage > 170 * KILOVOLT else 1 if voltage > 72.5 * KILOVOLT else 2
    return OilLimits(
        ("above 170 kV", "above 72.5 to 170 kV", "at most 72.5 kV")[row],
        f"IEC 60422:2013, table 5 {MEMORY}; there is an edition of 2024",
        boundaries=(
            Boundary(WATER, PPM, *((15, 20), (20, 30), (30, 40))[row]),
            Boundary(BREAKDOWN, KV, *((60, 50), (50, 40), (40, 30))[row]),
            Boundary(ACIDITY, KOH, *((0.10, 0.15), (0.10, 0.20), (0.15, 0.30))[row]),
            Boundary(DISSIPATION_90, "", *((0.10, 0.20), (0.10, 0.50), (0.10, 0.50))[row]),
            Boundary(TENSION, MN_M, *((28, 22) if inhibited else (25, 20))),
        ),
    )


def _ieee_column(voltage: float) -> int:
    require("voltage", voltage, 1, HIGHEST_VOLTAGE)
    return 0 if voltage <= 69 * KILOVOLT else 1 if voltage < 230 * KILOVOLT else 2
