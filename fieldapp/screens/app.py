"""The window: shows the desk's view, passes touches on, and looks at the clock once a second."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from fieldapp import places
from fieldapp.handover.second_place import back_up_on_leaving
from fieldapp.screens import runtime
from fieldapp.screens.copies.cards import cards_here
from fieldapp.screens.desk.desk import Desk
from fieldapp.screens.desk.desk_lists import own_lists
from fieldapp.screens.language import decimal_mark_of

if TYPE_CHECKING:
    from fieldapp.screens.shell import Shell

Clock = Callable[[], datetime]
CHECKLIST = "hookup"


def run(home: Path, clock: Clock, *, checklists: Mapping[str, str] | None = None) -> None:
    """Open the window on the jobs below `home`, until it is closed."""
    runtime.prepare_environment(home / "kivy")
    runtime.prepare_window()
    desk = desk_at(home, clock, checklists or checklists_here())
    try:
        _run(desk, decimal_mark_of(home, os.environ))
    finally:
        desk.close()
        if not desk.closing:  # stopped by the system: nobody could be shown the copy
            back_up_on_leaving(home, clock())


def desk_at(home: Path, clock: Clock, checklists: Mapping[str, str]) -> Desk:
    """Return the desk with the lists that came with the program and the owner's own."""
    own = own_lists(home)
    desk = Desk(home, clock, {**checklists, **own.texts}, cameras=cameras(Path.home()),
                cards=cards_here)  # fmt: skip
    desk.state.faulty_lists = own.faulty
    return desk


def cameras(user: Path) -> tuple[Path, ...]:
    """Return where a tablet's camera and its card may put pictures."""
    card = Path("/storage/emulated/0")
    return tuple(place / name for place in (user, card) for name in ("Pictures", "DCIM"))


def checklists_here() -> dict[str, str]:
    """Return the texts of the checklists that came with the program, the hookup's first."""
    found = {
        path.parent.name: path.read_text(encoding="utf-8")
        for path in sorted(places.checklists().glob("*/checklist.toml"))
    }
    first = {name: text for name, text in found.items() if name == CHECKLIST}
    return {**first, **found}


def shell_of(desk: Desk) -> Shell:
    """Return the widget that shows the desk."""
    from fieldapp.screens.shell import Shell

    return Shell(desk)


def _run(desk: Desk, decimal_mark: str) -> None:
    from kivy.app import App

    from fieldapp.screens import theme

    class FieldApp(App):
        """The application of the window."""

        title = "fieldapp"

        def build(self) -> Shell:
            runtime.register_fonts()
            theme.switch_decimal_mark(decimal_mark)
            return shell_of(desk)

        def on_start(self) -> None:
            from kivy.core.window import Window

            Window.bind(on_request_close=lambda *_: self._keep_open())

        def _keep_open(self) -> bool:
            """Show the last copy before the window closes."""
            if desk.may_close():
                return False
            self.root.show()
            return True

    FieldApp().run()
