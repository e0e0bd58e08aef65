"""The screen "something was touched": plates to choose from, then what it reopens and a note."""

from __future__ import annotations

from kivy.lang import Builder
from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.frame import TALL, Frame, header_height, show_plate
from fieldapp.screens.kit import words
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.note import NoteField
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.kit.plate import Plate
from fieldapp.screens.report_view import A_PAGE, ACROSS, ReportView
from fieldapp.screens.timed.trace_parts import meant

Builder.load_file(__file__.replace(".py", ".kv"))

_FIELD = 110


class ReportScreen(Drawn):
    """Shows a `ReportView`; says what was touched."""

    __events__ = ("on_touched",)
    DRAWN_FROM = ("view",)

    view = ObjectProperty(None, allownone=True)

    def __init__(self, **kwargs: object) -> None:
        """Build the plates and the field."""
        self._plates = [Plate() for _ in range(A_PAGE)]
        self._field = NoteField(hint_text="what was done, and where: touch here and type")
        super().__init__(**kwargs)
        for plate in self._plates:
            plate.bind(on_touched=self._touched)
        ids = self.ids
        ids.frame.bind(on_touched=self._foot_touched)
        ids.pager.bind(on_up=lambda *_: self._page(-A_PAGE), on_down=lambda *_: self._page(A_PAGE))
        self.fbind("size", self._show)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: ReportView) -> None:
        """Show the happenings, or the one that is chosen; its note begins empty."""
        if self.view is None or self.view.happening != view.happening:
            self._field.text = ""
        self.view = view
        self._show()

    def draw(self, pen: Pen) -> None:
        """Draw the frame of the field."""
        if self._field.parent is self:
            left, top, width, high = self._field.place
            wide = self.wide + width - left
            pen.rect(left - 1.5, top - 1.5, wide + 3, high + 3, None, "ink")

    def _show(self, *_: object) -> None:
        view: ReportView | None = self.view
        if view is None:
            return
        ids, top = self.ids, header_height(self.wide) + 10
        ids.frame.view = view.frame
        ids.title.text = view.title
        ids.title.place = [24, top, -24, 44]
        chosen = bool(view.happening)
        ids.pager.opacity, ids.pager.disabled = (0, True) if chosen else (1, False)
        ids.reopens.text = _reopened(view) if chosen else ""
        parts: tuple[Plate | NoteField, ...] = (*self._plates, self._field)
        for part in parts:
            if part.parent is self:
                self.remove_widget(part)
        if chosen:
            self._show_chosen(top + 54)
        else:
            self._show_plates(view, top + 54)
        self.draw_soon()

    def _show_chosen(self, top: float) -> None:
        self._field.place = [27, top, -27, _FIELD]
        self.add_widget(self._field, index=1)
        below = top + _FIELD + 20
        foot = 238 if self.wide < TALL else 124
        text = self.ids.reopens.text
        room = self.high - foot - below
        sizes = (theme.BODY, theme.NOTE, theme.LEAST_TEXT)
        fit = (
            size
            for size in sizes
            if words.height_of(len(words.wrapped(text, size, self.wide - 48)), size) <= room
        )
        self.ids.reopens.letter = next(fit, theme.LEAST_TEXT)
        self.ids.reopens.place = [24, below, -24, -foot]

    def _show_plates(self, view: ReportView, top: float) -> None:
        tall = self.wide < TALL
        foot = self.high - (238 if tall else 124)
        ids, across = self.ids, 2 if tall else ACROSS
        ids.pager.count, ids.pager.start, ids.pager.shown = view.count, view.start, A_PAGE
        ids.pager.place = [24, foot - 94, self.wide - 48, 94]
        rows = A_PAGE // across
        high = (foot - 114 - top - theme.GAP * (rows - 1)) / rows
        high = max(theme.TARGET, min(high, theme.KEY))
        wide = (self.wide - 48 - theme.GAP * (across - 1)) / across
        for at, (plate, shown) in enumerate(zip(self._plates, view.plates, strict=False)):
            show_plate(plate, shown)
            plate.tid = str(shown.details[0])
            left = 24 + (at % across) * (wide + theme.GAP)
            plate.place = [left, top + (at // across) * (high + theme.GAP), wide, high]
            self.add_widget(plate, index=1)

    def _touched(self, plate: Plate) -> None:
        shown = self.view.plates[self._plates.index(plate)]
        self.dispatch("on_touched", shown.name, *shown.details)

    def _foot_touched(self, _: Frame, what: str, *details: object) -> None:
        note = (self._field.text.strip(),) if what == "report" else ()
        self.dispatch("on_touched", *meant(what, (*details, *note)))

    def _page(self, by: int) -> None:
        start = max(0, self.view.start + by)
        if start < self.view.count:
            self.dispatch("on_touched", "page", start)


def _reopened(view: ReportView) -> str:
    if not view.reopens:
        return "Every step that is done still counts. The report is kept with its time."
    count = len(view.reopens)
    steps = f"{count} steps" if count > 1 else "One step"
    return f"{steps} must then be done again: {'; '.join(view.reopens)}."
