"""What a pump-down says so far: on its way, will not get there, or too early to tell."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from fieldapp.engineering.air.curve_uncertainty import CurveUncertainty, curve_uncertainty
from fieldapp.engineering.pump_down import PumpDown, fitted_pump_down
from fieldapp.engineering.validity import require


class Outlook(StrEnum):
    """What becomes of a pump-down; the last two need the pump's own blank-off reading."""

    TOO_EARLY = "too early to tell"
    REACHED = "there"
    ON_ITS_WAY = "on its way"
    WILL_NOT = "will not get there"
    LEAK = "leak"
    WEAK_PUMP = "weak pump"


@dataclass(frozen=True, slots=True)
class PumpDownVerdict:
    """The outlook of a pump-down, why, and when the target comes (s since the start, k = 2).

    `inflow` [Pa·m³/s] is what comes in where it levels out, beyond what the pump alone has;
    `enters` says that something does, whether or not the volume is known.
    """

    outlook: Outlook
    sentence: str
    known: CurveUncertainty | None = None
    reached_after: float | None = None
    reached_within: float | None = None
    inflow: float | None = None
    enters: bool = False


@dataclass(frozen=True, slots=True)
class Blanked:
    """The pump's reading with its own inlet shut [Pa], and that reading's uncertainty (k = 2)."""

    pressure: float
    uncertainty: float = 0.0


EARLY = PumpDownVerdict(Outlook.TOO_EARLY, "Too early to tell: keep reading.")
NEAR = "Levels out so near the target that it cannot be told yet: keep reading."
WILL_NOT = (
    "Will not get there: stop and look. Leak or weak pump is told by the pump’s reading with its "
    "own inlet shut."
)
LEAK = "Will not get there, and the pump alone would: air comes in, or oil and water give off gas."
WEAK = "Will not get there: the pump alone does not reach the target either."
WEAK_AND_LEAK = WEAK + " Beyond that, air comes in or oil gives off gas."


def pump_down_verdict(
    times: Sequence[float],
    pressures: Sequence[float],
    *,
    target: float,
    repeatability: float = 0.0,
    blanked: Blanked | None = None,
    volume: float | None = None,
) -> PumpDownVerdict:
    """Return what timed readings of a pump-down say of its target.

    Parameters
    ----------
    times : seconds since the pump was opened, rising [s]
    pressures : absolute pressures at those times [Pa]
    target : absolute pressure to reach, the guard already taken off [Pa]
    repeatability : what the gauge repeats to, k = 1 [Pa]
    blanked : the pump's reading with its own inlet shut; without it a leak and a weak pump
        look the same
    volume : evacuated volume, for the inflow [m³]

    Returns
    -------
    the verdict; too early before the readings span one time constant of the curve

    Valid for
    ---------
    target 10 to 110 000 Pa; one closed volume, viscous flow, above about 1 hPa

    Source
    ------
    Evacuation equation, O'Hanlon, A User's Guide to Vacuum Technology, 3rd ed. 2003 (value from
    memory); that a leak shows against the blank-off reading only is common practice, no source.

    Examples
    --------
    >>> times = range(0, 330, 30)
    >>> pressures = [23100 + 61200 * 2.718281828 ** (-t / 120) for t in times]
    >>> pump_down_verdict(times, pressures, target=16665).outlook.value
    'will not get there'
    """
    require("target", target, 10, 110_000)
    if pressures and pressures[-1] <= target:
        return PumpDownVerdict(
            Outlook.REACHED, "There: the last reading is at the target or below."
        )
    fit = fitted_pump_down(times, pressures)
    if fit is None or times[-1] - times[0] < fit.time_constant:
        return EARLY
    known = curve_uncertainty(times, fit, repeatability=repeatability)
    if fit.ultimate + known.ultimate < target:
        return _on_its_way(fit, known, target)
    if fit.ultimate - known.ultimate <= target:
        return PumpDownVerdict(Outlook.TOO_EARLY, NEAR, known)
    if blanked is None:
        return PumpDownVerdict(Outlook.WILL_NOT, WILL_NOT, known)
    return _blamed(known, target, blanked, volume)


def _on_its_way(fit: PumpDown, known: CurveUncertainty, target: float) -> PumpDownVerdict:
    after, within = fit.time_to(target), known.time_to(target)
    assert after is not None  # noqa: S101 - the target lies above where it levels out
    assert within is not None  # noqa: S101 - by more than its uncertainty
    words = f"On its way: at the target after {after / 60:.1f} min, give or take {within / 60:.1f}."
    return PumpDownVerdict(Outlook.ON_ITS_WAY, words, known, after, within)


def _blamed(
    known: CurveUncertainty, target: float, blanked: Blanked, volume: float | None
) -> PumpDownVerdict:
    fit = known.fit
    excess = fit.ultimate - blanked.pressure
    beyond = excess > known.ultimate + blanked.uncertainty
    inflow = fit.speed(volume) * excess if volume and beyond else None
    if blanked.pressure + blanked.uncertainty < target:
        return PumpDownVerdict(Outlook.LEAK, LEAK, known, inflow=inflow, enters=True)
    words = WEAK_AND_LEAK if beyond else WEAK
    return PumpDownVerdict(Outlook.WEAK_PUMP, words, known, inflow=inflow, enters=beyond)
