"""Which things a page of plates shows, where the plates that turn it take places of their own."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

_Thing_co = TypeVar("_Thing_co", covariant=True)


@dataclass(frozen=True, slots=True)
class Page(Generic[_Thing_co]):
    """What is shown, and the first thing of the page before and after; -1 where there is none."""

    shown: tuple[_Thing_co, ...]
    before: int = -1
    after: int = -1


def page_of(things: Sequence[_Thing_co], start: int, room: int) -> Page[_Thing_co]:
    """Return the page that holds the thing at `start`; `room` places hold things and turns.

    >>> page_of("abcdefg", 0, 6)
    Page(shown=('a', 'b', 'c', 'd', 'e'), before=-1, after=5)
    >>> page_of("abcdefg", 5, 6)
    Page(shown=('f', 'g'), before=0, after=-1)
    """
    first = 0
    while True:
        left = len(things) - first
        places = room - (first > 0)
        if left > places:
            places -= 1
        after = first + places
        if start < after or after >= len(things):
            last = after >= len(things)
            before = _before(first, room)
            return Page(tuple(things[first:after]), before, -1 if last else after)
        first = after


def _before(first: int, room: int) -> int:
    """Return where the page before begins: the first holds one thing more than those between."""
    if first == 0:
        return -1
    return max(0, first - (room - 2)) if first > room - 1 else 0
