"""Plates and keys: the only things that answer to a touch, each with one cut corner."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from kivy.input.motionevent import MotionEvent
from kivy.properties import BooleanProperty, NumericProperty, OptionProperty, StringProperty

from fieldapp.screens import theme
from fieldapp.screens.kit import words
from fieldapp.screens.kit.drawn import Drawn, Target
from fieldapp.screens.kit.mark import draw_mark, draw_tick
from fieldapp.screens.kit.pen import Pen

KINDS = ("plain", "held", "main", "waiting", "warning")
_PAD = 12
_SIGN, _AFTER_SIGN = 26, 50
_SMALLER = 3


@dataclass(frozen=True, slots=True)
class Face:
    """How a plate is filled, framed and written on."""

    ground: str
    frame: str | None
    ink: str
    dash: tuple[int, int] | tuple[()] = ()


_FACES = {
    "plain": Face("key", "ink", "ink"),
    "held": Face("ink", None, "paper"),
    "main": Face("here", None, "hereink"),
    "waiting": Face("paper", "rule", "ink2", theme.WAITING_DASH),
    "warning": Face("warning", None, "warningink"),
}
_PRESSED = {
    "plain": Face("ink", None, "paper"),
    "held": Face("key", "ink", "ink"),
    "main": Face("key", "here", "here"),
    "waiting": _FACES["waiting"],
    "warning": Face("key", "ink", "ink"),
}


class Plate(Drawn):
    """A plate with one or two lines; it is inverted while a finger is on it."""

    __events__ = ("on_touched",)
    DRAWN_FROM = (
        "first", "second", "kind", "sign", "align", "first_size", "second_size", "indent",
        "pressed",
    )  # fmt: skip

    first = StringProperty("")
    second = StringProperty("")
    kind = OptionProperty("plain", options=KINDS)
    sign = StringProperty("")
    align = OptionProperty("middle", options=("middle", "left"))
    first_size = NumericProperty(theme.PLATE_FIRST)
    second_size = NumericProperty(theme.PLATE_SECOND)
    indent = NumericProperty(0)
    """Room at the left for what is drawn over the plate, such as a picture."""
    least = NumericProperty(theme.TARGET)
    pressed = BooleanProperty(defaultvalue=False)

    def draw(self, pen: Pen) -> None:
        """Draw the plate and its words."""
        face = (_PRESSED if self.pressed else _FACES)[self.kind]
        draw_plate(pen, self.wide, self.high, face)
        if self.sign == "erase":
            _draw_erase(pen, self.wide / 2, self.high / 2, face.ink)
            return
        if self.sign == "tick":
            draw_tick(pen, _SIGN, self.high / 2, 15, face.ink, theme.HEAVY)
        elif self.sign:
            draw_mark(pen, self.sign, _SIGN, self.high / 2, 12)
        self._write(pen, face, max(self.indent, _AFTER_SIGN if self.sign else _PAD))

    def targets(self) -> tuple[Target, ...]:
        """The plate itself, unless it waits."""
        return () if self.kind == "waiting" else (self.whole_target(self.least),)

    def on_touch_down(self, touch: MotionEvent) -> bool:
        """Invert at once."""
        if not self.collide_point(*touch.pos):
            return False
        if self.kind == "waiting" or self.disabled or self.pressed:
            return True
        touch.grab(self)
        self.pressed = True
        self.draw_at_once()
        return True

    def on_touch_up(self, touch: MotionEvent) -> bool:
        """Say that the plate was touched, if the finger left it where it came down."""
        if touch.grab_current is not self:
            return False
        touch.ungrab(self)
        self.pressed = False
        if self.collide_point(*touch.pos) and not touch.ud.get("swiped"):
            self.dispatch("on_touched")
        return True

    def on_touched(self) -> None:
        """Answer a touch; for those who listen."""

    def _write(self, pen: Pen, face: Face, left: float) -> None:
        room = self.wide - left - _PAD
        first, size, fits = fitting(self.first, self.first_size, room, self._high_for_first(room))
        second = words.wrapped(self.second, self.second_size, room) if self.second else []
        first_lead, second_lead = round(size * 1.2), round(self.second_size * 1.3)
        whole = first_lead * (len(first) - 1) + second_lead * len(second)
        # Centre the letters: a capital is 0.71 of its size high.
        baseline = self.high / 2 - whole / 2 + 0.36 * size
        middle = self.align == "middle" and not self.sign and not self.indent
        at = self.wide / 2 if middle else left
        anchor = "middle" if middle else "left"
        write: Callable[..., float] = pen.lines
        write(at, round(baseline), first, size, bold=True, ink=face.ink, anchor=anchor,
              ground=face.ground, room=room if fits else 0, lead=first_lead)  # fmt: skip
        below = baseline + first_lead * (len(first) - 1) + second_lead
        if second:
            write(at, round(below), second, self.second_size, ink=face.ink, anchor=anchor,
                  ground=face.ground, room=room, lead=second_lead)  # fmt: skip

    def _high_for_first(self, room: float) -> float:
        if not self.second:
            return self.high - 16
        count = len(words.wrapped(self.second, self.second_size, room))
        return float(self.high - 16 - count * round(self.second_size * 1.3))


def fitting(text: str, size: float, wide: float, high: float) -> tuple[list[str], float, bool]:
    """The lines of a bold text, their size and whether they fit.

    A little smaller is better than one line more; smaller still only where nothing else fits.
    """
    fits = [
        (len(lines), -smaller, lines)
        for smaller in range(round(size), theme.LEAST_TEXT - 1, -1)
        if _fits(lines := words.wrapped(text, smaller, wide, bold=True), smaller, wide, high)
    ]
    if not fits:
        return words.wrapped(text, theme.LEAST_TEXT, wide, bold=True), theme.LEAST_TEXT, False
    largest = -fits[0][1]
    _, size, lines = min(fit for fit in fits if -fit[1] >= largest - _SMALLER)
    return lines, -size, True


def _fits(lines: list[str], size: float, wide: float, high: float) -> bool:
    widest = max(words.width_of(line, size, bold=True) for line in lines)
    return widest <= wide and len(lines) * round(size * 1.2) <= high


def draw_plate(pen: Pen, width: float, height: float, face: Face) -> None:
    """Draw the shape of a plate at the pen's corner."""
    inset = theme.LINE / 2 if face.frame else 0
    cut = theme.CUT + inset * 0.41
    shape = [
        (inset, inset),
        (width - cut, inset),
        (width - inset, cut),
        (width - inset, height - inset),
        (inset, height - inset),
    ]
    pen.poly(shape, face.ground, face.frame, theme.LINE, face.dash)


def _draw_erase(pen: Pen, x: float, y: float, ink: str) -> None:
    outline = [(-34, 0), (-14, -22), (32, -22), (32, 22), (-14, 22)]
    pen.poly([(x + across, y + down) for across, down in outline], None, ink, theme.HEAVY)
    pen.line([(x - 4, y - 10), (x + 18, y + 10)], ink, theme.HEAVY)
    pen.line([(x - 4, y + 10), (x + 18, y - 10)], ink, theme.HEAVY)
