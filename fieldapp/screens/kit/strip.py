"""The signal strip: DANGER, WARNING, CAUTION or NOTICE, and one sentence (ISO 3864, ANSI Z535)."""

from __future__ import annotations

from kivy.properties import OptionProperty, StringProperty

from fieldapp.screens import theme
from fieldapp.screens.kit import mark, words
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.pen import Pen

# The colour of each signal word; a notice is about property and carries no triangle.
GROUNDS = {"DANGER": "stop", "WARNING": "warning", "CAUTION": "caution", "NOTICE": "here"}
_LEAD = 32
_TRIANGLE = 28


class SignalStrip(Drawn):
    """A signal word with its sentence in one or two lines; empty while there is no sentence."""

    DRAWN_FROM = ("word", "text")

    word = OptionProperty("WARNING", options=list(GROUNDS))
    text = StringProperty("")

    def draw(self, pen: Pen) -> None:
        """Draw the strip; in the night look, and for a notice, only the word is filled."""
        if not self.text:
            return
        ground = GROUNDS[self.word]
        ink = theme.INK_ON[ground]
        framed = theme.look() is theme.NIGHT or self.word == "NOTICE"
        panel = _panel(self.word)
        if framed:
            inset = theme.LINE / 2
            pen.rect(inset, inset, self.wide - 2 * inset, self.high - 2 * inset, "paper", ground)
            pen.rect(0, 0, panel, self.high, ground)
        else:
            pen.rect(0, 0, self.wide, self.high, ground)
        left = _word_left(self.word)
        if self.word != "NOTICE":
            mark.draw_mark(pen, "hazard", _TRIANGLE, self.high / 2 + 1, 14)
        pen.text(left, self.high / 2 + 9, self.word, bold=True, ink=ink, ground=ground)
        self._write(pen, "ink" if framed else ink, "paper" if framed else ground, panel + 10)

    def _write(self, pen: Pen, ink: str, ground: str, left: float) -> None:
        room = self.wide - left - 10
        lines = words.wrapped(self.text, theme.BODY, room)
        enough = len(lines) * _LEAD <= self.high
        first = self.high / 2 + 9 - (len(lines) - 1) / 2 * _LEAD
        pen.lines(
            left, first, lines, ink=ink, ground=ground, room=room if enough else 0, lead=_LEAD
        )


def height_for(word: str, text: str, width: float) -> float:
    """The height a strip of this width needs, in dp; 0 without a text."""
    if not text:
        return 0
    room = width - _panel(word) - 20
    count = len(words.wrapped(text, theme.BODY, room))
    return theme.STRIP_ONE_LINE + (count - 1) * _LEAD


def _word_left(word: str) -> float:
    return 14 if word == "NOTICE" else 56


def _panel(word: str) -> float:
    return _word_left(word) + words.width_of(word, theme.BODY, bold=True) + 14
