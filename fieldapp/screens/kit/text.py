"""Words on the sheet: a text, a value with its unit, a verdict with its mark."""

from __future__ import annotations

from kivy.properties import BooleanProperty, NumericProperty, OptionProperty, StringProperty

from fieldapp.screens import theme
from fieldapp.screens.kit import mark, words
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.pen import Pen


class Words(Drawn):
    """A text that wraps in the widget's width, from its top."""

    DRAWN_FROM = ("text", "letter", "bold", "ink", "on", "anchor", "breaks")

    text = StringProperty("")
    letter = NumericProperty(theme.BODY)
    bold = BooleanProperty(defaultvalue=False)
    ink = StringProperty("ink")
    on = StringProperty("paper")
    anchor = OptionProperty("left", options=("left", "middle", "right"))
    breaks = BooleanProperty(defaultvalue=False)
    """Whether a word may be broken: for names and numbers that people give."""

    def draw(self, pen: Pen) -> None:
        """Write the text."""
        lines = words.wrapped(self.text, self.letter, self.wide, bold=self.bold, breaks=self.breaks)
        enough = words.height_of(len(lines), self.letter) <= self.high + 1
        at = {"left": 0.0, "middle": self.wide / 2, "right": self.wide}[self.anchor]
        pen.lines(
            at,
            words.first_baseline(self.letter),
            lines,
            self.letter,
            bold=self.bold,
            ink=self.ink,
            anchor=self.anchor,
            ground=self.ground or self.on,
            room=self.wide if enough else 0,
        )


class Value(Drawn):
    """The present value, big, with its unit beside it."""

    DRAWN_FROM = ("text", "unit", "letter", "unit_letter")

    text = StringProperty("")
    unit = StringProperty("")
    letter = NumericProperty(theme.PRESENT_VALUE)
    unit_letter = NumericProperty(theme.UNIT)

    def draw(self, pen: Pen) -> None:
        """Write the value on the lower edge; a long one in smaller letters."""
        beside = words.width_of(self.unit, self.unit_letter) + 12 if self.unit else 0
        room = self.wide - beside
        size = self.letter
        while size > self.unit_letter and words.width_of(self.text, size, bold=True) > room:
            size -= 2
        baseline = self.high - round(self.letter * 0.1)
        end = pen.text(0, baseline, self.text, size, bold=True, room=room)
        pen.text(end + 12 if self.text else 0, baseline, self.unit, self.unit_letter, room=beside)


class Verdict(Drawn):
    """A mark and one sentence; the second line says what then."""

    DRAWN_FROM = ("kind", "sentence", "second", "radius")

    kind = OptionProperty("", options=["", *mark.WORDS])
    sentence = StringProperty("")
    second = StringProperty("")
    radius = NumericProperty(16)

    def draw(self, pen: Pen) -> None:
        """Draw the mark and the words; nothing at all while there is no verdict."""
        if not self.sentence:
            return
        left = 2 * self.radius + 18 if self.kind else 0
        room = self.wide - left
        lines = words.wrapped(self.sentence, theme.BODY, room, bold=True)
        more = words.wrapped(self.second, theme.NOTE, room) if self.second else []
        first = words.first_baseline(theme.BODY)
        high = words.height_of(len(lines), theme.BODY) + words.height_of(len(more), theme.NOTE)
        fits = room if high <= self.high + 1 else 0
        last = pen.lines(left, first, lines, theme.BODY, bold=True, room=fits)
        if more:
            pen.lines(left, last + 30, more, theme.NOTE, room=fits)
        if self.kind:
            whole = last + (30 * len(more) if more else 0)
            middle = (first + whole) / 2 - 0.36 * theme.BODY
            mark.draw_mark(pen, self.kind, self.radius * 1.18, middle, self.radius)
