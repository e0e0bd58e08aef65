"""What the bodies share: where the plates that keep stand, and how a verdict is shown."""

from __future__ import annotations

from fieldapp.screens import theme
from fieldapp.screens.body_view import VerdictView
from fieldapp.screens.kit import words
from fieldapp.screens.kit.plate import Plate
from fieldapp.screens.kit.text import Verdict

KEEP = 110


def place_keep(plates: list[Plate], wide: float, top: float, high: float) -> None:
    """Place the plates that keep side by side; the last one, most often blue, is the widest."""
    if not plates:
        return
    shares = [1.0] * (len(plates) - 1) + [1.6]
    room = wide - theme.GAP * (len(plates) - 1)
    left = 0.0
    for plate, share in zip(plates, shares, strict=True):
        each = room * share / sum(shares)
        plate.place = [left, top, each, high]
        left += each + theme.GAP


def lines_high(text: str, wide: float) -> float:
    """The height that a text takes in a width."""
    if not text:
        return 0
    return words.height_of(len(words.wrapped(text, theme.BODY, max(1, wide))), theme.BODY)


def show_verdict(verdict: Verdict, view: VerdictView) -> None:
    """Show a verdict; nothing where there is none."""
    verdict.kind, verdict.sentence, verdict.second = view.mark, view.sentence, view.second


def fit_verdict(verdict: Verdict, view: VerdictView, high: float, wide: float) -> None:
    """Leave out what then, where the sentence alone fills the room."""
    room = wide - 2 * verdict.radius - 18
    lines = len(words.wrapped(view.sentence, theme.BODY, max(1, room), bold=True))
    more = len(words.wrapped(view.second, theme.NOTE, max(1, room))) if view.second else 0
    if words.height_of(lines, theme.BODY) + words.height_of(more, theme.NOTE) > high:
        verdict.second = ""
