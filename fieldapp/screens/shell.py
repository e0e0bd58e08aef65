"""Holds the screen that is shown, and changes it when the desk says so."""

from __future__ import annotations

import logging
from importlib import import_module

from kivy.app import App
from kivy.clock import Clock
from kivy.core.window import Window
from kivy.uix.textinput import TextInput
from kivy.uix.widget import Widget

from fieldapp.screens import theme
from fieldapp.screens.desk.desk import Desk
from fieldapp.screens.desk.state.desk_state import NIGHT
from fieldapp.screens.kit.drawn import Drawn

# Which module and class shows each place; lists share one screen.
SCREENS = {
    "jobs": ("listing", "ListScreen"),
    "newjob": ("listing", "ListScreen"),
    "lists": ("listing", "ListScreen"),
    "course": ("listing", "ListScreen"),
    "follow": ("listing", "ListScreen"),
    "in force": ("listing", "ListScreen"),
    "leaving": ("listing", "ListScreen"),
    "asked": ("reason", "ReasonScreen"),
    "logbook": ("weeks.logbook", "LogbookScreen"),
    "sheet": ("listing", "ListScreen"),
    "section": ("listing", "ListScreen"),
    "people": ("listing", "ListScreen"),
    "steps": ("listing", "ListScreen"),
    "step": ("steps.step", "StepScreen"),
    "units": ("listing", "ListScreen"),
    "instruments": ("listing", "ListScreen"),
    "entry": ("entry.entry", "EntryScreen"),
    "field": ("entry.entry", "EntryScreen"),
    "reason": ("reason", "ReasonScreen"),
    "safe": ("safe", "SafeScreen"),
    "trace": ("timed.trace", "TraceScreen"),
    "hold": ("timed.hold", "HoldScreen"),
    "hookup": ("hookup", "HookupScreen"),
    "open": ("open", "OpenScreen"),
    "signoff": ("signing.signoff", "SignoffScreen"),
    "report": ("report", "ReportScreen"),
    "plan": ("sheet.plan", "PlanScreen"),
    "answer": ("listing", "ListScreen"),
    "crew": ("listing", "ListScreen"),
    "made": ("listing", "ListScreen"),
    "trust": ("listing", "ListScreen"),
    "offer": ("listing", "ListScreen"),
    "record": ("listing", "ListScreen"),
    "secret": ("crew.secret", "SecretScreen"),
    "copies": ("listing", "ListScreen"),
    "places": ("listing", "ListScreen"),
    "closing": ("listing", "ListScreen"),
    "handing": ("listing", "ListScreen"),
    "files": ("listing", "ListScreen"),
    "hurt": ("listing", "ListScreen"),
    "sides": ("listing", "ListScreen"),
    "who": ("listing", "ListScreen"),
    "why": ("reason", "ReasonScreen"),
}
_BACK_KEY = 27
_KEEPING = {
    *("yes", "keep", "answer", "kept", "start", "end", "reading", "close valve", "report"),
    *("see", "accept", "send back", "sign", "begin", "begin list"),
}
_READING_TIME = 0.4
"""Seconds in which nobody has read the question: a second touch belongs to the one before."""
_SOON = 0.05
_log = logging.getLogger(__name__)


class Shell(Drawn):
    """The whole window: one screen at a time."""

    def __init__(self, desk: Desk, **kwargs: object) -> None:
        """Show where the desk stands, and again every second."""
        super().__init__(ground="paper", **kwargs)
        self._desk = desk
        self._shown = ""
        self._place: object = None
        self._asked_at = 0.0
        self._screen: Drawn | None = None
        self._ticking = Clock.schedule_interval(self._tick, 1)
        self._settling = Clock.create_trigger(self._settle, _SOON)
        Window.bind(on_keyboard=self._key)
        self.show()

    def show(self) -> None:
        """Show the desk's view on the screen that belongs to it."""
        name = self._desk.state.place.screen
        module, kind = SCREENS[name]
        if self._shown != name:
            if self._screen is not None:
                _let_go(self._screen)
                self.remove_widget(self._screen)
            made = getattr(import_module(f"fieldapp.screens.{module}"), kind)
            self._screen = made(place=[0, 0, 0, 0])
            self._screen.bind(on_touched=self._touched)
            self.add_widget(self._screen)
            self._shown = name
        elif self._place != self._desk.state.place and self._screen is not None:
            _let_go(self._screen)
        assert self._screen is not None  # noqa: S101 - made above
        self._screen.show(self._desk.view())
        if self._place != self._desk.state.place:
            self._place, self._asked_at = self._desk.state.place, Clock.time()
        Window.allow_screensaver = not self._desk.running
        if self._desk.working:
            self._settling()
        running = App.get_running_app()
        if self._desk.closed and running is not None:
            running.stop()

    def _settle(self, _: float) -> None:
        """Look whether what goes on beside the window is ready."""
        try:
            self._desk.settle()
        except Exception:  # noqa: BLE001 - as in _touched
            _log.exception("work beside the window")
            self._desk.own_fault()
        self.show()

    def _touched(self, _: Drawn, what: str, *details: object) -> None:
        if what in _KEEPING and Clock.time() - self._asked_at < _READING_TIME:
            return
        try:
            self._desk.touched(what, *details)
            self._show_look()
            self.show()
        except Exception:  # noqa: BLE001 - the one place that catches our own faults
            _log.exception("touch %s %s", what, details)
            self._desk.own_fault()
            self.show()

    def _show_look(self) -> None:
        wanted = theme.NIGHT if self._desk.look == NIGHT else theme.SUN
        if theme.look() is not wanted:
            theme.switch_look(wanted)
            Window.clearcolor = theme.colour("paper")

    def _tick(self, _: float) -> None:
        if self.parent is not None:
            self.show()

    def _key(self, _: object, key: int, *__: object) -> bool:
        """Go back on the tablet's back key; the app never closes by it."""
        if key == _BACK_KEY and self.parent is not None:
            self._touched(self, "back")
            return True
        return False


def _let_go(screen: Widget) -> None:
    """Take the keyboard from a field that is left."""
    for widget in screen.walk(restrict=True):
        if isinstance(widget, TextInput):
            widget.focus = False
