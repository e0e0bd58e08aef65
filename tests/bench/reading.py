"""An invented reading of the size of a real one."""

from datetime import UTC, datetime


def now() -> datetime:
    """The time, with its zone."""
    return datetime.now(UTC)


def reading(number: int) -> dict[str, str]:
    """The document of one vacuum reading."""
    return {
        "kind": "entry_made",
        "step": "evacuate",
        "entry": "vessel_vacuum",
        "value": f"{number / 100:.2f}",
        "unit": "inHg",
        "who": "technician",
        "at": "2031-05-04T08:30:00+00:00",
    }
