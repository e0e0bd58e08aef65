"""Somebody at the window: reads the words, touches what carries them, types, and nothing else."""

from datetime import timedelta

from kivy.uix.textinput import TextInput

from fieldapp.screens.kit.plate import Plate
from fieldapp.screens.row import Row
from tests.screens.findings import findings

BETWEEN_TOUCHES = timedelta(seconds=15)


class Person:
    """Works at a desk's window; every screen on the way must be fit for gloves and sun."""

    def __init__(self, driver, desk, clock):
        from fieldapp.screens.shell import Shell

        self.driver, self.desk, self.clock = driver, desk, clock
        self.touches = 0
        self._looked_at = None
        self.window = driver.show(Shell(desk))
        self.look()

    @property
    def job(self):
        return self.desk.state.job

    def look(self):
        """Wait for what goes on beside the window, then see that the screen can be used."""
        while self.desk.settle(wait=True):
            pass
        self.window.show()
        self.driver.frames(3)
        where = self.desk.state.place
        if where == self._looked_at:
            return
        self._looked_at = where
        assert findings(self.window) == [], where
        assert self.can("Stop and make safe") or where.screen == "safe", where

    def reads(self, words):
        """Say whether these words stand on the screen, over as many lines as they take."""
        return words in " ".join(
            " ".join(written.text for written in widget.texts)
            for widget in self.window.walk(restrict=True)
            if getattr(widget, "texts", ()) and _seen(widget)
        )

    def can(self, words):
        """Say whether something that answers to touch carries these words."""
        return bool(self._carrying(words))

    def touch(self, *each):
        """Touch what carries the words; further rows of a list are looked for by its plates."""
        for words in each:
            while not self._carrying(words) and self.can("Down"):
                self._tap(self._carrying("Down")[0])
            found = self._carrying(words)
            assert found, f"nothing to touch says “{words}”: {self.all_words()}"
            self._tap(found[0])
        return self

    def write(self, text):
        """Touch the field and type into it, in place of what stands there."""
        field = next(w for w in self.window.walk(restrict=True) if _is_field(w))
        self._tap(field)
        field.text = ""
        self.driver.type(text)
        self.look()
        return self

    def key_in(self, digits):
        """Touch the keys of the keypad."""
        for digit in digits:
            self._tap(self.driver.get(f"key {digit}"))
        return self

    def draw(self, *points):
        """Draw on the pad: shares of its width and height, from the lower left corner."""
        pad = self.driver.get("pad")
        x, y = pad.to_window(*pad.pos)
        self.driver.drag([(x + a * pad.width, y + b * pad.height) for a, b in points])
        self.look()
        return self

    def all_words(self):
        return [
            " ".join(written.text for written in widget.texts)
            for widget in self.window.walk(restrict=True)
            if isinstance(widget, (Plate, Row)) and _seen(widget)
        ]

    def _carrying(self, words):
        found = [
            widget
            for widget in self.window.walk(restrict=True)
            if isinstance(widget, (Plate, Row)) and widget.targets() and _seen(widget)
            and words in " ".join(written.text for written in widget.texts)
        ]  # fmt: skip
        return sorted(found, key=lambda widget: len(" ".join(t.text for t in widget.texts)))

    def _tap(self, widget):
        self.driver.tap(widget)
        self.touches += 1
        self.clock.now += BETWEEN_TOUCHES
        self.look()


def _is_field(widget):
    return isinstance(widget, TextInput) and _seen(widget)


def _seen(widget):
    while widget is not None and widget is not widget.parent:
        if getattr(widget, "opacity", 1) == 0:
            return False
        widget = widget.parent
    return True


class Watch:
    """A clock that goes on by touches alone."""

    def __init__(self, now):
        self.now = now

    def __call__(self):
        return self.now
