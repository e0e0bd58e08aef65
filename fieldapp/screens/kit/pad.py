"""The signature pad: strokes of a finger as points, from 0 to 1 of its width and height."""

from __future__ import annotations

from kivy.input.motionevent import MotionEvent
from kivy.properties import BooleanProperty, ListProperty, StringProperty

from fieldapp.screens import theme
from fieldapp.screens.kit.drawn import Drawn, Target
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.kit.plate import fitting
from fieldapp.screens.kit.stroke import smooth_parts

LONGEST_STROKE = 3900
_STEP = 1.5
_PEN = 5
_LINE_ABOVE_FOOT = 50


class SignaturePad(Drawn):
    """Keeps each stroke as a list of (x, y), x from the left and y from the top."""

    __events__ = ("on_stroke",)
    DRAWN_FROM = ("strokes", "open", "hint", "typed")

    strokes = ListProperty([])
    open = BooleanProperty(defaultvalue=True)
    hint = StringProperty("sign on the line")
    typed = StringProperty("")
    """A name typed instead of drawn; it stands on the line."""

    def clear(self) -> None:
        """Take all strokes away."""
        self.strokes = []

    def draw(self, pen: Pen) -> None:
        """Draw the frame, the line to sign on and the strokes."""
        ground = "key" if self.open else "paper"
        pen.rect(1.5, 1.5, self.wide - 3, self.high - 3, ground, "ink" if self.open else "rule")
        foot = self.high - _LINE_ABOVE_FOOT
        pen.line([(20, foot), (self.wide - 20, foot)], "rule", theme.THIN, (10, 6))
        pen.text(22, foot + 30, self.hint, theme.LABEL, ink="ink2", ground=ground,
                 room=self.wide - 44)  # fmt: skip
        if self.typed:
            size = fitting(self.typed, theme.TASK, self.wide - 44, foot)[1]
            pen.text(22, foot - 14, self.typed, size, ground=ground, room=self.wide - 44)
        draw_strokes(pen, self.strokes, self.wide, self.high, _PEN)

    def targets(self) -> tuple[Target, ...]:
        """The pad itself while it is open."""
        return (self.whole_target(theme.TARGET),) if self.open else ()

    def on_touch_down(self, touch: MotionEvent) -> bool:
        """Begin a stroke."""
        if not self.open or not self.collide_point(*touch.pos):
            return False
        touch.grab(self)
        self.strokes.append([self._point(touch)])
        return True

    def on_touch_move(self, touch: MotionEvent) -> bool:
        """Go on with the stroke."""
        if touch.grab_current is not self or not self.strokes:
            return False
        stroke, point = self.strokes[-1], self._point(touch)
        across = (point[0] - stroke[-1][0]) * self.wide
        down = (point[1] - stroke[-1][1]) * self.high
        if across * across + down * down < _STEP * _STEP:
            return True
        if len(stroke) >= LONGEST_STROKE:
            stroke = [stroke[-1]]
            self.strokes.append(stroke)
        stroke.append(point)
        self.draw_soon()
        return True

    def on_touch_up(self, touch: MotionEvent) -> bool:
        """End the stroke."""
        if touch.grab_current is not self:
            return False
        touch.ungrab(self)
        self.dispatch("on_stroke")
        return True

    def on_stroke(self) -> None:
        """Say that a stroke has ended; for those who listen."""

    def _point(self, touch: MotionEvent) -> tuple[float, float]:
        across = (touch.x - self.x) / self.width
        down = (self.top - touch.y) / self.height
        return (round(min(max(across, 0.0), 1.0), 4), round(min(max(down, 0.0), 1.0), 4))


def draw_strokes(
    pen: Pen,
    strokes: list[list[tuple[float, float]]],
    width: float,
    height: float,
    line: float = theme.LINE,
) -> None:
    """Draw the strokes of a signature into a box at the pen's corner."""
    for stroke in strokes:
        points = [(across * width, down * height) for across, down in stroke]
        for part in smooth_parts(points):
            pen.curve(part, "ink", line)
            pen.circle(*part[0], line / 2, "ink")
        pen.circle(*points[-1], line / 2, "ink")
