"""The colours of the sun and night looks, the sizes and the type of every screen."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from kivy.event import EventDispatcher
from kivy.properties import ObjectProperty, StringProperty

if TYPE_CHECKING:
    from collections.abc import Callable

FONT = "B612"

Colour = tuple[float, float, float, float]


# Below this a channel is linear (WCAG 2.2, relative luminance).
_DARK = 0.04045


@dataclass(frozen=True, slots=True)
class Look:
    """One set of colours; every field but the name is RRGGBB, named after its role."""

    name: str
    paper: str
    """Ground of the sheet."""
    ink: str
    """Text, lines, done, closed, held."""
    ink2: str
    """Second text."""
    rule: str
    """Lines only, never text."""
    wash: str
    """What cannot be reached."""
    key: str
    """Inside of a plate."""
    here: str
    """The part in question, the one main act, the expected range."""
    hereink: str
    good: str
    """Proven, inside."""
    goodink: str
    stop: str
    """Failed, outside."""
    stopink: str
    caution: str
    """CAUTION, deviation, too near."""
    cautionink: str
    warning: str
    """WARNING."""
    warningink: str
    oil: str
    oildash: str
    series1: str
    series2: str
    series3: str
    series4: str
    series5: str
    band: str
    """Uncertainty, always beside a line."""


SUN = Look(
    name="sun",
    paper="FFFFFF",
    ink="101418",
    ink2="3B444B",
    rule="6E7880",
    wash="E9EDEC",
    key="FFFFFF",
    here="004F80",
    hereink="FFFFFF",
    good="00563A",
    goodink="FFFFFF",
    stop="9B2423",
    stopink="FFFFFF",
    caution="F9A800",
    cautionink="101418",
    warning="F58220",
    warningink="101418",
    oil="4A3510",
    oildash="D9C9A6",
    series1="101418",
    series2="0072B2",
    series3="D55E00",
    series4="009E73",
    series5="CC79A7",
    band="CFD8DC",
)
NIGHT = Look(
    name="night",
    paper="0C0F11",
    ink="F2E8D5",
    ink2="CDC2AE",
    rule="8B8374",
    wash="24292B",
    key="181C1F",
    here="8FD0FF",
    hereink="0C0F11",
    good="7FDDA8",
    goodink="0C0F11",
    stop="FF9E90",
    stopink="0C0F11",
    caution="FFC042",
    cautionink="0C0F11",
    warning="FF9A3D",
    warningink="0C0F11",
    oil="856329",
    oildash="E8C583",
    series1="F2E8D5",
    series2="56B4E9",
    series3="FF8A4C",
    series4="3CCB9E",
    series5="E3A3C7",
    band="3A4144",
)
LOOKS = (SUN, NIGHT)

# Grid, in dp: a module is a key and a gap.
MARGIN = 24
KEY = 126
GAP = 20
MODULE = KEY + GAP
TARGET = 94
LEAST_GAP = 19
CUT = 18
LEFT_BLOCK = 498
RIGHT_BLOCK = 710
HEADER = 78
HEADER_PORTRAIT = 128
STRIP_ONE_LINE = 44
STRIP_TWO_LINES = 76

# Type, in dp.
PRESENT_VALUE = 80
KEYPAD_DIGIT = 54
STRIP_DIGIT = 46
LIST_TITLE = 46
FACT = 44
UNIT = 40
NAME = 32
TASK = 30
CLOCK = 28
BODY = 26
NOTE = 24
PLATE_FIRST = 26
PLATE_SECOND = 21
LABEL = 21
LEAST_TEXT = 21
LINE_HEIGHT = 1.25

# Lines, in dp.
THIN = 2
LINE = 3
HEAVY = 4
TARGET_LINE = 5
HERE_LINE = 6
WAITING_DASH = (9, 7)
SKID_DASH = (14, 8)

# Chart series 1 to 5: dash on and off (none is solid), and the shape of the marker.
SERIES = (
    ("series1", (), "ring"),
    ("series2", (11, 6), "square"),
    ("series3", (3, 5), "triangle"),
    ("series4", (3, 5), "diamond"),
    ("series5", (11, 6), "ring"),
)

# The text colour that belongs on each ground.
INK_ON = {
    "paper": "ink",
    "key": "ink",
    "wash": "ink",
    "ink": "paper",
    "here": "hereink",
    "good": "goodink",
    "stop": "stopink",
    "caution": "cautionink",
    "warning": "warningink",
}


class _Current(EventDispatcher):
    look = ObjectProperty(SUN)
    decimal_mark = StringProperty(".")


_current = _Current()


def look() -> Look:
    """The look in use."""
    found: Look = _current.look
    return found


def switch_look(wanted: Look) -> None:
    """Use another look; every drawn widget draws itself again."""
    _current.look = wanted


def decimal_mark() -> str:
    """The decimal mark on the keys."""
    return str(_current.decimal_mark)


def switch_decimal_mark(mark: str) -> None:
    """Put another decimal mark on the keys of every keypad that is made from now on."""
    _current.decimal_mark = mark


def when_look_changes(callback: Callable[..., None]) -> None:
    """Call a method when the look changes; a bound method is held weakly."""
    _current.bind(look=callback)


def hexadecimal(role: str, of: Look | None = None) -> str:
    """The RRGGBB of a role in the look in use."""
    found: str = getattr(of or look(), role)
    return found


def colour(role: str, of: Look | None = None) -> Colour:
    """The red, green, blue and opacity of a role in the look in use, 0 to 1."""
    text = hexadecimal(role, of)
    red, green, blue = (int(text[at : at + 2], 16) / 255 for at in (0, 2, 4))
    return (red, green, blue, 1.0)


def contrast(first: str, second: str, of: Look | None = None) -> float:
    """The contrast of two roles after WCAG 2.2: 1 to 21."""
    dark, light = sorted((_luminance(first, of), _luminance(second, of)))
    return (light + 0.05) / (dark + 0.05)


def _luminance(role: str, of: Look | None) -> float:
    channels = [
        part / 12.92 if part <= _DARK else ((part + 0.055) / 1.055) ** 2.4
        for part in colour(role, of)[:3]
    ]
    return 0.2126 * channels[0] + 0.7152 * channels[1] + 0.0722 * channels[2]
