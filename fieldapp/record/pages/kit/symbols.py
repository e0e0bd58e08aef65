"""The symbols of the line diagram: a valve open, closed or not yet set, and a pump."""

from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD
from fieldapp.record.pages.kit.paper import INK, RULE, SECONDARY, WHITE, Paper

HALF = 5.2
SLIM = 0.62
Label = tuple[str, float, float]
"""A name, and how far from the valve's middle its first line begins."""


def valve(
    paper: Paper,
    x: float,
    y: float,
    state: str,
    label: Label,
    *,
    upright: bool = False,
    driven: bool = False,
    small: bool = False,
) -> None:
    """Draw a valve: white is open, filled is closed, grey outline is not known."""
    half = HALF * 0.75 if small else HALF
    one = [(-half, -half * SLIM), (-half, half * SLIM), (0.0, 0.0)]
    other = [(half, -half * SLIM), (half, half * SLIM), (0.0, 0.0)]
    fill = INK if state == "closed" else WHITE
    edge = INK if state else RULE
    for triangle in (one, other):
        points = [(x + b, y + a) if upright else (x + a, y + b) for a, b in triangle]
        paper.shape(points, fill, edge, 0.8)
    if driven:
        paper.line(x, y, x, y - 6, 0.8, edge)
        paper.box(x - 2.6, y - 8.6, 5.2, 3, WHITE, edge, 0.7)
    _label(paper, x, y, state, label, beside=upright or label[1] > HALF)


def _label(paper: Paper, x: float, y: float, state: str, label: Label, *, beside: bool) -> None:
    name, across, down = label
    if not name:
        return
    align = "left" if beside else "middle"
    paper.text(x + across, y + down, name, 6.6, SEMIBOLD, INK, align)
    colour = INK if state == "closed" else SECONDARY
    if beside:
        paper.text(x + across, y + down + 7.6, state or "not set", 6.6, REGULAR, colour)
    else:
        paper.text(x + across, y + 12.5, state or "not set", 6.6, REGULAR, colour, align)


def pump(paper: Paper, x: float, y: float) -> None:
    """Draw a pump that draws to the right."""
    paper.disc(x, y, 9, WHITE, INK, 1)
    paper.shape([(x - 5, y - 6), (x + 8.3, y), (x - 5, y + 6)], None, INK, 0.9, closed=False)
