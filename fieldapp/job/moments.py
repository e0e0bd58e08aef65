"""Times as people write them and as they read them."""

from datetime import datetime

PATTERNS = ("%Y-%m-%d %H:%M", "%Y-%m-%d", "%H:%M")


class NotATimeError(ValueError):
    """What was typed cannot be read as a time; the message says how to write it."""


def moment_of(text: str, near: datetime) -> datetime:
    """Return the moment that `text` means; a bare time is of the day of `near`.

    >>> moment_of("18:30", datetime.fromisoformat("2026-06-16T07:10+02:00")).isoformat()
    '2026-06-16T18:30:00+02:00'
    """
    for pattern in PATTERNS:
        try:
            found = datetime.strptime(text.strip(), pattern).replace(tzinfo=near.tzinfo)
        except ValueError:
            continue
        if pattern == "%H:%M":
            return found.replace(year=near.year, month=near.month, day=near.day)
        return found
    raise NotATimeError(
        f"“{text}” is not a time: write it like 18:30 or 2026-06-16 18:30 or 2026-06-16"
    )


def span(seconds: float) -> str:
    """Return a length of time for people, rounded up.

    >>> span(5400)
    '90 min'
    """
    minutes = int(-(-seconds // 60))
    if minutes < 120:  # noqa: PLR2004 - up to two hours read better in minutes
        return f"{minutes} min"
    hours = -(-minutes // 60)
    return f"{hours} h" if hours < 72 else f"{-(-hours // 24)} days"  # noqa: PLR2004 - three days
