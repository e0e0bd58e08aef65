"""Reading a pump-down: where it levels out, how fast the pump draws, when the target comes."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import exp, log, sqrt
from typing import Annotated

from fieldapp.engineering.validity import require

Pascal = Annotated[float, "absolute pressure"]
CubicMetre = Annotated[float, "volume"]
CubicMetrePerSecond = Annotated[float, "flow"]
Second = Annotated[float, "time"]

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


def pump_down_time(
    *,
    volume: CubicMetre,
    speed: CubicMetrePerSecond,
    start_pressure: Pascal,
    blank_off: Pascal,
    target: Pascal,
) -> Second:
    """Return how long a tight, dry volume takes to a pressure; leaks and oil make it longer.

    Parameters
    ----------
    volume : evacuated volume [m³]
    speed : pumping speed through the hoses, less than on the pump's plate [m³/s]
    start_pressure : absolute pressure at first [Pa]
    blank_off : what the pump reads alone, its inlet shut [Pa]
    target : absolute pressure to reach [Pa]

    Returns
    -------
    time [s]

    Valid for
    ---------
    volume 0.001 to 100 m³, speed 1e-6 to 1 m³/s, start_pressure 1000 to 110 000 Pa, blank_off 0 Pa
    to start_pressure, target 1 Pa above blank_off to start_pressure; above about 1 hPa

    Source
    ------
    Evacuation equation t = (V/S) ln((P0 - Pu)/(P - Pu)), e.g. O'Hanlon, A User's Guide to
    Vacuum Technology, 3rd ed. 2003, section 6 (value from memory).

    Examples
    --------
    >>> round(pump_down_time(volume=0.12, speed=60 / 60_000, start_pressure=84_320, blank_off=800,
    ...     target=16_465) / 60, 2)
    3.35
    """
    require("volume", volume, 0.001, 100)
    require("speed", speed, 1e-6, 1)
    require("start_pressure", start_pressure, 1000, 110_000)
    require("blank_off", blank_off, 0, start_pressure)
    require("target", target, blank_off + 1, start_pressure)
    return volume / speed * log((start_pressure - blank_off) / (target - blank_off))


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
