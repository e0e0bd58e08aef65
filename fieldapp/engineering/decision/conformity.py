"""When a measured value may be taken as inside a limit, given how well it is known."""

from enum import StrEnum
from math import inf, isclose, isnan
from statistics import NormalDist
from typing import Annotated

from fieldapp.engineering.validity import require

PlainNumber = Annotated[float, "plain number"]
Share = Annotated[float, "share"]

LARGEST = 1e9


class Side(StrEnum):
    """On which side of its limit a value should lie."""

    AT_MOST = "at most"
    AT_LEAST = "at least"


class State(StrEnum):
    """The four states of ILAC-G8:09/2019, 4.2.3."""

    PASS = "pass"  # noqa: S105 - the standard's word
    CONDITIONAL_PASS = "conditional pass"  # noqa: S105
    CONDITIONAL_FAIL = "conditional fail"
    FAIL = "fail"


def acceptance_limit(*, limit: float, guard: float, side: Side) -> float:
    """Return the limit with the guard band taken off inside: what a reading must keep to.

    Parameters
    ----------
    limit : the limit stated, in any unit
    guard : guard band w, in that unit; the expanded uncertainty U for w = U
    side : whether the value should be at most or at least the limit

    Returns
    -------
    acceptance limit AL, in that unit

    Valid for
    ---------
    limit -1e9 to 1e9, guard 0 to 1e9

    Source
    ------
    ILAC-G8:09/2019, 4.2.2: AL = TL - w. The rule is agreed before measuring (ISO/IEC 17025:2017,
    7.1.3).

    Examples
    --------
    >>> acceptance_limit(limit=25, guard=0.5, side=Side.AT_LEAST)
    25.5
    """
    require("limit", limit, -LARGEST, LARGEST)
    require("guard", guard, 0, LARGEST)
    return limit - guard if side is Side.AT_MOST else limit + guard


def accepted(*, value: float, limit: float, guard: float, side: Side) -> bool:
    """Say whether a value passes the binary rule; with a guard of 0 that is simple acceptance.

    Parameters
    ----------
    value : measured value, in any unit
    limit : the limit stated, in that unit
    guard : guard band w, in that unit
    side : whether the value should be at most or at least the limit

    Returns
    -------
    true for pass

    Valid for
    ---------
    value and limit -1e9 to 1e9, guard 0 to 1e9

    Source
    ------
    ILAC-G8:09/2019, 4.2.1 and 4.2.2.

    Examples
    --------
    >>> accepted(value=17, limit=20, guard=3, side=Side.AT_MOST)
    True
    """
    return four_state(value=value, limit=limit, guard=guard, side=side) is State.PASS


def four_state(*, value: float, limit: float, guard: float, side: Side) -> State:
    """Return the state of a value by the rule that knows four.

    Parameters
    ----------
    value : measured value, in any unit
    limit : the limit stated, in that unit
    guard : guard band w, in that unit
    side : whether the value should be at most or at least the limit

    Returns
    -------
    pass, conditional pass, conditional fail or fail

    Valid for
    ---------
    value and limit -1e9 to 1e9, guard 0 to 1e9

    Source
    ------
    ILAC-G8:09/2019, 4.2.3.

    Examples
    --------
    >>> four_state(value=18, limit=20, guard=3, side=Side.AT_MOST).value
    'conditional pass'
    """
    require("value", value, -LARGEST, LARGEST)
    inner = acceptance_limit(limit=limit, guard=guard, side=side)
    outer = limit + guard if side is Side.AT_MOST else limit - guard
    bounds = ((inner, State.PASS), (limit, State.CONDITIONAL_PASS), (outer, State.CONDITIONAL_FAIL))
    return next((state for bound, state in bounds if _keeps(value, bound, side)), State.FAIL)


def probability_of_conformity(
    *, value: float, standard_uncertainty: float, low: float = -inf, high: float = inf
) -> float:
    """Return how probable it is that what was measured lies within its limits.

    Parameters
    ----------
    value : measured value, in any unit
    standard_uncertainty : its standard uncertainty u (k = 1), in that unit
    low : least that is allowed, in that unit
    high : most that is allowed, in that unit

    Returns
    -------
    probability [-]

    Valid for
    ---------
    value -1e9 to 1e9, standard_uncertainty 0 to 1e9, low at most high; normal distribution,
    nothing known beforehand

    Source
    ------
    JCGM 106:2012, 7.2 and 7.3 (value from memory).

    Examples
    --------
    >>> round(probability_of_conformity(value=18, standard_uncertainty=1.5, high=20), 4)
    0.9088
    """
    require("value", value, -LARGEST, LARGEST)
    require("standard_uncertainty", standard_uncertainty, 0, LARGEST)
    require("low", low, -inf, inf if isnan(high) else high)
    require("high", high, low, inf)
    if standard_uncertainty == 0:
        return float(low <= value <= high)
    above = 0.0 if high == inf else _beyond((high - value) / standard_uncertainty)
    below = 0.0 if low == -inf else _beyond((value - low) / standard_uncertainty)
    return max(0.0, 1 - above - below)


def guard_for_risk(*, standard_uncertainty: PlainNumber, risk: Share) -> PlainNumber:
    """Return the guard band that keeps the risk of a wrong pass at the limit to a share.

    Parameters
    ----------
    standard_uncertainty : standard uncertainty u (k = 1), in any unit
    risk : largest share of wrong passes, one-sided [-]

    Returns
    -------
    guard band w, in that unit

    Valid for
    ---------
    standard_uncertainty 0 to 1e9, risk 1e-6 to 0.5; normal distribution

    Source
    ------
    JCGM 106:2012, 8.3 (value from memory): w = 1.645 u for 5 %.

    Examples
    --------
    >>> round(guard_for_risk(standard_uncertainty=1.5, risk=0.05), 2)
    2.47
    """
    require("standard_uncertainty", standard_uncertainty, 0, LARGEST)
    require("risk", risk, 1e-6, 0.5)
    return -NormalDist().inv_cdf(risk) * standard_uncertainty


def _keeps(value: float, bound: float, side: Side) -> bool:
    """Say whether a value keeps to a bound; what floating point adds does not count."""
    inside = value <= bound if side is Side.AT_MOST else value >= bound
    return inside or isclose(value, bound, rel_tol=1e-12, abs_tol=1e-15)


def _beyond(deviations: float) -> float:
    """Return the share of a normal distribution beyond so many standard deviations."""
    return NormalDist().cdf(-deviations)
