"""The bond between skid and station: what is good enough, and what a strap stands."""

from dataclasses import dataclass
from enum import StrEnum
from math import sqrt
from typing import Annotated

from fieldapp.engineering.validity import require

Metre = Annotated[float, "length"]
SquareMetre = Annotated[float, "area"]
Ohm = Annotated[float, "resistance"]
Ampere = Annotated[float, "current"]
Second = Annotated[float, "time"]

AIM, STOP = 0.1, 0.5
COPPER_RESISTIVITY = 1.72e-8
COPPER_FACTOR = 176e6  # A √s per square metre


class BondPlace(StrEnum):
    """Where a measured bond stands."""

    GOOD = "as aimed at"
    LOOK = "above what is aimed at: clean the clamps, measure again"
    STOP = "stop: no bond for a substation"


@dataclass(frozen=True, slots=True)
class BondFigure:
    """A published figure [Ω], what it is for, and whose it is."""

    limit: float
    meant_for: str
    source: str


FIGURES = (
    BondFigure(AIM, "aim for new clamps", "common practice, no source"),
    BondFigure(STOP, "point to point in a substation; above it stop",
               "acceptance testing practice (value from memory)"),
    BondFigure(10.0, "all-metal copper path, static only", "NFPA 77 practice, as quoted"),
    BondFigure(25.0, "all-metal stainless path, static only", "NFPA 77 practice, as quoted"),
    BondFigure(1e6, "any path, static only", "NFPA 77 and Army TM 5-811-3, as quoted"),
    BondFigure(1.0, "earth electrode of a large substation, no bond", "IEEE 80 practice (memory)"),
    BondFigure(5.0, "earth electrode of a small substation, no bond", "IEEE 142 practice (memory)"),
)  # fmt: skip
WARNING = (
    "10 Ω and more are figures against static, none for a fault. Bond of the owner’s fault "
    "current size, on before the hoses and off after them."
)


def bond_place(resistance: float, uncertainty: float = 0.0) -> BondPlace:
    """Return where a bond [Ω] stands, judged with the meter's uncertainty (k = 2) against it.

    >>> bond_place(0.012).value
    'as aimed at'
    """
    require("resistance", resistance, 0, 1e9)
    require("uncertainty", uncertainty, 0, 1e9)
    if resistance + uncertainty > STOP:
        return BondPlace.STOP
    return BondPlace.LOOK if resistance + uncertainty > AIM else BondPlace.GOOD


def strap_resistance(*, length: Metre, area: SquareMetre) -> Ohm:
    """Return the resistance of a copper strap without its clamps: what to expect at best.

    Parameters
    ----------
    length : length [m]
    area : cross-section of the copper [m²]

    Returns
    -------
    resistance [Ω]

    Valid for
    ---------
    length 0.1 to 200 m, area 1e-6 to 0.001 m² (1 to 1000 mm²); copper at 20 °C

    Source
    ------
    Resistivity of annealed copper 1/58 Ω mm²/m, IEC 60028 (value from memory).

    Examples
    --------
    >>> round(strap_resistance(length=6, area=50e-6) * 1000, 2)
    2.06
    """
    require("length", length, 0.1, 200)
    require("area", area, 1e-6, 1e-3)
    return COPPER_RESISTIVITY * length / area


def fault_current_withstood(*, area: SquareMetre, duration: Second) -> Ampere:
    """Return the fault current that an insulated copper strap stands; the owner compares.

    Parameters
    ----------
    area : cross-section of the copper [m²]
    duration : how long until the fault is cleared [s]

    Returns
    -------
    current [A]

    Valid for
    ---------
    area 1e-6 to 0.001 m² (1 to 1000 mm²), duration 0.1 to 5 s; no heat lost, clamps as good

    Source
    ------
    I = k S/√t with k = 176 A√s/mm², IEC 60364-5-54, table A.54.2 (value from memory).

    Examples
    --------
    >>> round(fault_current_withstood(area=50e-6, duration=0.5) / 1000, 1)
    12.4
    """
    require("area", area, 1e-6, 1e-3)
    require("duration", duration, 0.1, 5)
    return COPPER_FACTOR * area / sqrt(duration)
