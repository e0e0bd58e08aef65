"""Gases dissolved in oil, beside what two standards call typical: information, never a release.

Every figure is a value from memory; the owner's edition of the standard wins.
"""

from dataclasses import dataclass
from enum import StrEnum

from fieldapp.engineering.validity import require

IEEE = "IEEE C57.104-2019, table 1, 90th percentile, age unknown (value from memory)"
IEC = "IEC 60599:2015, typical 90 % values (value from memory)"
NO_RELEASE = (
    "Information for the responsible engineer. It releases nothing: a release is a name and a date."
)
NEW_BASELINE = "The first analysis after the start is a new baseline."
EXPLAIN = (
    "Acetylene above 2 µL/L: explain it before the start. No start with an arcing signature, with "
    "acetylene rising, or after a gas alarm."
)
ACETYLENE_TO_EXPLAIN = 2.0
SEALED_TO = 0.2


class Standing(StrEnum):
    """Where a gas stands beside a typical value."""

    BELOW = "below typical values"
    AMONG = "among typical values"
    ABOVE = "above typical values"


@dataclass(frozen=True, slots=True)
class Typical:
    """What is typical by one standard [µL/L], and where the gas stands beside it."""

    low: float
    high: float
    standing: Standing
    source: str


@dataclass(frozen=True, slots=True)
class GasNote:
    """A gas beside the typical values; `warning` always says that this is no release."""

    gas: str
    content: float
    typical: tuple[Typical, ...]
    explain: str = ""
    warning: str = NO_RELEASE
    afterwards: str = NEW_BASELINE


# µL/L with O2/N2 up to 0.2, and above
IEEE_TYPICAL = {
    "H2": (80.0, 40.0), "CH4": (90.0, 20.0), "C2H6": (90.0, 15.0), "C2H4": (50.0, 50.0),
    "C2H2": (1.0, 2.0), "CO": (900.0, 500.0), "CO2": (9000.0, 5000.0),
}  # fmt: skip
IEC_TYPICAL = {
    "H2": (50.0, 150.0), "CH4": (30.0, 130.0), "C2H6": (20.0, 90.0), "C2H4": (60.0, 280.0),
    "C2H2": (2.0, 20.0), "CO": (400.0, 600.0), "CO2": (3800.0, 14_000.0),
}  # fmt: skip
IEC_ACETYLENE_JOINT = (60.0, 280.0)
"""Acetylene where the tap changer shares its oil or air with the tank."""


def gas_note(
    gas: str,
    content: float,
    *,
    oxygen_to_nitrogen: float | None = None,
    joint_tap_changer: bool = False,
) -> GasNote:
    """Return a gas of the analysis [µL/L] beside what is typical.

    Without O2/N2 the smaller of the two IEEE figures counts.

    >>> gas_note("H2", 18, oxygen_to_nitrogen=0.34).typical[0].standing.value
    'below typical values'
    """
    require("content", content, 0, 1e6)
    if oxygen_to_nitrogen is not None:
        require("oxygen_to_nitrogen", oxygen_to_nitrogen, 0, 10)
    ieee = _ieee(gas, oxygen_to_nitrogen)
    low, high = IEC_TYPICAL[gas]
    if gas == "C2H2" and joint_tap_changer:
        low, high = IEC_ACETYLENE_JOINT
    return GasNote(
        gas,
        content,
        (Typical(ieee, ieee, _standing(content, ieee, ieee), IEEE),
         Typical(low, high, _standing(content, low, high), IEC)),
        EXPLAIN if gas == "C2H2" and content > ACETYLENE_TO_EXPLAIN else "",
    )  # fmt: skip


def _ieee(gas: str, oxygen_to_nitrogen: float | None) -> float:
    sealed, breathing = IEEE_TYPICAL[gas]
    if oxygen_to_nitrogen is None:
        return min(sealed, breathing)
    return sealed if oxygen_to_nitrogen <= SEALED_TO else breathing


def _standing(content: float, low: float, high: float) -> Standing:
    if content > high:
        return Standing.ABOVE
    return Standing.AMONG if low <= content else Standing.BELOW
