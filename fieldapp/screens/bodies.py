"""The right of a screen: the keypad, answers as plates, or a field for words."""

from __future__ import annotations

from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.body_view import AnswerBody, KeypadBody, VerdictView, WordsBody
from fieldapp.screens.frame import show_plate
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.kit import words
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.keypad import HEIGHT, WIDTH, Keypad, Side
from fieldapp.screens.kit.note import NoteField
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.kit.plate import Plate
from fieldapp.screens.kit.ruler import LimitRuler
from fieldapp.screens.kit.text import Value, Verdict, Words

_KEYS = 168.0
_LIMITS = (theme.BODY, theme.NOTE, 22, theme.LABEL)
_RULER = 416
_KEEP = 110


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
        _show_verdict(self._verdict, view.verdict)
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


class PlatesBody(Drawn):
    """Shows an `AnswerBody`: answers in columns, then the plates that keep."""

    __events__ = ("on_touched",)

    view = ObjectProperty(AnswerBody())

    def __init__(self, **kwargs: object) -> None:
        """Take the plates as they come with the view."""
        self._limit = Words()
        self._verdict = Verdict(radius=16)
        self._plates: list[Plate] = []
        self._views: list[PlateView] = []
        super().__init__(**kwargs)
        self.add_widget(self._limit)
        self.add_widget(self._verdict)
        for name in ("view", "size"):
            self.fbind(name, self._show)
        self._show()

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def _show(self, *_: object) -> None:
        view: AnswerBody = self.view
        self._limit.text = view.limit
        limit = _lines_high(view.limit, self.wide)
        self._limit.place = [0, 0, self.wide, max(1, limit)]
        _show_verdict(self._verdict, view.verdict)
        verdict = 74.0
        self._verdict.place = [0, -(_KEEP + 20 + verdict), self.wide, verdict]
        _fit_verdict(self._verdict, view.verdict, verdict, self.wide)
        self._views = [*view.plates, *view.keep]
        self._match_plates()
        top = limit + (12 if limit else 0)
        self._place_answers(view, top, self.high - _KEEP - 20 - verdict - 12)
        place_keep(self._plates[len(view.plates) :], self.wide, self.high - _KEEP, _KEEP)

    def _match_plates(self) -> None:
        while len(self._plates) > len(self._views):
            self.remove_widget(self._plates.pop())
        while len(self._plates) < len(self._views):
            plate = Plate()
            plate.bind(on_touched=self._touched)
            self._plates.append(plate)
            self.add_widget(plate)
        for plate, shown in zip(self._plates, self._views, strict=True):
            show_plate(plate, shown)
            plate.tid = " ".join((shown.name, *shown.details))
            plate.first_size = theme.TASK if shown.kind == "main" else theme.PLATE_FIRST

    def _place_answers(self, view: AnswerBody, top: float, foot: float) -> None:
        if not view.plates:
            return
        rows = -(-len(view.plates) // view.columns)
        wide = (self.wide - theme.GAP * (view.columns - 1)) / view.columns
        high = min(190.0, (foot - top - theme.GAP * (rows - 1)) / rows)
        for at, plate in enumerate(self._plates[: len(view.plates)]):
            left = (at % view.columns) * (wide + theme.GAP)
            plate.place = [left, top + (at // view.columns) * (high + theme.GAP), wide, high]

    def _touched(self, plate: Plate) -> None:
        view = self._views[self._plates.index(plate)]
        self.dispatch("on_touched", view.name, *view.details)


class FieldBody(Drawn):
    """Shows a `WordsBody`: the field above, where the tablet's keyboard leaves it in sight."""

    __events__ = ("on_touched",)

    view = ObjectProperty(WordsBody())

    def __init__(self, **kwargs: object) -> None:
        """Build the field."""
        self._limit = Words(ink="ink2")
        self._field = NoteField()
        self._verdict = Verdict(radius=16)
        self._plates = [Plate() for _ in range(7)]
        self._views: list[PlateView] = []
        self._showing = False
        super().__init__(**kwargs)
        for part in (self._limit, self._field, self._verdict):
            self.add_widget(part)
        self._field.tid = "words"
        self._field.bind(text=self._typed)
        for plate in self._plates:
            plate.bind(on_touched=self._touched)
        for name in ("view", "size"):
            self.fbind(name, self._show)
        self._show()

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def draw(self, pen: Pen) -> None:
        """Draw the frame of the field."""
        left, top, width, height = self._field.place
        pen.rect(left - 1.5, top - 1.5, width + 3, height + 3, None, "ink")

    def _show(self, *_: object) -> None:
        view: WordsBody = self.view
        self._limit.text = view.limit
        limit = _lines_high(view.limit, self.wide)
        self._limit.place = [0, 0, self.wide, max(1, limit)]
        top = limit + (8 if limit else 0)
        self._field.place = [3, top + 3, max(1, self.wide - 6), 104]
        self._field.hint_text = view.hint
        self._showing = True
        if self._field.text != view.typed:
            self._field.text = view.typed
        self._showing = False
        _show_verdict(self._verdict, view.verdict)
        self._verdict.place = [0, top + 118, self.wide, 74]
        _fit_verdict(self._verdict, view.verdict, 74, self.wide)
        self._show_plates(view, top + 200)
        self.draw_soon()

    def _show_plates(self, view: WordsBody, top: float) -> None:
        taken = [PlateView("typed", text, details=(text,)) for text in view.suggestions]
        self._views = [*view.keep, *taken]
        for plate in self._plates:
            self.remove_widget(plate)
        used = self._plates[: len(self._views)]
        for plate, shown in zip(used, self._views, strict=True):
            show_plate(plate, shown)
            plate.tid = " ".join((shown.name, *shown.details[:1]))
            self.add_widget(plate)
        place_keep(used[: len(view.keep)], self.wide, top, _KEEP)
        wide = (self.wide - theme.GAP) / 2
        for at, plate in enumerate(used[len(view.keep) :]):
            below = top + _KEEP + 30 + (at // 2) * (94 + theme.GAP)
            plate.place = [(at % 2) * (wide + theme.GAP), below, wide, 94]

    def _typed(self, _: NoteField, text: str) -> None:
        if not self._showing:
            self.dispatch("on_touched", "typed", text)

    def _touched(self, plate: Plate) -> None:
        view = self._views[self._plates.index(plate)]
        self.dispatch("on_touched", view.name, *view.details)


def place_keep(plates: list[Plate], wide: float, top: float, high: float) -> None:
    """Place the plates that keep side by side; the last one, most often blue, is the widest."""
    if not plates:
        return
    shares = [1.0] * (len(plates) - 1) + [1.6]
    room = wide - theme.GAP * (len(plates) - 1)
    left = 0.0
    for plate, share in zip(plates, shares, strict=True):
        each = room * share / sum(shares)
        plate.place = [left, top, each, high]
        left += each + theme.GAP


def _lines_high(text: str, wide: float) -> float:
    if not text:
        return 0
    return words.height_of(len(words.wrapped(text, theme.BODY, max(1, wide))), theme.BODY)


def _show_verdict(verdict: Verdict, view: VerdictView) -> None:
    verdict.kind, verdict.sentence, verdict.second = view.mark, view.sentence, view.second


def _fit_verdict(verdict: Verdict, view: VerdictView, high: float, wide: float) -> None:
    """Leave out what then, where the sentence alone fills the room."""
    room = wide - 2 * verdict.radius - 18
    lines = len(words.wrapped(view.sentence, theme.BODY, max(1, room), bold=True))
    more = len(words.wrapped(view.second, theme.NOTE, max(1, room))) if view.second else 0
    if words.height_of(lines, theme.BODY) + words.height_of(more, theme.NOTE) > high:
        verdict.second = ""
