"""The screen of one entry: the caution and the task at the left, what is given at the right."""

from __future__ import annotations

from kivy.lang import Builder

from fieldapp.screens.body_view import AnswerBody, Body, KeypadBody, PicturesBody
from fieldapp.screens.entry.body_field import FieldBody
from fieldapp.screens.entry.body_number import NumberBody
from fieldapp.screens.entry.body_pictures import PictureBody
from fieldapp.screens.entry.body_plates import PlatesBody
from fieldapp.screens.entry.entry_view import EntryView
from fieldapp.screens.frame import TALL
from fieldapp.screens.kit.drawn import Drawn

Builder.load_file(__file__.replace(".py", ".kv"))

BodyWidget = NumberBody | PlatesBody | FieldBody | PictureBody


class EntryScreen(Drawn):
    """Shows an `EntryView`; says what was touched."""

    __events__ = ("on_touched",)

    def __init__(self, **kwargs: object) -> None:
        """Take the body as it comes with the view."""
        self._body: BodyWidget | None = None
        super().__init__(**kwargs)
        self.ids.frame.bind(on_touched=lambda _, *what: self.dispatch("on_touched", *what))
        self.ids.asking.bind(on_part=lambda *_: self.dispatch("on_touched", "hookup"))
        self.ids.asking.bind(on_instrument=lambda *_: self.dispatch("on_touched", "instruments"))
        self.fbind("size", self._place_parts)

    def on_touched(self, what: str, *details: object) -> None:
        """Say what was touched; for those who listen."""

    def show(self, view: EntryView) -> None:
        """Show an entry."""
        self.ids.frame.view = view.frame
        self.ids.asking.view = view.asking
        self.ids.asking.diagram = view.diagram
        self._show_body(view.body)
        self._place_parts()

    def _show_body(self, body: Body) -> None:
        kind = _widget_for(body)
        if not isinstance(self._body, kind):
            if self._body is not None:
                self.remove_widget(self._body)
            self._body = kind()
            self._body.bind(on_touched=lambda _, *what: self.dispatch("on_touched", *what))
            self.add_widget(self._body, index=1)
        self._body.view = body

    def _place_parts(self, *_: object) -> None:
        tall = self.wide < TALL
        if tall:
            self.ids.asking.place = [24, 140, -24, 296]
            place: list[float] = [45, 452, 710, 586]
        else:
            self.ids.asking.place = [24, 90, self.wide - 782, self.high - 214]
            place = [self.wide - 734, 90, 710, self.high - 214]
        if self._body is not None:
            self._body.place = place


def _widget_for(body: Body) -> type[BodyWidget]:
    if isinstance(body, KeypadBody):
        return NumberBody
    if isinstance(body, PicturesBody):
        return PictureBody
    return PlatesBody if isinstance(body, AnswerBody) else FieldBody
