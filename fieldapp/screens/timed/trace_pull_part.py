"""The pull on its screen: line diagram, chart, verdict, and the two-touch strip below."""

from __future__ import annotations

from fieldapp.screens import theme
from fieldapp.screens.frame import TALL
from fieldapp.screens.kit import words
from fieldapp.screens.kit.chart.chart import Chart
from fieldapp.screens.kit.chart.two_touch import HEIGHT, HEIGHT_TWO_ROWS, TwoTouchStrip
from fieldapp.screens.kit.diagram.diagram import LineDiagram
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.strip import SignalStrip, height_for
from fieldapp.screens.kit.text import Verdict, Words
from fieldapp.screens.timed.trace_view import PullView, TraceView

_TASK = 40
_TOLD_TALL = 150
_CHART_TALL, _DRAWN_TALL = 190, 330
"""On a tall sheet: what the chart needs to be read, and what the drawing needs at least."""


class PullPart(Drawn):
    """Shows a trace that follows one pressure; says what was touched."""

    __events__ = ("on_touched",)

    def __init__(self, **kwargs: object) -> None:
        """Build the parts."""
        self._strip, self._diagram, self._chart = SignalStrip(), LineDiagram(), Chart()
        self._task = Words(bold=True, letter=theme.TASK)
        self._due = Words(bold=True, letter=theme.NOTE, ink="here", anchor="right")
        self._verdict = Verdict(radius=16)
        self._keys = TwoTouchStrip(tid="keys")
        self._told = Words(letter=theme.NOTE)
        self._view: TraceView | None = None
        super().__init__(**kwargs)
        for part in (self._strip, self._diagram, self._task, self._due, self._chart,
                     self._verdict):  # fmt: skip
            self.add_widget(part)
        self._diagram.bind(on_part=lambda *_: self.dispatch("on_touched", "hookup"))
        self._keys.bind(on_reading=self._read, on_other=self._other)
        self.fbind("size", self._place_parts)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: TraceView) -> None:
        """Show a pull."""
        self._view = view
        pull = view.pull
        assert pull is not None  # noqa: S101 - only pulls are shown here
        self._strip.word, self._strip.text = view.signal_word or "NOTICE", view.caution
        if view.diagram is not None:
            self._diagram.diagram = view.diagram
        self._task.text, self._due.text = view.task, view.due
        self._chart.chart = pull.chart
        self._verdict.kind, self._verdict.sentence = view.verdict.mark, view.verdict.sentence
        self._verdict.second = view.verdict.second
        self._told.text = "\n".join((*pull.tries, pull.target) if pull.keys is None else ())
        if pull.keys is not None:
            self._keys.keys, self._keys.unit = pull.keys, pull.unit
        self._show_foot(pull)
        self._place_parts()

    def _show_foot(self, pull: PullView) -> None:
        both = (self._told, self._keys)
        shown, other = both if pull.keys is None else both[::-1]
        if other.parent is self:
            self.remove_widget(other)
        if shown.parent is None:
            self.add_widget(shown)

    def _place_parts(self, *_: object) -> None:
        if self._view is None:
            return
        if self.wide < TALL:
            self._place_tall()
        else:
            self._place_wide()

    def _place_wide(self) -> None:
        strip = max(1, height_for(self._strip.word, self._strip.text, self.wide - 48))
        top = 90 + strip + 8
        below = HEIGHT if self._keys.parent is self else self._told_high(self.wide - 48) + 20
        foot = self.high - 124 - below
        left, verdict = self.wide - 536, self._verdict_high(512)
        self._strip.place = [24, 90, -24, strip]
        self._diagram.place = [24, top, left - 52, foot - 10 - top]
        self._task.place = [left, top, 330, _TASK]
        self._due.place = [left + 330, top + 2, 182, _TASK]
        self._task.letter = theme.BODY if self._due.text else theme.TASK
        self._verdict.place = [left, foot - verdict - 6, 512, verdict]
        if not self._due.text:
            self._task.place = [left, top, 512, _TASK]
        self._chart.place = [left, top + 36, 512, foot - verdict - 10 - (top + 36)]
        self._keys.place = [24, foot, -24, HEIGHT]
        self._told.place = [24, foot + 14, -24, below - 14]
        self._diagram.opacity, self._diagram.disabled = 1, False

    def _place_tall(self) -> None:
        strip = max(1, height_for(self._strip.word, self._strip.text, self.wide - 48))
        keys = self._keys.parent is self
        foot = self.high - 238 - (HEIGHT_TWO_ROWS if keys else _TOLD_TALL)
        y = 140 + strip + 8
        verdict = self._verdict_high(self.wide - 48)
        self._strip.place = [24, 140, -24, strip]
        room = foot - verdict - 10 - (y + _TASK + 6)
        drawn = room - _CHART_TALL - 10
        fits = drawn >= _DRAWN_TALL
        self._diagram.opacity, self._diagram.disabled = (1, False) if fits else (0, True)
        self._diagram.place = [24, y, -24, max(1, drawn)]
        y += drawn + 10 if fits else 0
        self._task.place, self._due.place = [24, y, 500, _TASK], [524, y + 2, -24, _TASK]
        self._chart.place = [24, y + 46, -24, foot - verdict - 10 - (y + 46)]
        self._verdict.place = [24, foot - verdict - 6, -24, verdict]
        self._keys.place = [24, foot, -24, HEIGHT_TWO_ROWS]
        self._told.place = [24, foot + 14, -24, _TOLD_TALL - 14]

    def _told_high(self, wide: float) -> float:
        return words.height_of(
            len(words.wrapped(self._told.text, self._told.letter, wide)), self._told.letter
        )

    def _verdict_high(self, wide: float) -> float:
        room = wide - 50
        lines = words.wrapped(self._verdict.sentence, theme.BODY, room, bold=True)
        more = words.wrapped(self._verdict.second, theme.NOTE, room)
        count = len(more) if self._verdict.second else 0
        return words.height_of(len(lines), theme.BODY) + words.height_of(count, theme.NOTE) + 6

    def _read(self, _: TwoTouchStrip, text: str) -> None:
        assert self._view is not None  # noqa: S101 - keys are only there with a view
        assert self._view.pull is not None  # noqa: S101 - as above
        self.dispatch("on_touched", "reading", {self._view.pull.column: text})

    def _other(self, _: TwoTouchStrip) -> None:
        assert self._view is not None  # noqa: S101 - keys are only there with a view
        plates = self._view.frame.plates
        other = next(plate for plate in plates if plate.name == "ask other")
        self.dispatch("on_touched", "ask", *other.details)
