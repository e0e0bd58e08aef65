"""One real window off the screen for all tests of screens, and a driver with a fake clock."""

import pytest

SIZE = (1280, 800)


@pytest.fixture(scope="session")
def window():
    from kivy.config import Config

    from fieldapp.screens import runtime

    runtime.prepare_window(*SIZE)
    for name, value in {"maxfps": 0, "vsync": 0, "resizable": 0, "show_cursor": 0}.items():
        Config.set("graphics", name, str(value))
    for name, _ in Config.items("input"):
        Config.remove_option("input", name)
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
    Clock._max_fps = 0
    Clock.time = fake
    Clock._last_tick = Clock._start_tick = fake()
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
