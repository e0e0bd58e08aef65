"""Reads the demo's script: what is touched, when, and by whom."""

from dataclasses import dataclass
from datetime import datetime, timedelta

WHO = {
    "M": "Maren Holtby",
    "J": "Jory Pellew",
    "R": "Ruth Calderon",
    "E": "Emil Strand",
    "H": "Hana Brook",
}
OFFSET = "+02:00"


@dataclass(frozen=True, slots=True)
class Line:
    """One line: what is done (`enter` unless it says otherwise), to what, when, by whom."""

    verb: str
    subject: str
    given: str
    at: datetime
    who: str
    instrument: str
    note: str


def read_script(text: str) -> tuple[Line, ...]:
    """Return the lines in the order of their times."""
    day = ""
    lines = []
    for row in text.splitlines():
        if row.startswith("# --- day"):
            day = row.removeprefix("# --- day").strip()
        elif row.strip() and not row.startswith("#"):
            lines.append(_line(row, day))
    return tuple(sorted(lines, key=lambda line: line.at))


def _line(row: str, day: str) -> Line:
    cells = [cell.strip() for cell in row.split("|")]
    cells += [""] * (6 - len(cells))
    first, given, time, who, instrument, note = cells
    verb, subject = "enter", first
    if first.startswith("!"):
        verb, subject = first.removeprefix("!").strip(), ""
    at = datetime.fromisoformat(f"{day}T{time}{OFFSET}")
    return Line(verb, subject, given, at, WHO[who], instrument, note)


def span(text: str) -> timedelta:
    """Return the time since the start: “2:30” is minutes and seconds, “20” is minutes."""
    minutes, _, seconds = text.strip().partition(":")
    return timedelta(minutes=int(minutes), seconds=int(seconds or 0))
