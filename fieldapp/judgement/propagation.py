"""The uncertainty of what is worked out, from the uncertainties of what goes into it."""

from collections.abc import Callable, Mapping
from math import inf, sqrt

from fieldapp.engineering.validity import OutsideValidity


def propagated(
    calculate: Callable[..., float],
    inputs: Mapping[str, float],
    uncertainties: Mapping[str, float],
    result: float,
) -> float:
    """Return the uncertainty of a result from those of its inputs, taken as independent.

    Law of propagation with numerical differences: JCGM 100:2008, 5.1.2 and 5.1.3 note 2.
    """
    moves = (
        _move(calculate, inputs, name, uncertainty, result)
        for name, uncertainty in uncertainties.items()
    )
    return sqrt(sum(move**2 for move in moves))


def _move(
    calculate: Callable[..., float],
    inputs: Mapping[str, float],
    name: str,
    step: float,
    result: float,
) -> float:
    """Return how far the result moves with one input, up or else down; beyond both, infinity."""
    for signed in (step, -step):
        try:
            return calculate(**{**inputs, name: inputs[name] + signed}) - result
        except OutsideValidity:
            continue
    return inf
