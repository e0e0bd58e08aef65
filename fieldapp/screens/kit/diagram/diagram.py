"""The line diagram: one drawing of this hookup, whose parts answer to touch."""

from __future__ import annotations

from kivy.input.motionevent import MotionEvent
from kivy.metrics import dp
from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.kit import words
from fieldapp.screens.kit.diagram import diagram_flag as flagging
from fieldapp.screens.kit.diagram import diagram_words as wording
from fieldapp.screens.kit.diagram.diagram_pipes import draw_hookup
from fieldapp.screens.kit.diagram.diagram_plan import Plan, plan_of, plate_of
from fieldapp.screens.kit.diagram.diagram_view import Diagram
from fieldapp.screens.kit.drawn import Drawn, Target
from fieldapp.screens.kit.mark import draw_here, draw_mark
from fieldapp.screens.kit.pen import Pen

_SUM_MARKS = {"not fitted": "unneeded"}


class LineDiagram(Drawn):
    """Shows a `Diagram`; a touch says which part was meant."""

    __events__ = ("on_part",)
    DRAWN_FROM = ("diagram",)

    diagram = ObjectProperty(Diagram(unit=""))

    def plan(self) -> Plan:
        """Where everything stands at the present size."""
        return plan_of(self.wide, self.high, self.diagram.isolation_at)

    def draw(self, pen: Pen) -> None:
        """Draw the hookup, then its words, then what marks the part in question."""
        plan = self.plan()
        draw_hookup(pen, self.diagram, plan)
        written = wording.words_of(self.diagram, plan)
        _plate(pen, plan)
        for word in written:
            _write(pen, word)
        if not plan.small:
            _sum_mark(pen, self.diagram, written)
        if self.diagram.here:
            self._mark_here(pen, plan, written)

    def targets(self) -> tuple[Target, ...]:
        """The drawing as one target; inside it the nearest part answers."""
        return (self.whole_target(theme.TARGET),)

    def on_touch_down(self, touch: MotionEvent) -> bool:
        """Take a touch on a part."""
        if self.disabled or not self.collide_point(*touch.pos):
            return bool(super().on_touch_down(touch))
        part = self.part_at(*touch.pos)
        if part is None:
            return bool(super().on_touch_down(touch))
        touch.grab(self)
        touch.ud[self] = part
        return True

    def on_touch_up(self, touch: MotionEvent) -> bool:
        """Say which part was touched, if the finger lifts where it went down."""
        if touch.grab_current is not self:
            return bool(super().on_touch_up(touch))
        touch.ungrab(self)
        if self.part_at(*touch.pos) == touch.ud[self]:
            self.dispatch("on_part", touch.ud[self])
        return True

    def part_at(self, x: float, y: float) -> str | None:
        """The part at a point of the window, in pixels."""
        return self.plan().part_at((x - self.x) / dp(1), (self.top - y) / dp(1))

    def on_part(self, part: str) -> None:
        """Answer a touch on a part; the screen does that."""

    def _mark_here(self, pen: Pen, plan: Plan, written: tuple[wording.Word, ...]) -> None:
        boxes = [word.box() for word in written]
        frame = flagging.corners_of(self.diagram.here, plan, boxes)
        left, top, right, bottom = frame
        arm, line = flagging.arm_of(frame, plan), 5 if plan.small else theme.HERE_LINE
        draw_here(pen, left, top, right - left, bottom - top, arm, line)
        wide = words.width_of(self.diagram.flag, theme.LABEL, bold=True) + 16
        flag = flagging.flag_of(self.diagram, plan, boxes, wide)
        if flag:
            leader = flagging.leader_of(flag, frame)
            if leader:
                pen.line(leader, "here", 4)
            left, top, right, bottom = flag
            pen.rect(left, top, right - left, bottom - top, "here")
            pen.text(
                (left + right) / 2,
                (top + bottom) / 2 + 8,
                self.diagram.flag,
                theme.LABEL,
                bold=True,
                ink="hereink",
                anchor="middle",
                ground="here",
            )


def _plate(pen: Pen, plan: Plan) -> None:
    left, top, right, bottom = plate_of(plan)
    pen.rect(left, top, right - left, bottom - top, "paper", "ink", 3)
    draw_mark(pen, "energised", (left + right) / 2, top + (15 if plan.small else 18), 10)


def _write(pen: Pen, word: wording.Word) -> None:
    if word.patch:
        left, top, right, bottom = word.box()
        pen.rect(
            left - 3, top - word.patch, right - left + 6, bottom - top + 1.7 * word.patch, "paper"
        )
    pen.text(
        word.x,
        word.baseline,
        word.text,
        word.size,
        bold=word.bold,
        ink=word.ink,
        anchor=word.anchor,
    )


def _sum_mark(pen: Pen, diagram: Diagram, written: tuple[wording.Word, ...]) -> None:
    worst, count, _ = diagram.proof_in_all()
    line = next(word for word in written if word.text == count)
    draw_mark(pen, _SUM_MARKS.get(worst, worst), line.x - 17, line.baseline - 7, 10)
