"""What a timed screen shows before it starts: the step, its caution and what comes."""

from __future__ import annotations

from fieldapp.screens.asking import Asking
from fieldapp.screens.body_view import AskingView
from fieldapp.screens.frame import TALL
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.text import Verdict
from fieldapp.screens.timed.trace_view import TraceView


class StartPart(Drawn):
    """Shows a trace that has not begun."""

    __events__ = ("on_touched",)

    def __init__(self, **kwargs: object) -> None:
        """Build the parts."""
        self._asking, self._verdict = Asking(), Verdict(radius=20)
        super().__init__(**kwargs)
        self.add_widget(self._asking)
        self.add_widget(self._verdict)
        self._asking.bind(on_part=lambda *_: self.dispatch("on_touched", "hookup"))
        self.fbind("size", self._place_parts)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: TraceView) -> None:
        """Show what comes."""
        self._asking.view = AskingView(
            heading="", task=view.task, text=view.text,
            signal_word=view.signal_word, caution=view.caution,
        )  # fmt: skip
        self._asking.diagram = view.diagram
        self._verdict.kind, self._verdict.sentence = view.verdict.mark, view.verdict.sentence
        self._verdict.second = view.verdict.second
        self._place_parts()

    def _place_parts(self, *_: object) -> None:
        top, foot = (140, 328) if self.wide < TALL else (90, 214)
        self._asking.place = [24, top, -24, -foot]
        self._verdict.place = [24, -foot + 10, -24, 72]
