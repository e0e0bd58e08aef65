"""One real window off the screen for all tests of screens, and a driver with a fake clock."""

import pytest
from kivy.config import Config

from fieldapp.screens import runtime

SIZE = (1280, 800)

# Some modules of Kivy make the window when they are imported: its settings come before any test.
runtime.prepare_window(*SIZE)
for setting, value in {"maxfps": 0, "vsync": 0, "resizable": 0, "show_cursor": 0}.items():
    Config.set("graphics", setting, str(value))
for provider, _ in Config.items("input"):
    Config.remove_option("input", provider)


@pytest.fixture(scope="session")
def window():
    from kivy.core.window import Window

    assert Window is not None
    assert tuple(Window.size) == SIZE
    runtime.register_fonts()
    return Window


@pytest.fixture
def driver(window):
    from kivy.base import EventLoop, runTouchApp
    from kivy.clock import Clock

    from fieldapp.screens import theme
    from tests.screens.driver import Driver, FakeTime

    fake, real = FakeTime(), Clock.time
    Clock._max_fps = 0  # noqa: SLF001
    Clock.time = fake
    Clock._last_tick = Clock._start_tick = fake()  # noqa: SLF001
    theme.switch_look(theme.SUN)
    window.clearcolor = theme.colour("paper")
    if EventLoop.status != "started":
        runTouchApp(embedded=True)
    made = Driver(fake)
    made.frames(2)
    yield made
    for child in list(window.children):
        window.remove_widget(child)
    for event in Clock.get_events():
        event.cancel()
    theme.switch_look(theme.SUN)
    EventLoop.quit = False
    Clock.time = real


@pytest.fixture
def card(tmp_path):
    """A card that is plugged in."""
    made = tmp_path / "card"
    made.mkdir()
    return made


@pytest.fixture
def number(tmp_path):
    """The number of a small job, signed off, on a tablet."""
    from tests.screens.signed_jobs import keep_signed_job

    return keep_signed_job(tmp_path / "home")


@pytest.fixture
def other(tmp_path, card):
    """Another tablet, with nothing on it."""
    from tests.screens.signed_jobs import Tablet

    made = Tablet(tmp_path / "other")
    made.state.cards = lambda: (card,)
    yield made
    made.close()
