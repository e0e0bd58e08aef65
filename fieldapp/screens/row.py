"""A row of a list as a plate: a mark with its word, two lines, what stands at the right."""

from __future__ import annotations

from dataclasses import replace

from kivy.input.motionevent import MotionEvent
from kivy.properties import BooleanProperty, ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.kit import mark, words
from fieldapp.screens.kit.drawn import Drawn, Target
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.kit.pipe import JobPipe
from fieldapp.screens.kit.plate import Face, draw_plate, fitting
from fieldapp.screens.row_view import RowView

_MARK, _TEXT = 66, 136
_RIGHT = 170
_PIPE_AT, _PIPE_WIDE, _AGE, _NEXT = 306, 236, 692, 730
_LEAST_NEXT = 200
_SECOND_LEAD = 26
_PLAIN = Face("key", "ink", "ink")
_PRESSED = Face("ink", None, "paper")
_QUIET = Face("paper", None, "ink")


class Row(Drawn):
    """Shows a `RowView`; a row with nothing to tell is no target."""

    __events__ = ("on_touched",)
    DRAWN_FROM = ("view", "pressed")

    view = ObjectProperty(RowView("", (), ""))
    pressed = BooleanProperty(defaultvalue=False)

    def __init__(self, **kwargs: object) -> None:
        """Build the small pipe; it is shown where the view has one."""
        self._pipe = JobPipe(place=[_PIPE_AT, 18, _PIPE_WIDE, 30])
        super().__init__(**kwargs)
        for name in ("view", "size"):
            self.fbind(name, self._show_pipe)
        self._show_pipe()

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def targets(self) -> tuple[Target, ...]:
        """The whole row, if it answers."""
        return (self.whole_target(theme.TARGET),) if self.view.touch else ()

    def on_touch_down(self, touch: MotionEvent) -> bool:
        """Invert at once."""
        if not self.collide_point(*touch.pos):
            return False
        if self.view.touch and not self.pressed:
            touch.grab(self)
            self.pressed = True
            self.draw_at_once()
        return True

    def on_touch_up(self, touch: MotionEvent) -> bool:
        """Tell the touch, if the finger left the row where it came down."""
        if touch.grab_current is not self:
            return False
        touch.ungrab(self)
        self.pressed = False
        if self.collide_point(*touch.pos) and not touch.ud.get("swiped"):
            self.dispatch("on_touched", self.view.touch, *self.view.details)
        return True

    def draw(self, pen: Pen) -> None:
        """Draw the plate and what stands on it."""
        view: RowView = self.view
        face = _QUIET if not view.touch else _PRESSED if self.pressed else _PLAIN
        if view.touch:
            draw_plate(pen, self.wide, self.high, face)
        if view.here:
            mark.draw_here(pen, -8, -8, self.wide + 16, self.high + 16)
        if view.mark:
            self._draw_mark(pen, view, face)
        if view.pipe and self._has_columns:
            self._draw_job(pen, view, face)
        else:
            self._draw_lines(pen, view, face)

    def _draw_mark(self, pen: Pen, view: RowView, face: Face) -> None:
        middle = self.high / 2 - (15 if view.word else 0)
        if self.pressed:
            pen.rect(_MARK - 24, middle - 24, 48, 48, "paper")
        mark.draw_mark(pen, view.mark, _MARK, middle, 16)
        lines = words.wrapped(view.word, theme.LABEL, _TEXT - 20)
        first = self.high - 16 - (len(lines) - 1) * 22
        pen.lines(_MARK, first, lines[:2], theme.LABEL, ink=face.ink, anchor="middle",
                  ground=face.ground, room=_TEXT - 12, lead=22)  # fmt: skip

    def _draw_lines(self, pen: Pen, view: RowView, face: Face) -> None:
        if view.pipe:
            words_below = f"{view.second}. {view.under_pipe}. Next: {view.right}"
            view = replace(view, second=words_below, right=view.age)
        left = _TEXT if view.mark or view.goes_on else 20
        right = _RIGHT if view.right or view.below else 0
        room = self.wide - left - 24 - right
        most = max(1, int((self.high - 46) // _SECOND_LEAD))
        second = _at_most(words.wrapped(view.second, theme.LABEL, room), most, view.second, room)
        for_first = self.high - 14 - len(second) * _SECOND_LEAD
        first, size, fits = fitting(view.first, theme.BODY, room, for_first)
        lead = round(size * 1.2)
        whole = (len(first) - 1) * lead + len(second) * _SECOND_LEAD
        base = self.high / 2 - whole / 2 + 0.36 * size
        if view.goes_on:
            base = 0.0
        last = pen.lines(left, round(base), first, size, bold=True, ink=face.ink,
                         ground=face.ground, room=room if fits else 0, lead=lead)  # fmt: skip
        if second:
            ink = face.ink if self.pressed else "ink2"
            pen.lines(left, round(last) + _SECOND_LEAD, second, theme.LABEL, ink=ink,
                      ground=face.ground, room=room if fits else 0, lead=_SECOND_LEAD)  # fmt: skip
        self._draw_right(pen, view, face)

    def _draw_right(self, pen: Pen, view: RowView, face: Face) -> None:
        at = self.wide - 26
        if view.right:
            lines, size, fits = fitting(view.right, theme.BODY, _RIGHT - 10, self.high - 44)
            base = (40 if len(lines) == 1 else 32) if view.below else self.high / 2 + 9
            lead, room = round(size * 1.2), _RIGHT if fits else 0
            pen.lines(at, base, lines, size, bold=True, ink=face.ink, anchor="right",
                      ground=face.ground, room=room, lead=lead)  # fmt: skip
        below = words.cut(view.below, theme.LABEL, _RIGHT)
        pen.text(at, self.high - 16, below, theme.LABEL, anchor="right",
                 ink=face.ink if self.pressed else "ink2", ground=face.ground)  # fmt: skip

    def _draw_job(self, pen: Pen, view: RowView, face: Face) -> None:
        quiet = face.ink if self.pressed else "ink2"
        names = _PIPE_AT - _TEXT - 10
        pen.text(_TEXT, 48, words.cut(view.first, 34, names, bold=True), 34, bold=True,
                 ink=face.ink, ground=face.ground)  # fmt: skip
        pen.text(_TEXT, 86, words.cut(view.second, theme.LABEL, names), theme.LABEL, ink=quiet,
                 ground=face.ground)  # fmt: skip
        pen.text(_PIPE_AT, 86, view.under_pipe, theme.NOTE, ink=face.ink, ground=face.ground)
        pen.text(_AGE, 48, view.age, 34, bold=True, anchor="right", ink=face.ink,
                 ground=face.ground)  # fmt: skip
        pen.text(_AGE, 86, "since entry", theme.LABEL, anchor="right", ink=quiet,
                 ground=face.ground)  # fmt: skip
        pen.line([((_AGE + _NEXT) / 2, 14), ((_AGE + _NEXT) / 2, self.high - 14)], "rule", 2)
        room = self.wide - _NEXT - 24
        lines, size, fits = fitting(view.right, theme.BODY, room, self.high - 46)
        ink = "here" if view.here and not self.pressed else face.ink
        pen.lines(_NEXT, 40 if len(lines) == 1 else 34, lines, size, bold=True, ink=ink,
                  ground=face.ground, room=room if fits else 0, lead=round(size * 1.2))  # fmt: skip
        below = words.cut(view.below, theme.LABEL, room)
        pen.text(_NEXT, 90, below, theme.LABEL, ink=quiet, ground=face.ground)

    @property
    def _has_columns(self) -> bool:
        """Whether it is wide enough for a job's pipe, age and next step beside its name."""
        return self.wide >= _NEXT + _LEAST_NEXT

    def _show_pipe(self, *_: object) -> None:
        pipe = self.view.pipe
        self.remove_widget(self._pipe)
        if pipe is None or not self._has_columns:
            return
        self._pipe.lengths, self._pipe.done, self._pipe.part = pipe.lengths, pipe.done, pipe.part
        self._pipe.deviations = list(pipe.deviations)
        self.add_widget(self._pipe)


def _at_most(lines: list[str], most: int, text: str, room: float) -> list[str]:
    """So many lines; what is left out is marked."""
    if not text:
        return []
    if len(lines) <= most:
        return lines
    return [*lines[: most - 1], words.ended(lines[most - 1], theme.LABEL, room)]
