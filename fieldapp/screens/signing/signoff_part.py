"""The sign-off on its sheet: what was not as planned at the left, the signatures at the right."""

from __future__ import annotations

from fieldapp.screens.frame import TALL, show_plate
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.mark import draw_here
from fieldapp.screens.kit.paging import PagedRows
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.kit.plate import Plate
from fieldapp.screens.signing.signoff_parts import PlannedWidget
from fieldapp.screens.signing.signoff_view import SignoffView
from fieldapp.screens.timed.trace_parts import meant

_LINE, _RIGHT, _PAD = 794, 444, 176
_TOTALS = 82
_TYPE_INSTEAD = ("Type name", "instead")


class SignoffPart(Drawn):
    """Shows a `SignoffView`; says what was touched."""

    __events__ = ("on_touched",)
    DRAWN_FROM = ("pad_box",)

    def __init__(self, **kwargs: object) -> None:
        """Listen to the parts."""
        self._view: SignoffView | None = None
        super().__init__(**kwargs)
        ids = self.ids
        ids.pad.bind(on_stroke=lambda *_: self.dispatch("on_touched", "strokes", self.strokes()))
        ids.wipe.bind(on_touched=self._wiped)
        ids.send_back.bind(on_touched=lambda *_: self.dispatch("on_touched", "ask", "send back"))
        ids.pager.bind(
            on_up=lambda *_: self.ids.rows.page(-1), on_down=lambda *_: self.ids.rows.page(1)
        )
        ids.rows.bind(start=self._started)
        self.fbind("size", self._place_parts)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def strokes(self) -> tuple[tuple[tuple[float, float], ...], ...]:
        """What is drawn on the pad."""
        return tuple(tuple(map(tuple, stroke)) for stroke in self.ids.pad.strokes)

    def show(self, view: SignoffView) -> None:
        """Show the sign-off."""
        self._view = view
        ids = self.ids
        ids.title.text, ids.totals.totals = view.title, view.totals
        ids.locked.text = "\n".join(view.locked)
        ids.technician.view, ids.lead.view = view.technician, view.lead
        self._show_pad(view)
        _shown(ids.send_back, shown=view.send_back is not None)
        if view.send_back is not None:
            show_plate(ids.send_back, view.send_back)
        self._fill(view)
        self._place_parts()

    def draw(self, pen: Pen) -> None:
        """Draw the line between the halves, and the angles around the pad in use."""
        if self.wide >= TALL:
            pen.rect(self.wide - 1280 + _LINE, 90, 4, self.high - 204, "ink")
        if self._view is not None and self.ids.pad.open:
            left, top, width, height = self.ids.pad.place
            draw_here(pen, left - 10, top - 10, width + 20, height + 20)

    def _show_pad(self, view: SignoffView) -> None:
        ids = self.ids
        mine = next((one for one in (view.technician, view.lead) if one.open), None)
        ids.pad.open = mine is not None
        _shown(ids.pad, shown=not view.lead.signed)
        _shown(ids.wipe, shown=mine is not None)
        given = mine is not None and bool(mine.strokes or mine.typed)
        ids.wipe.first, ids.wipe.second = ("Clear", "") if given else _TYPE_INSTEAD
        ids.wipe.tid = "clear" if given else "type name"
        ids.pad.hint = "sign on the line" if mine else "for the one who signs"
        ids.pad.typed = mine.typed if mine else ""
        if self.strokes() != (mine.strokes if mine else ()):
            ids.pad.strokes = [list(stroke) for stroke in mine.strokes] if mine else []

    def _wiped(self, plate: Plate) -> None:
        """Clear the pad, or ask for a typed name where nothing is drawn."""
        what = ("clear",) if plate.tid == "clear" else ("ask", "name")
        self.dispatch("on_touched", *what)

    def _fill(self, view: SignoffView) -> None:
        rows = list(self.ids.rows.rows)
        while len(rows) < len(view.rows):
            row = PlannedWidget()
            row.bind(on_touched=lambda _, *what: self.dispatch(
                "on_touched", *meant(str(what[0]), what[1:])))  # fmt: skip
            rows.append(row)
        rows = rows[: len(view.rows)]
        for row, shown in zip(rows, view.rows, strict=True):
            row.view = shown
        if rows != self.ids.rows.rows:
            self.ids.rows.rows = rows
        if self.ids.rows.start != view.start:
            self.ids.rows.start = view.start

    def _place_parts(self, *_: object) -> None:
        view = self._view
        if view is None:
            return
        ids, tall = self.ids, self.wide < TALL
        if tall:
            middle = self.high - (480 if view.locked else 650)
            self._place_left(24, 140, self.wide - 48, middle)
            self._place_right(self.wide / 2 - 222, middle + 12, self.high - 238)
        else:
            self._place_left(24, 90, self.wide - 528, self.high - 124)
            self._place_right(self.wide - 468, 90, self.high - 124)
        ids.pager.count, ids.pager.start = len(view.rows), ids.rows.start
        ids.pager.shown = ids.rows.shown
        self.draw_soon()

    def _place_left(self, left: float, top: float, wide: float, foot: float) -> None:
        ids, view = self.ids, self._view
        assert view is not None  # noqa: S101 - the caller saw to it
        locked = 190.0 if view.locked else 1.0
        high = foot - top - 46 - _TOTALS - (locked if view.locked else 0)
        paged = len(view.rows) * 158 - 20 > high
        ids.title.place = [left, top - 4, wide, 40]
        ids.locked.place = [left, top + 46, wide, locked]
        above = top + 46 + (locked if view.locked else 0)
        ids.rows.place = [left, above, wide, max(94, high - (114 if paged else 0))]
        ids.pager.place = [left, foot - _TOTALS - 94, wide - 182, 94]
        _shown(ids.pager, shown=paged)
        ids.totals.place = [left, foot - _TOTALS + 8, wide, _TOTALS - 8]

    def _place_right(self, left: float, top: float, foot: float) -> None:
        ids, view = self.ids, self._view
        assert view is not None  # noqa: S101 - the caller saw to it
        signing = view.technician if view.technician.open else view.lead
        signed_high, waiting_high = 104.0 if self.wide < TALL else 150.0, 84.0
        ids.technician.place = [left, top, _RIGHT, signed_high if view.technician.signed else 84]
        y = top + (signed_high if view.technician.signed else waiting_high) + 10
        pad_after_technician = signing is view.technician
        if pad_after_technician:
            pad = min(_PAD, foot - y - 128 - waiting_high)
            ids.pad.place = [left, y, _RIGHT, pad]
            self._place_plates(left, y + pad + 20)
            ids.lead.place = [left, y + pad + 128, _RIGHT, waiting_high]
            return
        ids.lead.place = [left, y, _RIGHT, signed_high if view.lead.signed else waiting_high]
        y += signed_high if view.lead.signed else 74
        ids.pad.place = [left, y, _RIGHT, min(_PAD, foot - 114 - y)]
        self._place_plates(left, y + ids.pad.place[3] + 20)

    def _place_plates(self, left: float, top: float) -> None:
        self.ids.wipe.place = [left, top, 212, 94]
        self.ids.send_back.place = [left + 232, top, 212, 94]

    def _started(self, rows: PagedRows, _: float) -> None:
        # what the rows settled on, not what was asked for: that may lie past the last page
        if self._view is not None and int(rows.start) != self._view.start:
            self.dispatch("on_touched", "page", int(rows.start))


def _shown(widget: Drawn, *, shown: bool) -> None:
    """Show a widget or take it away, with its touches."""
    widget.opacity, widget.disabled = (1, False) if shown else (0, True)
