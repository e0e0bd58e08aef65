"""A sheet of paper or board that dries into oil of steady dryness: the series solution."""

from math import exp, pi, sqrt
from typing import Annotated

from fieldapp.engineering.validity import require

Second = Annotated[float, "time"]
Share = Annotated[float, "share"]

LONGEST = 1e11
EARLY = 0.2
TERMS = 8


def share_dried(*, time: Second, time_constant: Second) -> Share:
    """Return the share of the water that could leave a sheet which has left it.

    Parameters
    ----------
    time : time since the oil became dry [s]
    time_constant : time constant of the sheet, see drying_time_constant [s]

    Returns
    -------
    share [-]; what could leave is down to balance with the oil

    Valid for
    ---------
    time 0 to 1e11 s, time_constant 1 to 1e11 s; uniform at first, one temperature, steady
    surface, one diffusion coefficient

    Source
    ------
    Crank, The Mathematics of Diffusion, 2nd ed. 1975, equations 4.18 and 4.20 (value from
    memory): the sine series, and for early times the square-root law.

    Examples
    --------
    >>> round(share_dried(time=86_400, time_constant=86_400), 3)
    0.702
    """
    require("time", time, 0, LONGEST)
    require("time_constant", time_constant, 1, LONGEST)
    constants = time / time_constant
    if constants < EARLY:
        early: float = 4 * sqrt(constants) / pi**1.5
        return early
    odd = (2 * term + 1 for term in range(TERMS))
    left = sum(exp(-(n**2) * constants) / n**2 for n in odd)
    return 1 - 8 / pi**2 * left
