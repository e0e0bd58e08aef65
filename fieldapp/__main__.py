"""The start: reads clock, arguments and places, and hands them on."""

import sys
from datetime import datetime
from pathlib import Path

from platformdirs import user_data_path

from fieldapp.commands.line import World, run


def now() -> datetime:
    """Return the time by this device's clock, to the second, with its offset."""
    return datetime.now().astimezone().replace(microsecond=0)


def open_window(home: Path) -> None:
    """Open the tablet's window on the jobs below `home`."""
    from fieldapp.screens.app import run as run_window

    run_window(home, now)


def main() -> None:
    """Run the command line, or the window when there is no command."""
    home = user_data_path("fieldapp", appauthor=False)
    sys.exit(run(sys.argv[1:], World(now, home, open_window)))


if __name__ == "__main__":
    main()
