"""Numbers of things as people say them."""


def counted(count: int, one: str, many: str) -> str:
    """A number with its noun.

    >>> counted(1, "entry", "entries"), counted(2, "entry", "entries")
    ('1 entry', '2 entries')
    """
    return f"{count} {one if count == 1 else many}"


def entries(count: int) -> str:
    """A number of entries."""
    return counted(count, "entry", "entries")


def events(count: int) -> str:
    """A number of events."""
    return counted(count, "event", "events")
