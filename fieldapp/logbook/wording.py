"""The logbook in words, as screen and command line write it."""

from datetime import datetime

from fieldapp.logbook.shapes import Amount, Due, Enough, Line, Logbook

REST_TELLS = "Moisture in oil while the skid runs never says whether the paper is dry."


def figure(value: float | None, decimals: int = 0) -> str:
    """Return a number for people; a dash where nobody knows it.

    >>> figure(121110.0), figure(None), figure(-0.04, 1)
    ('121110', '–', '0.0')
    """
    if value is None:
        return "–"
    text = f"{value:.{decimals}f}".replace("-", "−")
    return text.lstrip("−") if not text.strip("−0.") else text


def range_words(amount: Amount) -> str:
    """Return between what an amount of water lies.

    >>> range_words(Amount(5.6, 0.7))
    '4.9 to 6.3'
    """
    return f"{figure(amount.low, 1)} to {figure(amount.high, 1)}"


def removed_words(book: Logbook) -> str:
    """Return the water taken out so far."""
    at_least = "at least " if book.at_least else ""
    return f"{at_least}{figure(book.removed.water, 1)} kg ({range_words(book.removed)})"


def enough_words(enough: Enough) -> str:
    """Return how much is to come out by the plan, or why nobody can say."""
    if enough.likely is None:
        return enough.why
    return f"{enough.likely:.0f} kg by the plan ({figure(enough.low)} to {figure(enough.high)})"


def due_words(due: Due, now: datetime) -> str:
    """Return what is due and when: late is said first."""
    if due.latest is None:
        return f"{due.what}: {due.why}" if due.what else due.why
    when = f"{due.latest:%d %b %H:%M}"
    if due.earliest is not None:
        when = f"{due.earliest:%d %b} to {due.latest:%d %b}"
    late = "LATE. " if due.late(now) else ""
    return f"{late}{due.what} due {when}: {due.why}."


def line_words(line: Line) -> tuple[str, ...]:
    """Return the columns of a line: day, date, list, L, in, out, oil, since, total."""
    total = f"{figure(line.total.water, 2)}"
    return (
        figure(line.day, 1),
        f"{line.at:%d %b %H:%M}",
        line.title,
        figure(line.litres),
        figure(line.inlet, 1),
        figure(line.outlet, 1),
        figure(line.oil, 1),
        figure(line.since.water if line.since else None, 2),
        f"≥ {total}" if line.at_least else total,
    )
