"""The two-touch strip for timed readings: first about, then exactly; the second touch keeps."""

from __future__ import annotations

from decimal import Decimal

from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty, StringProperty

from fieldapp.screens import theme
from fieldapp.screens.kit.chart.two_touch_keys import GROUPS, ReadingKeys, keys_for
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.mark import draw_number
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.kit.plate import Plate

KEYS_TOP = 36
HEIGHT = KEYS_TOP + theme.KEY
HEIGHT_TWO_ROWS = HEIGHT + theme.MODULE
_ONE_ROW = 1200
_ARROW_GAP = 104
_LABEL = 24
_OTHER = 272
_FIRST_SIZE = 40


class TwoTouchStrip(Drawn):
    """Keys around `expected`; one row on a wide sheet, else two with the plate "Other value"."""

    __events__ = ("on_reading", "on_other")
    DRAWN_FROM = ("keys", "unit", "held")

    keys = ObjectProperty(keys_for(Decimal(0), Decimal(1)))
    unit = StringProperty("")
    decimal_mark = StringProperty(".")
    other_words = StringProperty("keypad")
    held = NumericProperty(-1)
    """The first key that is held, or -1."""
    two_rows = BooleanProperty(defaultvalue=False)

    def __init__(self, **kwargs: object) -> None:
        """Build the keys, and again whenever they change."""
        super().__init__(**kwargs)
        self.fbind("keys", self._start_again)
        for name in ("decimal_mark", "other_words", "two_rows"):
            self.fbind(name, self._build)
        self.fbind("size", self._turn)
        self.fbind("held", self._show_held)
        self._turn()
        self._build()

    def draw(self, pen: Pen) -> None:
        """Draw what stands above the keys, and the arrow between them."""
        left = self._left()
        first, second = _labels(self.keys, self.unit)
        draw_number(pen, left + 14, KEYS_TOP - 21, 1)
        end = pen.text(left + 38, KEYS_TOP - 12, first, _LABEL, bold=True)
        start = end + 30 if self.two_rows else self._second_left()
        draw_number(pen, start + 14, KEYS_TOP - 21, 2)
        pen.text(start + 38, KEYS_TOP - 12, second, _LABEL, bold=True)
        if not self.two_rows:
            x, y = self._second_left() - _ARROW_GAP / 2, KEYS_TOP + theme.KEY / 2
            pen.line([(x - 26, y), (x + 14, y)], "ink", 5)
            pen.poly([(x + 10, y - 16), (x + 30, y), (x + 10, y + 16)], "ink")

    def on_reading(self, text: str) -> None:
        """Give the reading that was touched; for those who listen."""

    def on_other(self) -> None:
        """Ask for the keypad; for those who listen."""

    def _turn(self, *_: object) -> None:
        self.two_rows = self.wide < _ONE_ROW

    def _start_again(self, *_: object) -> None:
        self.held = -1
        self._build()

    def _build(self, *_: object) -> None:
        self.clear_widgets()
        left, second = self._left(), self._second_left()
        for group in range(len(self.keys.starts)):
            self._add_first(group, left + group * theme.MODULE)
        for reading in range(self.keys.per_group):
            self._add_second(reading, second + reading * theme.MODULE)
        if self.two_rows:
            self._add_other(left + GROUPS * theme.MODULE)
        self._show_held()

    def _add_first(self, group: int, x: float) -> None:
        first, second = self.keys.first_label(group, self.decimal_mark)
        plate = Plate(
            tid=f"about {group}",
            first=first,
            second=second,
            first_size=_FIRST_SIZE if second else theme.STRIP_DIGIT,
            least=theme.KEY,
            place=[x, KEYS_TOP, theme.KEY, theme.KEY],
        )
        plate.bind(on_touched=lambda *_: self._hold(group))
        self.add_widget(plate)

    def _add_second(self, reading: int, x: float) -> None:
        top = KEYS_TOP + (theme.MODULE if self.two_rows else 0)
        plate = Plate(
            tid=f"exactly {reading}",
            first_size=theme.STRIP_DIGIT if self.keys.wholes else _FIRST_SIZE,
            least=theme.KEY,
            place=[x, top, theme.KEY, theme.KEY],
        )
        plate.bind(on_touched=lambda *_: self._keep(reading))
        self.add_widget(plate)

    def _add_other(self, x: float) -> None:
        plate = Plate(
            tid="other value",
            first="Other value",
            second=self.other_words,
            least=theme.KEY,
            place=[x, KEYS_TOP, _OTHER, theme.KEY],
        )
        plate.bind(on_touched=lambda *_: self.dispatch("on_other"))
        self.add_widget(plate)

    def _hold(self, group: int) -> None:
        self.held = group

    def _keep(self, reading: int) -> None:
        text = self.keys.text_of(self.held, reading, self.decimal_mark)
        self.held = -1
        self.dispatch("on_reading", text)

    def _show_held(self, *_: object) -> None:
        group = None if self.held < 0 else self.held
        for plate in self.children:
            name, _, number = plate.tid.partition(" ")
            if name == "about":
                plate.kind = "held" if int(number) == self.held else "plain"
            elif name == "exactly":
                plate.kind = "waiting" if group is None else "plain"
                plate.first = self.keys.second_label(group, int(number), self.decimal_mark)

    def _left(self) -> float:
        return max(0.0, (self.wide - theme.RIGHT_BLOCK) / 2) if self.two_rows else 0.0

    def _second_left(self) -> float:
        if self.two_rows:
            return self._left()
        return float(GROUPS * theme.MODULE - theme.GAP + _ARROW_GAP)


def _labels(keys: ReadingKeys, unit: str) -> tuple[str, str]:
    if keys.wholes:
        part = "tenths" if keys.decimals == 1 else "fraction"
        return f"whole {unit}", f"{part}: this touch keeps the reading"
    return f"{unit}, from and to", "exactly: this touch keeps the reading"
