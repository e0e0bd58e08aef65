"""Typing a reason: common reasons as plates, own words in the upper half of the screen."""

from __future__ import annotations

from kivy.metrics import dp
from kivy.properties import ListProperty, StringProperty
from kivy.uix.textinput import TextInput

from fieldapp.screens import theme
from fieldapp.screens.kit import words
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.kit.plate import Plate
from fieldapp.screens.kit.text import Words

_FIELD_TOP, _FIELD_HIGH = 96, 130
_REASONS_TOP = 270


class NoteField(TextInput):
    """The field for own words, in the theme's type and colours."""

    tid = StringProperty("note")
    place = ListProperty([])

    def __init__(self, **kwargs: object) -> None:
        """Dress the field."""
        super().__init__(
            font_name=theme.FONT,
            font_size=dp(theme.TASK),
            padding=[dp(16), dp(14)],
            background_normal="",
            background_active="",
            multiline=True,
            write_tab=False,
            **kwargs,
        )
        theme.when_look_changes(self._dress)
        self._dress()

    def _dress(self, *_: object) -> None:
        self.background_color = theme.colour("key")
        self.foreground_color = theme.colour("ink")
        self.hint_text_color = theme.colour("ink2")
        self.cursor_color = theme.colour("here")
        self.selection_color = (*theme.colour("band")[:3], 0.7)


class NoteEntry(Drawn):
    """Asks for a reason over the whole content of a screen; keeps nothing by itself."""

    __events__ = ("on_kept", "on_left")
    DRAWN_FROM = ("title",)

    title = StringProperty("Say why")
    hint = StringProperty("in your own words, or touch one below")
    reasons = ListProperty([])
    text = StringProperty("")
    keep_first = StringProperty("Keep the reason")
    keep_second = StringProperty("it stands in the record")
    needs = StringProperty("needs a reason")

    def __init__(self, **kwargs: object) -> None:
        """Build the field, the reasons and the two acts."""
        self._title = Words(bold=True, letter=theme.TASK)
        self._field = NoteField(place=[27, _FIELD_TOP + 3, -27, _FIELD_HIGH - 6])
        self._keep = Plate(tid="keep", least=theme.KEY, first_size=32, second_size=theme.NOTE)
        self._back = Plate(tid="back", first="Back", place=[24, -104, 140, 94])
        self._plates: list[Plate] = []
        super().__init__(**kwargs)
        self._keep.bind(on_touched=lambda *_: self.dispatch("on_kept", self.text.strip()))
        self._back.bind(on_touched=lambda *_: self.dispatch("on_left"))
        self._field.bind(text=self.setter("text"))
        for part in (self._title, self._field, self._keep, self._back):
            self.add_widget(part)
        self.fbind("reasons", self._build)
        for name in ("title", "hint", "text", "keep_first", "keep_second", "needs", "size"):
            self.fbind(name, self._show)
        self._build()

    def draw(self, pen: Pen) -> None:
        """Draw the frame of the field."""
        pen.rect(25.5, _FIELD_TOP + 1.5, self.wide - 51, _FIELD_HIGH - 3, None, "ink")

    def on_kept(self, text: str) -> None:
        """Give the reason; for those who listen."""

    def on_left(self) -> None:
        """Say that no reason is given; for those who listen."""

    def _build(self, *_: object) -> None:
        for plate in self._plates:
            self.remove_widget(plate)
        self._plates = [Plate(tid=f"reason {at}", first=reason)
                        for at, reason in enumerate(self.reasons)]  # fmt: skip
        for plate in self._plates:
            plate.bind(on_touched=self._take)
            self.add_widget(plate)
        self._show()

    def _take(self, plate: Plate) -> None:
        self._field.text = plate.first
        self._field.focus = False

    def _show(self, *_: object) -> None:
        self._title.text, self._field.hint_text = self.title, self.hint
        lines = words.wrapped(self.title, theme.TASK, self.wide - 2 * theme.MARGIN, bold=True)
        high = words.height_of(max(1, len(lines)), theme.TASK)
        self._title.place = [theme.MARGIN, _FIELD_TOP - 12 - high, -theme.MARGIN, high]
        if self._field.text != self.text:
            self._field.text = self.text
        self._keep.first, self._keep.second = self.keep_first, self.keep_second
        self._keep.kind = "main" if self.text.strip() else "waiting"
        if self._keep.kind == "waiting":
            self._keep.second = self.needs
        self._keep.place = [-464, -136, 440, theme.KEY]
        across = 5 if self.wide > self.high else 2
        wide = (self.wide - 2 * theme.MARGIN - (across - 1) * theme.GAP) / across
        for at, plate in enumerate(self._plates):
            plate.kind = "held" if plate.first == self.text else "plain"
            left = theme.MARGIN + (at % across) * (wide + theme.GAP)
            top = _REASONS_TOP + (at // across) * theme.MODULE
            plate.place = [left, top, wide, theme.KEY]
