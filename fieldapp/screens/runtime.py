"""What must be settled before the first window: environment, window settings and fonts."""

from __future__ import annotations

import logging
import os
from pathlib import Path

from fieldapp import places

_ENVIRONMENT = {
    "KIVY_NO_ARGS": "1",
    "KIVY_LOG_MODE": "PYTHON",
    "KIVY_NO_FILELOG": "1",
    "KIVY_NO_CONSOLELOG": "1",
}
_GRAPHICS = {
    "multisamples": "0",
    "width": "1280",
    "height": "800",
    "minimum_width": "800",
    "minimum_height": "800",
}


def prepare_environment(home: Path) -> None:
    """Set what Kivy reads at its first import; call this before anything imports kivy."""
    home.mkdir(parents=True, exist_ok=True)
    os.environ["KIVY_HOME"] = str(home)
    for name, value in _ENVIRONMENT.items():
        os.environ.setdefault(name, value)
    # What Kivy notes by itself is not for the crew.
    logging.getLogger("kivy").addHandler(logging.NullHandler())


def prepare_window(width: int = 1280, height: int = 800) -> None:
    """Set the window's configuration; call this before the window is made."""
    from kivy.config import Config

    for name, value in _GRAPHICS.items():
        Config.set("graphics", name, value)
    Config.set("graphics", "width", str(width))
    Config.set("graphics", "height", str(height))
    Config.set("kivy", "exit_on_escape", "0")
    if Config.has_option("input", "mouse"):
        Config.set("input", "mouse", "mouse,disable_multitouch")


def register_fonts() -> None:
    """Make B612, regular and bold, known under the name the theme uses."""
    from kivy.core.text import LabelBase

    from fieldapp.screens import theme

    regular, bold = (str(font_file(weight)) for weight in ("Regular", "Bold"))
    LabelBase.register(theme.FONT, fn_regular=regular, fn_bold=bold)


def font_file(weight: str) -> Path:
    """The file of one weight of B612, "Regular" or "Bold"."""
    return places.assets() / "fonts" / f"B612-{weight}.otf"
