"""How well a fitted pump-down is known: its ultimate pressure, its speed, its time to a target."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, inf, log, sqrt

from fieldapp.engineering.pump_down import PumpDown

PARAMETERS = 3
# Coverage factor for 95.45 % with so many readings beyond those that a curve takes up: JCGM
# 100:2008 (GUM), table G.2 (values from memory). Between two rows the larger one counts.
STUDENT = (
    (1, 13.97), (2, 4.53), (3, 3.31), (4, 2.87), (5, 2.65), (6, 2.52), (7, 2.43), (8, 2.37),
    (9, 2.32), (10, 2.28), (15, 2.18), (20, 2.13), (30, 2.09), (50, 2.05), (100, 2.025),
)  # fmt: skip

Row = tuple[float, float, float]
Matrix = tuple[Row, Row, Row]
NOTHING_KNOWN: Matrix = ((inf, 0.0, 0.0), (0.0, inf, 0.0), (0.0, 0.0, inf))


@dataclass(frozen=True, slots=True)
class CurveUncertainty:
    """Expanded uncertainties (about 95 %) of a fitted pump-down: Pa and s.

    `covariance` is that of start, ultimate and time constant; `coverage` the factor k.
    """

    fit: PumpDown
    covariance: Matrix
    coverage: float

    @property
    def ultimate(self) -> float:
        """Uncertainty of the ultimate pressure [Pa]."""
        return self._expanded((0.0, 1.0, 0.0))

    @property
    def time_constant(self) -> float:
        """Uncertainty of the time constant [s]."""
        return self._expanded((0.0, 0.0, 1.0))

    def speed(self, volume: float, volume_uncertainty: float = 0.0) -> float:
        """Return the uncertainty of the pumping speed [m³/s] through the hoses."""
        relative = self.time_constant / self.fit.time_constant
        return self.fit.speed(volume) * sqrt(relative**2 + (volume_uncertainty / volume) ** 2)

    def time_to(self, pressure: float) -> float | None:
        """Return the uncertainty [s] of the time at which a pressure [Pa] is reached."""
        if pressure <= self.fit.ultimate + self.ultimate:
            return None
        whole, left = self.fit.start - self.fit.ultimate, pressure - self.fit.ultimate
        constant = self.fit.time_constant
        slopes = (constant / whole, constant * (1 / left - 1 / whole), log(whole / left))
        return self._expanded(slopes)

    def _expanded(self, slopes: Row) -> float:
        variance = sum(
            slopes[row] * slopes[column] * self.covariance[row][column]
            for row in range(PARAMETERS)
            for column in range(PARAMETERS)
            if slopes[row] and slopes[column]
        )
        return self.coverage * sqrt(max(0.0, variance))


def curve_uncertainty(
    times: Sequence[float], fit: PumpDown, *, repeatability: float = 0.0
) -> CurveUncertainty:
    """Return how well a fitted pump-down is known from readings at these times.

    Parameters
    ----------
    times : seconds of the readings the curve was fitted to [s]
    fit : the fitted pump-down
    repeatability : what the gauge repeats to, k = 1 [Pa]; the larger of this and the spread of
        the readings about the curve counts

    Returns
    -------
    the uncertainties, infinite with three readings or fewer

    Valid for
    ---------
    a curve of the right shape: what is systematic (a slow film of oil giving off gas) is not in it

    Source
    ------
    Linearised least squares, JCGM 100:2008 (GUM), H.3 in general form; coverage from table G.2.

    Examples
    --------
    >>> known = curve_uncertainty(range(0, 330, 30), PumpDown(84_000, 800, 120, 100))
    >>> round(known.ultimate), round(known.time_constant, 1)
    (314, 1.2)
    """
    spare = len(times) - PARAMETERS
    if spare < 1:
        return CurveUncertainty(fit, NOTHING_KNOWN, STUDENT[0][1])
    rows = [_slopes(time, fit) for time in times]
    normal = [[sum(r[i] * r[j] for r in rows) for j in range(3)] for i in range(3)]
    variance = max(fit.spread, repeatability) ** 2
    return CurveUncertainty(fit, _inverted(normal, variance), _coverage(spare))


def _slopes(time: float, fit: PumpDown) -> Row:
    """Return how the pressure at a time answers to start, ultimate and time constant."""
    share = exp(-time / fit.time_constant)
    fall = fit.start - fit.ultimate
    return share, 1 - share, fall * share * time / fit.time_constant**2


def _inverted(m: list[list[float]], variance: float) -> Matrix:
    """Return the inverse of a symmetric matrix of three rows, times the variance."""
    minors = [
        [
            m[(i + 1) % 3][(j + 1) % 3] * m[(i + 2) % 3][(j + 2) % 3]
            - m[(i + 1) % 3][(j + 2) % 3] * m[(i + 2) % 3][(j + 1) % 3]
            for i in range(3)
        ]
        for j in range(3)
    ]
    determinant = sum(m[0][j] * minors[j][0] for j in range(3))
    if determinant <= 0:
        return NOTHING_KNOWN
    first, second, third = (
        (row[0] * variance / determinant, row[1] * variance / determinant,
         row[2] * variance / determinant)
        for row in minors
    )  # fmt: skip
    return first, second, third


def _coverage(spare: int) -> float:
    return next(factor for least, factor in reversed(STUDENT) if least <= spare)
