"""Where somebody stands in the app: a screen, and what it is about."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Place:
    """A screen by name; `step` and `entry` say what is shown, `part` which field is asked for.

    `purpose` says what a reason, a person or a text is asked for, and `start` is the first row
    that a list shows.
    """

    screen: str
    step: str = ""
    entry: str = ""
    part: str = ""
    purpose: str = ""
    start: int = 0
