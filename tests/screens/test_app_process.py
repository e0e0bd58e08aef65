"""The program as people start it: a window on a display, touched from outside, killed, reopened."""

import os
import signal
import subprocess
import sys
import time
from datetime import datetime
from pathlib import Path

import pytest

from fieldapp.job.events import Begun, MadeSafe
from fieldapp.journal.jobs import Jobs

ROOT = Path(__file__).parents[2]
SHEET = (ROOT / "fieldapp" / "demo" / "sheet.toml").read_text("utf-8")
NUMBER = "SP-T2-2026-01"
PATIENCE = 60

# Where the plates lie on the window, in pixels from its upper left corner.
NEW_JOB, FIRST_ROW, FIRST_PERSON_IN_FRAME = (107, 203), (744, 80), (744, 138)
SAFE_IN_FOOT, STOP_WORD, TANK_VALVES = (279, 743), (225, 240), (640, 240)


def until(condition, what):
    """Wait for something outside; how long it takes is not judged."""
    for _ in range(PATIENCE * 10):
        if condition():
            return
        time.sleep(0.1)
    pytest.fail(f"not seen: {what}")


@pytest.fixture
def display():
    reading, writing = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(writing), "-screen", "0", "1280x800x24", "-nolisten", "tcp"],
        pass_fds=(writing,),
        stderr=subprocess.DEVNULL,
    )
    os.close(writing)
    with os.fdopen(reading) as told:
        number = told.readline().strip()
    yield f":{number}"
    server.terminate()
    server.wait()


@pytest.fixture
def started(display):
    running = []

    def start(home):
        running.append(Outside(home, display))
        return running[-1]

    yield start
    for one in running:
        one.kill()


class Outside:
    """The program in a process of its own, and a hand that knows nothing of its inside."""

    def __init__(self, home, display):
        self.environment = {**os.environ, "DISPLAY": display, "SDL_VIDEODRIVER": "x11"}
        for name in ("KIVY_HOME", "KIVY_METRICS_DENSITY"):
            self.environment.pop(name, None)
        self.process = subprocess.Popen(
            [sys.executable, "-m", "fieldapp", "--home", str(home)],
            cwd=ROOT,
            env=self.environment,
        )
        try:
            until(self.window, "the window")
        except BaseException:
            self.kill()
            raise

    def window(self):
        assert self.process.poll() is None, "the program has ended"
        return self.tool("search", "--onlyvisible", "--class", "python")

    def tool(self, *words):
        done = subprocess.run(
            ["xdotool", *words], env=self.environment, capture_output=True, text=True, check=False
        )
        return done.stdout.strip()

    def touch(self, place):
        self.tool("mousemove", *map(str, place))
        time.sleep(0.2)
        self.tool("mousedown", "1")
        time.sleep(0.1)
        self.tool("mouseup", "1")
        time.sleep(0.5)

    def touch_until(self, places, condition, what):
        """Touch one place after the other, again while nothing comes of it, as people do."""
        for _ in range(PATIENCE):
            for place in places:
                self.touch(place)
                if condition():
                    return
        pytest.fail(f"not seen: {what}")

    def kill(self):
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGKILL)
        self.process.wait()


def entries(home):
    """How many entries the journal on the disk has."""
    found = list((home / "jobs" / NUMBER).glob("*.journal"))
    return sum(path.read_bytes().count(b"\n") for path in found)


def test_killed_and_started_again_nothing_is_lost(tmp_path, started):
    (tmp_path / "sheets").mkdir()
    (tmp_path / "sheets" / "sorrel.toml").write_text(SHEET, encoding="utf-8")
    first = started(tmp_path)
    begin = (NEW_JOB, FIRST_ROW, FIRST_ROW)
    first.touch_until(begin, lambda: entries(tmp_path), "the job has begun")
    begun = entries(tmp_path)
    first.touch(SAFE_IN_FOOT)
    first.touch_until([STOP_WORD], lambda: entries(tmp_path) > begun, "the first stamp")
    stamped = entries(tmp_path)
    first.kill()

    second = started(tmp_path)
    again = (FIRST_ROW, FIRST_PERSON_IN_FRAME, SAFE_IN_FOOT, TANK_VALVES)
    second.touch_until(again, lambda: entries(tmp_path) > stamped, "the second stamp")
    second.kill()

    jobs = Jobs(tmp_path, lambda: datetime.now().astimezone())
    log = jobs.open(NUMBER).job.state.log
    jobs.close()
    assert isinstance(log[0].what, Begun)
    safe = [event.what.done for event in log if isinstance(event.what, MadeSafe)]
    assert safe[0].startswith("Stop word shouted")
    assert safe[-1].startswith("If safe: return tank valve shut")
