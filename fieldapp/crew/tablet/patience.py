"""When a secret may be tried again after wrong ones: a rule, without clock or disk.

Two slips cost nothing. From the third wrong secret on one waits: half a minute, then twice as
long each time, an hour at most. The steps follow the example in NIST SP 800-63B (2017), 5.2.2:
"30 seconds up to an hour" (value from memory).

A clock that was set back would make the wait endless or nothing, so the wait then begins anew
(`seen`). A clock that is set forward ends it: whoever may set the clock can copy the key file too,
and what guards that is the secret and the cost of each guess.
"""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta

SLIPS = 2
FIRST_WAIT = timedelta(seconds=30)
LONGEST_WAIT = timedelta(hours=1)


@dataclass(frozen=True, slots=True)
class Tries:
    """How many wrong secrets were given in a row, and when the last was."""

    wrong: int = 0
    last: datetime | None = None


def wait_after(wrong: int) -> timedelta:
    """Return how long one waits after so many wrong secrets in a row."""
    if wrong <= SLIPS:
        return timedelta(0)
    doubled = 1 << min(wrong - SLIPS - 1, 30)
    return min(FIRST_WAIT * doubled, LONGEST_WAIT)


def next_try(tries: Tries) -> datetime | None:
    """Return when the next secret may be tried; None if that is at once."""
    wait = wait_after(tries.wrong)
    return tries.last + wait if tries.last is not None and wait else None


def seen(tries: Tries, now: datetime) -> Tries:
    """Return the tries as they count now: after a clock set back the wait begins anew."""
    if tries.last is not None and now < tries.last:
        return replace(tries, last=now)
    return tries


def after_wrong(tries: Tries, now: datetime) -> Tries:
    """Return the tries with one more wrong secret."""
    return Tries(tries.wrong + 1, now)
