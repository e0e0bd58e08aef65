"""When the next reading of a trace or a hold is due, from the times that are stored."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from fieldapp.checklist.model import Entry
from fieldapp.job.state import Attempt

_MINUTE, _HOUR = 60, 3600
_LONG = 10
_PROMPT = 10


@dataclass(frozen=True, slots=True)
class Due:
    """The next reading: its number from 1, when it is due, and how long until then [s]."""

    number: int
    at: datetime
    seconds: float

    @property
    def words(self) -> str:
        """Return when it is due, for people."""
        if self.seconds > _MINUTE:
            return f"due {self.at:%H:%M}, in {clock(self.seconds)}"
        if self.seconds > 0:
            return f"due in {clock(self.seconds)}"
        if self.seconds > -_PROMPT:
            return "due now"
        return f"late by {clock(-self.seconds)}"


def due_of(entry: Entry, attempt: Attempt, now: datetime) -> Due | None:
    """Return the next reading that is due; None when all of a hold's are taken."""
    taken = len(attempt.readings)
    if entry.times:
        if taken >= len(entry.times):
            return None
        begin = attempt.readings[0].taken if attempt.readings else attempt.started
        at = begin + timedelta(minutes=entry.times[taken] - entry.times[0])
    else:
        at = attempt.started
        if attempt.readings:
            at = attempt.readings[-1].taken + timedelta(seconds=entry.every)
    return Due(taken + 1, at, (at - now).total_seconds())


def clock(seconds: float) -> str:
    """Return a length of time as it stands on a stopwatch; from ten hours on without seconds.

    >>> clock(754), clock(3661), clock(86400)
    ('12:34', '1:01:01', '24:00 h')
    """
    whole = int(seconds)
    hours, rest = divmod(whole, _HOUR)
    minutes, left = divmod(rest, _MINUTE)
    if hours >= _LONG:
        return f"{hours}:{minutes:02} h"
    return f"{hours}:{minutes:02}:{left:02}" if hours else f"{minutes}:{left:02}"


def planned(minute: int) -> str:
    """Return when a reading of a hold is planned: minutes, or hours where they are whole.

    >>> planned(30), planned(1440)
    ('30', '24 h')
    """
    hours, rest = divmod(minute, _MINUTE)
    return f"{hours} h" if hours >= _LONG and not rest else f"{minute}"
