"""Makes the pictures of the guide anew: `python -m tests.pictures` (with a screen, or xvfb-run)."""

import subprocess
import tempfile
from pathlib import Path

from fieldapp.demo.player import play
from fieldapp.demo.recording import write_record
from fieldapp.places import assets

PIXELS_PER_INCH = 75
STAGE = ("12:36:30", "12:36:41")
"""The second evacuation of the demo: its last reading, and the time on the screen."""


def evacuate(path: Path) -> None:
    """Write the evacuation screen as it stood at one moment of the demo."""
    from kivy.base import EventLoop, runTouchApp

    from fieldapp.screens import runtime
    from tests.screens import conftest  # sets the window up before it is made
    from tests.screens.driver import Driver, FakeTime
    from tests.screens.test_trace_view import viewed

    assert conftest.SIZE
    runtime.register_fonts()
    from kivy.core.window import Window

    from fieldapp.screens import theme
    from fieldapp.screens.timed.trace import TraceScreen

    Window.clearcolor = theme.colour("paper")
    runTouchApp(embedded=True)
    assert EventLoop.status == "started"
    driver = Driver(FakeTime())
    driver.show(TraceScreen()).show(viewed(*STAGE))
    driver.frames(30)
    driver.shot(path)


def first_page(path: Path) -> None:
    """Write the first page of the demo's signed record."""
    with tempfile.TemporaryDirectory() as folder:
        jobs = play(Path(folder), lambda _: None)
        record = write_record(Path(folder), jobs.open(jobs.numbers()[0]))
        jobs.close()
        command = ["pdftoppm", "-r", str(PIXELS_PER_INCH), "-png", "-l", "1", "-singlefile"]
        subprocess.run([*command, record, path.with_suffix("")], check=True)


if __name__ == "__main__":
    pictures = assets() / "pictures"
    evacuate(pictures / "evacuate.png")
    first_page(pictures / "record.png")
