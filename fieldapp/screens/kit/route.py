"""The header: unit and site, the job as a pipe of phases, the time and whether all is kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from kivy.properties import ListProperty, NumericProperty, StringProperty

from fieldapp.screens import theme
from fieldapp.screens.kit import mark, words
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.pen import Pen

_PIPE = 20
_UNNAMED = 30
_BESIDE = 14
_PORTRAIT = 1000
_CROWDED = 84
_NAMES = 300
"""Room for the names of unit and site, in dp."""


@dataclass(frozen=True, slots=True)
class Phase:
    """One phase of the route: its name, its state and whether it holds a deviation."""

    name: str
    state: str = "todo"  # "todo", "now", "done", "unneeded" or "failed"
    deviation: bool = False


class RouteHeader(Drawn):
    """The header of a job's screens; nothing in it answers to a touch."""

    DRAWN_FROM = ("unit", "site", "phases", "part", "clock", "kept")

    unit = StringProperty("")
    site = StringProperty("")
    phases = ListProperty([])
    part = NumericProperty(0.0)
    clock = StringProperty("")
    kept = StringProperty("all kept")

    def draw(self, pen: Pen) -> None:
        """Draw the header for a landscape or a portrait sheet."""
        if self.wide < _PORTRAIT:
            self._draw_portrait(pen)
        else:
            self._draw_landscape(pen)
        pen.rect(0, self.high - theme.HEAVY, self.wide, theme.HEAVY, "ink")

    def _draw_landscape(self, pen: Pen) -> None:
        right = self.wide - theme.MARGIN
        unit = words.cut(self.unit, theme.NAME, _NAMES, bold=True)
        name = pen.text(theme.MARGIN, 34, unit, theme.NAME, bold=True)
        site = words.cut(self.site, theme.LABEL, _NAMES)
        site_end = pen.text(theme.MARGIN, 63, site, theme.LABEL, ink="ink2")
        pen.text(right, 34, self.clock, theme.CLOCK, bold=True, anchor="right")
        pen.text(right, 63, self.kept, theme.LABEL, ink="ink2", anchor="right")
        beside = max(words.width_of(self.kept, theme.LABEL), 80)
        start = max(206.0, name + 24, site_end + 24)
        draw_route(pen, start, 0, right - beside - 44 - start, self.phases, self.part)

    def _draw_portrait(self, pen: Pen) -> None:
        right = self.wide - theme.MARGIN
        pen.text(right, 36, self.clock, theme.CLOCK, bold=True, anchor="right")
        kept = right - words.width_of(self.clock, theme.CLOCK, bold=True) - 24
        pen.text(kept, 36, self.kept, theme.LABEL, ink="ink2", anchor="right")
        unit = words.cut(self.unit, theme.NAME, _NAMES, bold=True)
        start = max(130.0, pen.text(theme.MARGIN, 36, unit, theme.NAME, bold=True) + 20)
        room = kept - words.width_of(self.kept, theme.LABEL) - 24 - start
        site = words.cut(self.site, theme.LABEL, room)
        pen.text(start, 36, site, theme.LABEL, ink="ink2")
        draw_route(pen, 26, 44, self.wide - 52, self.phases, self.part)


def draw_route(
    pen: Pen, x: float, y: float, width: float, phases: Sequence[Phase], part: float
) -> None:
    """Draw the phases as a pipe: full is done, part full is now, empty is to do."""
    if not phases:
        return
    named = named_phases(phases, width)
    at = x
    for phase, wide, shown in zip(phases, widths_of(phases, named, width), named, strict=True):
        _draw_phase(pen, at, y, wide, phase, part)
        if shown:
            now = phase.state == "now"
            ink = "here" if now else ("ink2" if phase.state == "todo" else "ink")
            size = theme.NOTE if now else theme.LABEL
            pen.text(at + wide / 2, y + 28, phase.name, size, bold=now, ink=ink,
                     anchor="middle", room=wide)  # fmt: skip
        draw_flange(pen, at, y + 50, 34)
        at += wide
    draw_flange(pen, at, y + 50, 34)


def draw_flange(pen: Pen, x: float, y: float, height: float) -> None:
    """Draw the flange between two lengths of pipe."""
    pen.rect(x - 2.5, y - height / 2, 5, height, "ink")


def named_phases(phases: Sequence[Phase], width: float) -> list[bool]:
    """Which phases have room for their names: the present one first, then its neighbours."""
    now = next((at for at, phase in enumerate(phases) if phase.state == "now"), 0)
    named = [False] * len(phases)
    for at in sorted(range(len(phases)), key=lambda at: (abs(at - now), at < now)):
        named[at] = True
        if sum(_need(phase, shown) for phase, shown in zip(phases, named, strict=True)) > width:
            named[at] = False
            break
    return named


def widths_of(phases: Sequence[Phase], named: Sequence[bool], width: float) -> list[float]:
    """The width of each phase: equal where names allow it, wider where a name needs it."""
    needs = [_need(phase, shown) for phase, shown in zip(phases, named, strict=True)]
    low, high = 0.0, width
    while high - low > 0.1:  # noqa: PLR2004
        level = (low + high) / 2
        if sum(max(need, level) for need in needs) > width:
            high = level
        else:
            low = level
    return [max(need, low) for need in needs]


def _need(phase: Phase, shown: bool) -> float:  # noqa: FBT001
    if not shown:
        return _UNNAMED
    now = phase.state == "now"
    size = theme.NOTE if now else theme.LABEL
    return words.width_of(phase.name, size, bold=now) + (2 * _BESIDE if now else _BESIDE)


def _draw_phase(pen: Pen, x: float, y: float, width: float, phase: Phase, part: float) -> None:
    top, middle = y + 40, y + 50
    pen.rect(x, top, width, _PIPE, "paper", "ink")
    inside = (x + 1.5, top + 1.5, width - 3, _PIPE - 3)
    if phase.state in {"done", "failed"}:
        pen.rect(*inside, "ink")
    if phase.state == "done" and not (phase.deviation and width < _CROWDED):
        mark.draw_tick(pen, x + width / 2, middle, 11, "paper", theme.LINE)
    elif phase.state == "failed":
        mark.draw_mark(pen, "failed", x + width / 2, middle, 10)
    elif phase.state == "unneeded":
        pen.line([(x + width / 2 - 7, middle), (x + width / 2 + 7, middle)])
    elif phase.state == "now":
        pen.rect(inside[0], inside[1], inside[2] * part, inside[3], "here")
        tip = x + width / 2
        foot = top + _PIPE
        pen.poly([(tip - 9, foot + 10), (tip + 9, foot + 10), (tip, foot + 1)], "here")
    if phase.deviation:
        at = x + width / 2 if width < _CROWDED else x + width - 20
        mark.draw_deviation_on_pipe(pen, at, middle, 9)
