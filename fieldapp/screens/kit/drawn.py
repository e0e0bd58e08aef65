"""A widget that draws itself with a pen, again whenever what it shows or the look changes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from kivy.clock import Clock
from kivy.graphics import InstructionGroup
from kivy.metrics import dp
from kivy.properties import ListProperty, StringProperty
from kivy.uix.widget import Widget

from fieldapp.screens import theme
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.kit.words import Written

Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Target:
    """A place that answers to touch: its name, its box in window pixels, its least side in dp."""

    name: str
    box: Box
    least: float


class Drawn(Widget):
    """Draws below its children; a subclass says what (`draw`) and what from (`DRAWN_FROM`).

    A child with a `place` is put there by its parent: left, top, width and height in dp from the
    parent's upper left corner. A negative left or top counts from the right or lower edge, and a
    width or height of 0 or less ends that far before the edge.
    """

    DRAWN_FROM: ClassVar[tuple[str, ...]] = ()

    tid = StringProperty("")
    place = ListProperty([])
    ground = StringProperty("")

    def __init__(self, **kwargs: object) -> None:
        """Take the properties and draw before the next frame."""
        self._sheet = InstructionGroup()
        self.texts: tuple[Written, ...] = ()
        self.draw_soon = Clock.create_trigger(self._draw_now, -1)
        self._arrange_soon = Clock.create_trigger(self._arrange, -1)
        super().__init__(**kwargs)
        self.canvas.before.add(self._sheet)
        for name in ("pos", "size", "disabled", "ground", *self.DRAWN_FROM):
            self.fbind(name, self.draw_soon)
        for name in ("pos", "size", "children"):
            self.fbind(name, self._arrange_soon)
        self.fbind("place", self._place_changed)
        theme.when_look_changes(self._look_changed)
        self.draw_soon()

    @property
    def wide(self) -> float:
        """Own width in dp."""
        return float(self.width / dp(1))

    @property
    def high(self) -> float:
        """Own height in dp."""
        return float(self.height / dp(1))

    def draw(self, pen: Pen) -> None:
        """Draw what is shown now; the pen's corner is the widget's upper left."""

    def targets(self) -> tuple[Target, ...]:
        """The places of this widget that answer to touch; children answer for themselves."""
        return ()

    def whole_target(self, least: float) -> Target:
        """The widget's own box as a target."""
        return Target(self.tid or type(self).__name__, (*self.pos, *self.size), least)

    def draw_at_once(self) -> None:
        """Draw without waiting for the next frame."""
        self.draw_soon.cancel()
        self._draw_now()

    def arrange_soon(self) -> None:
        """Put the children in their places before the next frame."""
        self._arrange_soon()

    def _look_changed(self, *_: object) -> None:
        self.draw_soon()

    def _place_changed(self, *_: object) -> None:
        if isinstance(self.parent, Drawn):
            self.parent.arrange_soon()

    def _arrange(self, *_: object) -> None:
        unit = dp(1)
        for child in self.children:
            if not getattr(child, "place", None):
                continue
            left, top, width, height = child.place
            left = left if left >= 0 else self.wide + left
            top = top if top >= 0 else self.high + top
            width = width if width > 0 else self.wide + width - left
            height = height if height > 0 else self.high + height - top
            child.size = (width * unit, height * unit)
            child.pos = (self.x + left * unit, self.top - (top + height) * unit)

    def _draw_now(self, *_: object) -> None:
        self._sheet.clear()
        pen = Pen(self._sheet, self.x, self.top)
        if self.ground:
            pen.rect(0, 0, self.wide, self.high, self.ground)
        self.draw(pen)
        self.texts = tuple(pen.texts)
