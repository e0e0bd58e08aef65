"""Reading a pump-down: where it levels out, how fast the pump draws, when the target comes."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import exp, log, sqrt

from fieldapp.engineering.validity import require

FEWEST_READINGS = 5
GOLDEN = (sqrt(5) - 1) / 2


@dataclass(frozen=True, slots=True)
class PumpDown:
    """A fitted pump-down: pressures in Pa, time constant in s, `spread` the residuals' spread."""

    start: float
    ultimate: float
    time_constant: float
    spread: float

    def pressure_at(self, time: float) -> float:
        """Return the fitted pressure [Pa] at a time [s]."""
        return self.ultimate + (self.start - self.ultimate) * exp(-time / self.time_constant)

    def time_to(self, pressure: float) -> float | None:
        """Return the time [s] at which a pressure [Pa] is reached; None if it never is."""
        if pressure <= self.ultimate:
            return None
        return self.time_constant * log((self.start - self.ultimate) / (pressure - self.ultimate))

    def speed(self, volume: float) -> float:
        """Return the pumping speed [m³/s] through the hoses for a volume [m³]."""
        return volume / self.time_constant


def fitted_pump_down(times: Sequence[float], pressures: Sequence[float]) -> PumpDown | None:
    """Return the pump-down fitted to timed readings; None while it is too early to tell.

    Least squares of P = Pu + (P0 - Pu) exp(-t/τ): linear in Pu and P0, searched over τ.

    Parameters
    ----------
    times : seconds since the pump was opened, rising [s]
    pressures : absolute pressures at those times [Pa]

    Returns
    -------
    the fit, or None with fewer than 5 readings or while the pressure does not fall

    Valid for
    ---------
    one closed volume, constant pumping speed (viscous flow, above about 1 hPa)

    Source
    ------
    Evacuation equation t = (V/S) ln((P0 - Pu)/(P - Pu)), e.g. O'Hanlon, A User's Guide to
    Vacuum Technology, 3rd ed. 2003, section 6 (value from memory).

    Examples
    --------
    >>> readings = [820 + 83500 * 2.718281828 ** (-t / 120) for t in range(0, 330, 30)]
    >>> round(fitted_pump_down(range(0, 330, 30), readings).ultimate)
    820
    """
    if len(times) != len(pressures) or len(times) < FEWEST_READINGS:
        return None
    if pressures[-1] >= pressures[0] or any(late <= early for early, late in pairwise(times)):
        return None
    for pressure in pressures:
        require("pressure", pressure, 0, 120_000)
    length = times[-1] - times[0]
    low, high = log(length / 50), log(length * 20)
    for _ in range(60):
        left, right = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
        if _fit(times, pressures, exp(left))[0] < _fit(times, pressures, exp(right))[0]:
            high = right
        else:
            low = left
    time_constant = exp((low + high) / 2)
    squares, ultimate, fall = _fit(times, pressures, time_constant)
    spread = sqrt(squares / max(1, len(times) - 3))
    return PumpDown(ultimate + fall, ultimate, time_constant, spread)


def _fit(
    times: Sequence[float], pressures: Sequence[float], time_constant: float
) -> tuple[float, float, float]:
    """Return (sum of squares, ultimate, fall) of the best straight line in exp(-t/τ)."""
    shares = [exp(-time / time_constant) for time in times]
    count = len(times)
    mean_share, mean_pressure = sum(shares) / count, sum(pressures) / count
    steepness = sum((s - mean_share) ** 2 for s in shares)
    fall = (
        sum((s - mean_share) * (p - mean_pressure) for s, p in zip(shares, pressures, strict=True))
        / steepness
        if steepness
        else 0.0
    )
    ultimate = mean_pressure - fall * mean_share
    squares = sum((p - ultimate - fall * s) ** 2 for s, p in zip(shares, pressures, strict=True))
    return squares, ultimate, fall
