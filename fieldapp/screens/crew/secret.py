"""The screen where a name or a secret is typed, in the upper half, hidden until one wants to see.

What is typed stays in the field: it is in no view, and goes when the screen is left.
"""

from __future__ import annotations

from kivy.lang import Builder

from fieldapp.crew.secret import Secret
from fieldapp.screens import theme
from fieldapp.screens.crew.secret_field import FIELD_HIGH
from fieldapp.screens.crew.secret_view import SecretView
from fieldapp.screens.frame import TALL, header_height
from fieldapp.screens.kit import words
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.pen import Pen

Builder.load_file(__file__.replace(".py", ".kv"))

_FIELD_TOP = 64
_LOOK = 190


class SecretScreen(Drawn):
    """Shows a `SecretView`; gives what was typed, and forgets it."""

    __events__ = ("on_touched",)

    def __init__(self, **kwargs: object) -> None:
        """Listen to the parts."""
        self._view: SecretView | None = None
        self._seen = False
        super().__init__(**kwargs)
        ids = self.ids
        ids.frame.bind(on_touched=lambda _, *what: self.dispatch("on_touched", *what))
        ids.field.bind(text=self._show, on_text_validate=self._give)
        ids.look.bind(on_touched=self._look)
        ids.give.bind(on_touched=self._give)
        self.fbind("size", self._show)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: SecretView) -> None:
        """Ask; another question begins empty and hidden."""
        if self._view is None or self._view.title != view.title:
            self.ids.field.text, self._seen = "", False
        self._view = view
        self._show()

    def draw(self, pen: Pen) -> None:
        """Draw the frame of the field."""
        if self._view is not None:
            left, top, width, height = self._box()
            pen.rect(left + 1.5, top + 1.5, width - 3, height - 3, None, "ink")

    def _box(self) -> tuple[float, float, float, float]:
        hidden = self._view is not None and self._view.hidden
        beside = _LOOK + theme.GAP if hidden else 0
        top = header_height(self.wide) + _FIELD_TOP
        return theme.MARGIN, top, self.wide - 2 * theme.MARGIN - beside, FIELD_HIGH

    def _show(self, *_: object) -> None:
        view, ids = self._view, self.ids
        if view is None:
            return
        ids.frame.view = view.frame
        ids.title.text, ids.lines.text = view.title, "\n".join(view.lines)
        ids.field.hint_text = view.hint
        ids.field.password = view.hidden and not self._seen
        ids.look.first, ids.look.second = ("Hide", "") if self._seen else ("Show", "what I type")
        ids.look.opacity, ids.look.disabled = (1, False) if view.hidden else (0, True)
        self._show_plate(view)
        self._place_parts()

    def _show_plate(self, view: SecretView) -> None:
        plate = self.ids.give
        plate.first, plate.second, plate.kind = view.first, view.second, "main"
        if view.working:
            plate.first, plate.second, plate.kind = "Working…", view.working, "waiting"
        elif view.waits:
            plate.second, plate.kind = view.waits, "waiting"
        elif len(self.ids.field.text.strip()) < view.least:
            plate.second, plate.kind = view.too_short, "waiting"

    def _place_parts(self) -> None:
        ids = self.ids
        left, top, width, height = self._box()
        ids.title.place = [left, top - 50, -theme.MARGIN, 44]
        ids.field.place = [left + 3, top + 3, width - 6, height - 6]
        ids.look.place = [left + width + theme.GAP, top, _LOOK, height]
        lines = words.wrapped(ids.lines.text, theme.NOTE, max(1, self.wide - 48))
        ids.lines.place = [left, top + height + 16, -theme.MARGIN,
                           words.height_of(len(lines), theme.NOTE) + 2]  # fmt: skip
        tall = self.wide < TALL
        ids.give.place = [24, -136, -24, theme.KEY] if tall else [-464, -136, 440, theme.KEY]
        self.draw_soon()

    def _look(self, *_: object) -> None:
        self._seen = not self._seen
        self._show()

    def _give(self, *_: object) -> None:
        view, field = self._view, self.ids.field
        if view is None or self.ids.give.kind != "main":
            return
        typed = field.text
        field.text, field.focus = "", False
        self.dispatch("on_touched", view.touch, Secret(typed) if view.hidden else typed)
