"""The keypad: what is typed is kept as text, exactly; it judges nothing."""

from __future__ import annotations

from dataclasses import dataclass

from kivy.properties import BooleanProperty, ListProperty, OptionProperty, StringProperty

from fieldapp.screens import theme
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.plate import Plate

MINUS = "\N{MINUS SIGN}"
LONGEST = 9
WIDTH = 5 * theme.KEY + 4 * theme.GAP
HEIGHT = 3 * theme.KEY + 2 * theme.GAP
_ROWS = ("789<", "456.", "1230")
_SIDE_COLUMN = 4
_SIDE_SIZE = 24


@dataclass(frozen=True, slots=True)
class Side:
    """A plate of the fifth column: its name, its words, its kind and how many rows it takes."""

    name: str
    first: str
    second: str = ""
    kind: str = "plain"
    rows: int = 1


class Keypad(Drawn):
    """Digits, erase, the decimal mark, and a fifth column: the sign key, or the `side` plates."""

    __events__ = ("on_typed", "on_side_touched")

    text = StringProperty("")
    decimal_mark = OptionProperty(".", options=(".", ","))
    signed = BooleanProperty(defaultvalue=False)
    side = ListProperty([])

    def __init__(self, **kwargs: object) -> None:
        """Build the keys."""
        super().__init__(**{"decimal_mark": theme.decimal_mark(), **kwargs})
        for name in ("decimal_mark", "signed", "side"):
            self.fbind(name, self._build)
        self._build()

    def on_typed(self, text: str) -> None:
        """Give the text as typed so far; for those who listen."""

    def on_side_touched(self, name: str) -> None:
        """Give the name of the touched plate of the fifth column; for those who listen."""

    def press(self, key: str) -> None:
        """Do what a key does, as if it were touched."""
        typed = after_key(self.text, key)
        if typed != self.text:
            self.text = typed
            self.dispatch("on_typed", typed)

    def _build(self, *_: object) -> None:
        self.clear_widgets()
        for row, keys in enumerate(_ROWS):
            for column, key in enumerate(keys):
                self._add_key(self.decimal_mark if key == "." else key, column, row)
        row = 0
        if self.signed:
            self._add_key("±", _SIDE_COLUMN, row)
            row += 1
        for side in self.side:
            self._add_side(side, row)
            row += side.rows

    def _add_key(self, key: str, column: int, row: int) -> None:
        plate = Plate(
            tid=f"key {key}",
            first="" if key == "<" else key,
            sign="erase" if key == "<" else "",
            first_size=60 if key in ".," else theme.KEYPAD_DIGIT,
            least=theme.KEY,
            place=_place(column, row, 1),
        )
        plate.bind(on_touched=lambda *_: self.press(key))
        self.add_widget(plate)

    def _add_side(self, side: Side, row: int) -> None:
        plate = Plate(
            tid=side.name,
            first=side.first,
            second=side.second,
            kind=side.kind,
            first_size=_SIDE_SIZE if side.rows == 1 else theme.TASK,
            least=theme.KEY,
            place=_place(_SIDE_COLUMN, row, side.rows),
        )
        plate.bind(on_touched=lambda *_: self.dispatch("on_side_touched", side.name))
        self.add_widget(plate)


def after_key(text: str, key: str) -> str:
    """The text after a key.

    >>> after_key("0.4", "6"), after_key("0.4", "."), after_key("0.4", "<")
    ('0.46', '0.4', '0.')
    """
    if key == "<":
        return text[:-1]
    if key == "±":
        return text.removeprefix(MINUS) if text.startswith(MINUS) else MINUS + text
    if len(text) >= LONGEST or (key in ".," and any(mark in text for mark in ".,")):
        return text
    return text + key


def _place(column: int, row: int, rows: int) -> list[float]:
    high = rows * theme.KEY + (rows - 1) * theme.GAP
    return [column * theme.MODULE, row * theme.MODULE, theme.KEY, high]
