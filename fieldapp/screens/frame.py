"""The frame of every screen of a job: route above, plates below, and what was not possible."""

from __future__ import annotations

from kivy.input.motionevent import MotionEvent
from kivy.properties import ObjectProperty

from fieldapp.screens import theme
from fieldapp.screens.frame_view import FrameView, PlateView
from fieldapp.screens.kit import mark, words
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.pen import Pen
from fieldapp.screens.kit.plate import Plate
from fieldapp.screens.kit.route import Phase, RouteHeader

FOOT = 94
TALL = 1000
# Where plates stand that many screens have, counted from the left.
_SLOTS = {"back": 0, "safe": 1, "report": 2, "people": 3}
_LAST = 5
_LEADING = ("main", "waiting")


class Told(Drawn):
    """Why the last act was not possible, or that it is not saved; it stands above all else."""

    DRAWN_FROM = ("text", "stopped")

    text = ObjectProperty("")
    stopped = ObjectProperty(False)  # noqa: FBT003 - a Kivy property

    def draw(self, pen: Pen) -> None:
        """Draw the strip; longer words in smaller letters."""
        if not self.text:
            return
        ground, ink = ("stop", "stopink") if self.stopped else ("ink", "paper")
        pen.rect(0, 0, self.wide, self.high, ground)
        mark.draw_mark(pen, "failed" if self.stopped else "notyet", 50, self.high / 2, 20)
        left, room = 92, self.wide - 116
        for size in (theme.BODY, theme.NOTE, 22, theme.LEAST_TEXT):
            lines, lead = words.wrapped(self.text, size, room), round(size * 1.15)
            if len(lines) * lead <= self.high - 4:
                break
        first = self.high / 2 - (len(lines) - 1) * lead / 2 + 0.36 * size
        fits = room if len(lines) * lead <= self.high else 0
        pen.lines(left, first, lines, size, ink=ink, ground=ground, room=fits, lead=lead)


class Frame(Drawn):
    """Shows a `FrameView`; says which plate was touched."""

    __events__ = ("on_touched",)

    view = ObjectProperty(FrameView())

    def __init__(self, **kwargs: object) -> None:
        """Build route and strip; the plates come with the view."""
        self._route = RouteHeader()
        self._told = Told()
        self._plates: dict[str, Plate] = {}
        super().__init__(**kwargs)
        self.place = self.place or [0, 0, 0, 0]
        for part in (self._route, self._told):
            self.add_widget(part)
        for name in ("view", "size"):
            self.fbind(name, self._show)
        self._show()

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def on_touch_down(self, touch: MotionEvent) -> bool:
        """Take touches on the plates only; the content lies below."""
        return any(plate.on_touch_down(touch) for plate in self._plates.values())

    def _show(self, *_: object) -> None:
        view: FrameView = self.view
        high = header_height(self.wide)
        told = view.not_saved or view.refused
        self._route.place = [0, 0, 0, high]
        self._route.opacity = 0 if told else 1
        self._told.place = [0, 0, 0, high]
        self._told.text = f"NOT SAVED. {_rest(told)}" if view.not_saved else told
        self._told.stopped = bool(view.not_saved)
        route = self._route
        route.unit, route.site, route.clock = view.unit, view.site, view.clock
        route.part = view.part
        route.phases = [Phase(phase.name, phase.state, phase.deviation) for phase in view.phases]
        self._show_plates(view.plates)

    def _show_plates(self, plates: tuple[PlateView, ...]) -> None:
        names = [plate.name for plate in plates]
        for name in [name for name in self._plates if name not in names]:
            self.remove_widget(self._plates.pop(name))
        main = bool(plates) and plates[-1].kind in _LEADING
        places = foot_places(self.wide, names, main=main)
        if self.view.aside:
            places = places_between(self.wide, names)
        for view, place in zip(plates, places, strict=True):
            if view.name not in self._plates:
                self._plates[view.name] = self._new(view.name)
            show_plate(self._plates[view.name], view)
            self._plates[view.name].place = place

    def _new(self, name: str) -> Plate:
        plate = Plate(tid=name)
        plate.bind(on_touched=lambda *_: self._told_of(name))
        self.add_widget(plate)
        return plate

    def _told_of(self, name: str) -> None:
        view = next(plate for plate in self.view.plates if plate.name == name)
        self.dispatch("on_touched", view.name, *view.details)


def show_plate(plate: Plate, view: PlateView) -> None:
    """Write a view's words on a plate."""
    plate.first, plate.second, plate.kind, plate.sign = (
        view.first, view.second, view.kind, view.sign,
    )  # fmt: skip


def header_height(wide: float) -> float:
    """The height of the route on a sheet so wide."""
    return theme.HEADER if wide >= TALL else theme.HEADER_PORTRAIT


def foot_places(wide: float, names: list[str], *, main: bool) -> list[list[float]]:
    """Where the plates of the foot stand: one row on a wide sheet, rows of three on a tall one.

    A plate keeps its place from screen to screen; a `main` plate, the last, takes what is left.
    """
    if wide < TALL:
        return _tall_places(wide, len(names), main=main)
    slots = _slots(names, first_free=2 if main else 4)
    places = [[_left(slot), -104.0, 140.0 if slot == 0 else 190.0, FOOT] for slot in slots]
    if main or slots[-1:] == [_LAST]:
        left = _left(max(slots[:-1], default=-1) + 1)
        places[-1] = [left, -104.0, wide - theme.MARGIN - left, FOOT]
    return places


def _slots(names: list[str], first_free: int) -> list[int]:
    """Which place of the row each plate has, counted from the left."""
    free = [first_free, *(slot for slot in (2, 4, _LAST) if slot != first_free)]
    if "report" in names[:-1]:
        free.remove(2)
    slots: list[int] = []
    for at, name in enumerate(names):
        known = _SLOTS.get(name, free[0]) if at else min(_SLOTS.get(name, 0), 1)
        slots.append(known if known not in slots else free[0])
        free = [slot for slot in free if slot not in slots]
    return slots


def _left(slot: int) -> float:
    return float(theme.MARGIN + (slot and 160 + (slot - 1) * 210))


def _tall_places(wide: float, count: int, *, main: bool) -> list[list[float]]:
    each = (wide - 2 * theme.MARGIN - 2 * theme.GAP) / 3
    rows = -(-count // 3)
    places = [
        [theme.MARGIN + (at % 3) * (each + theme.GAP),
         -(10 + (rows - at // 3) * (FOOT + theme.GAP) - theme.GAP), each, FOOT]
        for at in range(count)
    ]  # fmt: skip
    if main:
        places[-1][2] = wide - theme.MARGIN - places[-1][0]
    return places


def places_between(wide: float, names: list[str]) -> list[list[float]]:
    """Where plates stand that leave the foot's corners free: above them on a tall sheet."""
    if wide < TALL:
        each = (wide - 2 * theme.MARGIN - theme.GAP * (len(names) - 1)) / len(names)
        return [[theme.MARGIN + at * (each + theme.GAP), -260, each, FOOT]
                for at in range(len(names))]  # fmt: skip
    return [
        [_left(slot), -104.0, 140.0 if slot == 0 else 190.0, FOOT]
        for slot in _slots(names, first_free=2)
    ]


def _rest(told: str) -> str:
    return told.removeprefix("NOT SAVED, ")[:1].upper() + told.removeprefix("NOT SAVED, ")[1:]
