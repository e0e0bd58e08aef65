"""How tightly a suction hose may be bent, where its marking says nothing."""

from dataclasses import dataclass

from fieldapp.engineering.validity import require

SOURCE = "SAE J517, type 100R4 (value from memory)"
WARNING = "The marking on the hose governs. The hose must be rated for full vacuum."
# bore and smallest bend radius [m]
SMALLEST_BENDS = ((0.019, 0.125), (0.025, 0.150), (0.038, 0.250), (0.051, 0.300))
ROUNDING = 0.0005  # “25 mm” is an inch of 25.4 mm


@dataclass(frozen=True, slots=True)
class Bend:
    """The smallest bend radius [m] to plan with, whose it is, and what governs."""

    radius: float
    source: str = SOURCE
    warning: str = WARNING


def smallest_bend(bore: float) -> Bend:
    """Return the bend radius to plan with for a bore [m]: that of the next size up.

    >>> smallest_bend(0.0254).radius
    0.15
    """
    require("bore", bore, 0.005, SMALLEST_BENDS[-1][0] + ROUNDING)
    return Bend(next(radius for size, radius in SMALLEST_BENDS if bore <= size + ROUNDING))
