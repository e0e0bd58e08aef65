"""Limits that others publish, and whether a measured value keeps to a limit."""

from enum import StrEnum
from math import inf
from typing import Annotated

from fieldapp.engineering.decision import conformity as deciding
from fieldapp.engineering.decision import oil_limits as limits_of_oil
from fieldapp.engineering.decision.conformity import LARGEST, Side, State
from fieldapp.engineering.decision.oil_limits import SCATTERS, Scatter
from fieldapp.engineering.rules.said import CannotSayError, Figure, Said
from fieldapp.engineering.validity import require

PlainNumber = Annotated[float, "plain number"]
Volt = Annotated[float, "voltage"]

NO_LIMIT = "no limit was given: give low, high or both"
AGREED = "The rule is agreed before measuring (ISO/IEC 17025:2017, 7.1.3)."


class OilTable(StrEnum):
    """The tables of oil limits that are carried."""

    IEEE_IN_SERVICE = "IEEE in service"
    IEEE_NEW = "IEEE new equipment"
    IEC_IN_SERVICE = "IEC in service"


def conformity(
    *,
    value: PlainNumber,
    uncertainty: PlainNumber,
    low: PlainNumber | None = None,
    high: PlainNumber | None = None,
) -> Said:
    """Say whether a value keeps to its limits, in four states, and how probable that is.

    Parameters
    ----------
    value : measured value, in any unit
    uncertainty : its expanded uncertainty U (k = 2), in that unit; it is the guard band
    low : least that is allowed, in that unit
    high : most that is allowed, in that unit

    Returns
    -------
    pass, conditional pass, conditional fail or fail; the probability that it conforms

    Valid for
    ---------
    value, low and high -1e9 to 1e9, uncertainty 0 to 1e9, low at most high; normal distribution,
    nothing known beforehand

    Source
    ------
    ILAC-G8:09/2019, 4.2.3, with w = U; JCGM 106:2012, 7.2 and 7.3 (value from memory).

    Examples
    --------
    >>> conformity(value=18, uncertainty=3, high=20).sentence
    'Conditional pass: conforms with a probability of 0.9088.'
    """
    require("uncertainty", uncertainty, 0, LARGEST)
    sides = [
        (limit, side)
        for limit, side in ((low, Side.AT_LEAST), (high, Side.AT_MOST))
        if limit is not None
    ]
    if not sides:
        raise CannotSayError(NO_LIMIT)
    for limit, side in sides:
        require("low" if side is Side.AT_LEAST else "high", limit, -LARGEST, LARGEST)
    order = list(State)
    states = [
        deciding.four_state(value=value, limit=limit, guard=uncertainty, side=side)
        for limit, side in sides
    ]
    worst = max(states, key=order.index)
    probability = deciding.probability_of_conformity(
        value=value,
        standard_uncertainty=uncertainty / 2,
        low=-inf if low is None else low,
        high=inf if high is None else high,
    )
    bounds = tuple(
        Figure(f"accept {side.value}",
               deciding.acceptance_limit(limit=limit, guard=uncertainty, side=side), "1")
        for limit, side in sides
    )  # fmt: skip
    words = f"{worst.value[:1].upper()}{worst.value[1:]}: conforms with a probability of "
    kept = all(
        deciding.accepted(value=value, limit=limit, guard=uncertainty, side=side)
        for limit, side in sides
    )
    binary = f"By the rule of two states, with the guard band: {'pass' if kept else 'fail'}."
    figures = (*bounds, Figure("probability of conformity", probability, "1"))
    return Said(f"{words}{probability:.4f}.", figures, notes=(binary, AGREED))


def oil_limits(*, voltage: Volt, table: OilTable, inhibited: bool = False) -> Said:
    """Say which limits two standards print for the oil of a voltage class.

    Parameters
    ----------
    voltage : nominal voltage (IEEE) or highest voltage for equipment (IEC) [V]
    table : which table
    inhibited : whether the oil holds an inhibitor (IEC, interfacial tension)

    Returns
    -------
    the class and its limits, for the responsible engineer

    Valid for
    ---------
    voltage 1 to 1 200 000 V; mineral oil

    Source
    ------
    IEEE C57.106-2006; IEC 60422:2013, table 5, of which there is an edition of 2024 (values from
    memory; the owner's edition wins).

    Examples
    --------
    >>> oil_limits(voltage=110_000, table=OilTable.IEEE_IN_SERVICE).rows[0]
    ('water', 'at most 25 mg/kg')
    """
    if table is OilTable.IEC_IN_SERVICE:
        found = limits_of_oil.iec_in_service(voltage, inhibited=inhibited)
        rows: tuple[tuple[str, ...], ...] = tuple(
            (b.test, f"{b.good:g} {b.unit}".strip(), f"{b.poor:g} {b.unit}".strip())
            for b in found.boundaries
        )
        heads: tuple[str, ...] = ("test", "good up to", "poor beyond")
    else:
        new = table is OilTable.IEEE_NEW
        make = limits_of_oil.ieee_new_equipment if new else limits_of_oil.ieee_in_service
        found, heads = make(voltage), ("test", "limit")
        rows = tuple((limit.test, _limit_words(limit)) for limit in found.limits)
    words = f"{found.voltage_class[:1].upper()}{found.voltage_class[1:]}: {found.source}."
    scatter = () if table is OilTable.IEC_IN_SERVICE else tuple(map(_scatter_words, SCATTERS))
    return Said(words, heads=heads, rows=rows, notes=(found.warning, *scatter))


def _scatter_words(scatter: Scatter) -> str:
    return (
        f"{scatter.test}: two results of one operator may differ by {scatter.two:g} % of their "
        f"mean, of two laboratories by {scatter.two_laboratories:g} % (ASTM D1816, section 11, as "
        f"reproduced)."
    )


def _limit_words(limit: limits_of_oil.Limit) -> str:
    if limit.high is not None:
        return f"at most {limit.high:g} {limit.unit}"
    return f"at least {limit.low:g} {limit.unit}"
