"""Whether the American spill rule counts a site's oil: which containers, and how much in all."""

from collections.abc import Sequence
from dataclasses import dataclass

from fieldapp.engineering.validity import require

US_GALLON = 231 * 0.0254**3
THRESHOLD, SMALLEST = 1320 * US_GALLON, 55 * US_GALLON
LARGEST = 1000.0
MOST = 1000
SOURCE = "40 CFR 112.1(b) and (d), thresholds as seen in EPA's guidance for inspectors"


@dataclass(frozen=True, slots=True)
class SpillRule:
    """The oil that counts [m³], of how many containers, and whether the rule reaches it."""

    counted: float
    containers: int
    applies: bool


def spill_rule_of(capacities: Sequence[float]) -> SpillRule:
    """Return whether containers of these shell capacities [m³] come to more than the threshold.

    Oil-filled equipment in work counts as well as drums; what is smaller than 55 US gal does not.

    >>> spill_rule_of([19.3, 0.12]).applies
    True
    """
    require("containers", len(capacities), 1, MOST)
    for capacity in capacities:
        require("capacity", capacity, 0, LARGEST)
    # what floating point takes off a drum of exactly 55 gal must not leave it out
    counted = [capacity for capacity in capacities if capacity >= SMALLEST * (1 - 1e-9)]
    whole = sum(counted)
    return SpillRule(whole, len(counted), whole > THRESHOLD * (1 + 1e-9))
