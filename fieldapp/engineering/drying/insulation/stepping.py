"""Following stiff equations through time in steps that fit them, without a closed form."""

from collections.abc import Callable, Iterator, Sequence
from math import isfinite, sqrt

import numpy as np
from numpy.typing import NDArray

from fieldapp.errors import FieldAppError

Vector = NDArray[np.float64]
GAMMA = 1 - 1 / sqrt(2)
FIRST_STEP = 1.0
MOST_STEPS = 20_000
SLOWER, FASTER, CAUTION = 0.2, 4.0, 0.8


class StepsSpentError(FieldAppError):
    """The equations did not come to the end in a sensible number of steps."""

    def __init__(self, time: float) -> None:
        super().__init__(f"the forecast stands still at {time:.0f} s: take simpler insulation")
        self.time = time


def states_at(
    times: Sequence[float],
    start: Vector,
    rates: Callable[[Vector], Vector],
    slopes: Callable[[Vector], Vector],
    tolerances: Vector,
) -> Iterator[Vector]:
    """Yield the state at each of the rising `times` [s], from `start` at time 0.

    `rates` gives the change a second, `slopes` its derivatives, near enough. Rosenbrock's method
    of second order by Verwer, Spee, Blom and Hundsdorfer, SIAM Journal on Scientific Computing
    20(4), 1999 (value from memory): of second order whatever the derivatives, L-stable.
    """
    state, time, step, spent = start, 0.0, FIRST_STEP, 0
    for end in times:
        while time < end:
            spent += 1
            if spent > MOST_STEPS:
                raise StepsSpentError(time)
            length = min(step, end - time)
            with np.errstate(over="ignore", invalid="ignore"):  # a step too long is cut, not told
                after, off = _one_step(state, length, rates, slopes)
                strain = float(np.max(np.abs(off) / tolerances))
            if strain <= 1:
                state, time = after, (end if length == end - time else time + length)
            change = _change(strain)
            wanted = length * min(FASTER, max(SLOWER, change))
            step = max(step, wanted) if strain <= 1 and length < step else wanted
        yield state


def _change(strain: float) -> float:
    """Return how much longer the next step may be; a step that led nowhere is cut hard."""
    if not isfinite(strain):
        return 0.0
    return CAUTION / sqrt(strain) if strain else FASTER


def _one_step(
    state: Vector,
    length: float,
    rates: Callable[[Vector], Vector],
    slopes: Callable[[Vector], Vector],
) -> tuple[Vector, Vector]:
    """Return the state a step later, and how far the first-order rule lies from it."""
    left = np.eye(len(state)) - GAMMA * length * slopes(state)
    first = np.linalg.solve(left, rates(state))
    second = np.linalg.solve(left, rates(state + length * first) - 2 * first)
    return state + length * (1.5 * first + 0.5 * second), length / 2 * (first + second)
