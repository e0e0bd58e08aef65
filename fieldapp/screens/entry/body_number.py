"""The keypad side of a screen: limit, value, ruler, verdict, keys."""

from __future__ import annotations

from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.body_view import KeypadBody
from fieldapp.screens.entry.body_parts import show_verdict
from fieldapp.screens.kit import words
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.keypad import HEIGHT, WIDTH, Keypad, Side
from fieldapp.screens.kit.ruler import LimitRuler
from fieldapp.screens.kit.text import Value, Verdict, Words

_KEYS = 168.0
_LIMITS = (theme.BODY, theme.NOTE, 22, theme.LABEL)
_RULER = 416


class NumberBody(Drawn):
    """Shows a `KeypadBody`: 586 high, 710 wide."""

    __events__ = ("on_touched",)

    view = ObjectProperty(KeypadBody())

    def __init__(self, **kwargs: object) -> None:
        """Build limit, value, ruler, verdict and keypad."""
        self._limit = Words()
        self._value = Value()
        self._ruler = LimitRuler()
        self._verdict = Verdict(radius=16)
        self._keypad = Keypad()
        self._taken = ""
        super().__init__(**kwargs)
        for part in (self._limit, self._value, self._ruler, self._verdict, self._keypad):
            self.add_widget(part)
        self._keypad.bind(
            on_typed=lambda _, text: self.dispatch("on_touched", "typed", text),
            on_side_touched=lambda _, name: self.dispatch("on_touched", name),
        )
        for name in ("view", "size"):
            self.fbind(name, self._show)
        self._show()

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def _show(self, *_: object) -> None:
        view: KeypadBody = self.view
        letter = next((s for s in _LIMITS if words.width_of(view.limit, s) <= self.wide), 0)
        two = not letter
        self._limit.text, self._limit.letter = view.limit, letter or theme.LABEL
        self._limit.place = [0, 0, self.wide, 54 if two else 34]
        self._value.text, self._value.unit = view.shown, view.unit
        self._value.letter, self._value.unit_letter = (52, 30) if two else (76, 38)
        wide = self.wide - (_RULER + 12 if view.ruler else 0)
        self._value.place = [0, 48 if two else 30, wide, 54 if two else 74]
        self._show_ruler(view, two=two)
        show_verdict(self._verdict, view.verdict)
        room = max(1, self.wide - 50)
        lines = words.wrapped(view.verdict.sentence, theme.BODY, room, bold=True)
        top = 102 if len(lines) > 1 else 120
        self._verdict.place = [0, top, self.wide, _KEYS - top]
        self._verdict.second = ""
        self._show_keypad(view)

    def _show_ruler(self, view: KeypadBody, *, two: bool) -> None:
        ruler = view.ruler
        self._ruler.opacity = 1 if ruler else 0
        self._ruler.place = [-_RULER, 36 if two else 26, _RULER, 84]
        if ruler is None:
            self._ruler.lower = self._ruler.upper = None
            return
        for name in (
            "lower", "upper", "guard", "reading", "uncertainty",
            "lower_text", "upper_text", "lower_guard_text", "upper_guard_text",
        ):  # fmt: skip
            setattr(self._ruler, name, getattr(ruler, name))

    def _show_keypad(self, view: KeypadBody) -> None:
        keypad = self._keypad
        keypad.place = [-WIDTH, -HEIGHT, WIDTH, HEIGHT]
        keypad.text = view.typed
        keypad.signed = view.signed
        side = list(_sides(view))
        if side != keypad.side:
            keypad.side = side


def _sides(view: KeypadBody) -> list[Side]:
    """The fifth column; the sign key takes a row, then the first plate gives way."""
    room = 2 if view.signed else 3
    sides = [Side(p.name, p.first, p.second, p.kind) for p in view.side[-room:]]
    if not sides:
        return []
    last = sides[-1]
    sides[-1] = Side(last.name, last.first, last.second, last.kind, 1 + room - len(sides))
    return sides
