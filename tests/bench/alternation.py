"""Takes two things in turn, so that a busy machine slows both alike."""

from collections.abc import Callable
from time import perf_counter

Action = Callable[[int], object]


def in_turn(ours: Action, outside: Action, count: int) -> tuple[list[float], list[float]]:
    """The seconds that each call of `ours` and of `outside` took; which comes first changes."""
    of_ours: list[float] = []
    of_outside: list[float] = []
    pair = [(ours, of_ours), (outside, of_outside)]
    for number in range(count):
        for action, durations in pair:
            start = perf_counter()
            action(number)
            durations.append(perf_counter() - start)
        pair.reverse()
    return of_ours, of_outside
