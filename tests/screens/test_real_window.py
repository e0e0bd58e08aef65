"""The program as a process in a real window, driven from outside, killed, and started again."""

import os
import signal
import subprocess
import sys
import time
from datetime import datetime

import pytest
from PIL import ImageGrab

from fieldapp.crew.tablet.request import read_request
from fieldapp.demo.player import sheet_text
from fieldapp.job.events import MadeSafe
from fieldapp.journal.jobs import Jobs

PATIENCE = 60
NEW_JOB, FIRST_ROW, MAIN_PLATE = (107, 203), (700, 80), (1140, 742)
TEXT_FIELD, KEEP_TEXT, KEEP_NUMBER, NEXT_DAY = (900, 140), (1040, 345), (1193, 540), (1193, 321)
FIRST_PERSON, MAKE_SAFE, TANK_VALVES = (744, 138), (279, 743), (640, 240)
PEOPLE_AND_KEYS, MAKE_A_KEY, SECRET_FIELD, GIVE = (107, 495), (107, 420), (500, 185), (1036, 727)
SECRET = "lamp by the river"
KEYS = {
    digit: (546 + 146 * column + 63, 258 + 146 * row + 63)
    for row, digits in enumerate(("789", "456", "123"))
    for column, digit in enumerate(digits)
} | {"0": (546 + 146 * 3 + 63, 258 + 146 * 2 + 63)}
NUMBER = "SP-T2-2026-01"


class Outside:
    """A person at the screen: sees the picture, touches, types."""

    def __init__(self, display):
        self.display = display

    def picture(self):
        return ImageGrab.grab(xdisplay=self.display).tobytes()

    def xdotool(self, *arguments):
        subprocess.run(
            ["xdotool", *map(str, arguments)], check=True,
            env={**os.environ, "DISPLAY": self.display},
        )  # fmt: skip

    def until_it_changes(self, before):
        """Wait until the picture differs from before and stands still."""
        end = time.monotonic() + PATIENCE
        last = before
        while time.monotonic() < end:
            time.sleep(0.25)
            now = self.picture()
            if now != before and now == last:
                return
            last = now
        raise AssertionError("the screen did not change")

    def touch(self, place):
        before = self.picture()
        self.xdotool("mousemove", *place)
        time.sleep(0.05)
        self.xdotool("mousedown", 1)
        time.sleep(0.1)
        self.xdotool("mouseup", 1)
        self.until_it_changes(before)

    def type(self, text):
        before = self.picture()
        self.xdotool("type", "--delay", 80, text)
        self.until_it_changes(before)


@pytest.fixture
def display():
    """Return the name of a screen of its own, 1280 x 800."""
    reading, writing = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(writing), "-screen", "0", "1280x800x24", "-nolisten", "tcp"],
        pass_fds=(writing,), stderr=subprocess.DEVNULL,
    )  # fmt: skip
    os.close(writing)
    with os.fdopen(reading) as told:
        name = f":{told.readline().strip()}"
    yield name
    server.terminate()
    server.wait()


@pytest.fixture
def start(display, tmp_path):
    """Return a function that starts the program on the screen and waits for its first picture."""
    running = []
    outside = Outside(display)

    def begin():
        dark = outside.picture()
        program = subprocess.Popen(
            [sys.executable, "-m", "fieldapp", "--home", str(tmp_path)],
            env={**os.environ, "DISPLAY": display, "SDL_VIDEODRIVER": "x11",
                 "LIBGL_ALWAYS_SOFTWARE": "1"},
        )  # fmt: skip
        running.append(program)
        outside.until_it_changes(dark)
        return program, outside

    yield begin
    for program in running:
        program.kill()
        program.wait()


def kept_in(home):
    """Return what each entry holds and what was made safe, as the journal on the disk says."""
    jobs = Jobs(home, lambda: datetime.now().astimezone())
    state = jobs.open(NUMBER).job.state
    jobs.close()
    given = {entry: found[-1].fields["value"] for entry, found in state.given.items()}
    return given, [what.done for event in state.log if isinstance(what := event.what, MadeSafe)]


def kill(program):
    program.send_signal(signal.SIGKILL)
    program.wait()


def test_killed_in_the_middle_of_the_work_nothing_is_lost(start, tmp_path):
    (tmp_path / "sheets").mkdir()
    (tmp_path / "sheets" / "sorrel-pass.toml").write_text(sheet_text(), encoding="utf-8")
    program, outside = start()
    outside.touch(NEW_JOB)
    outside.touch(FIRST_ROW)  # the sheet
    outside.touch(FIRST_ROW)  # Maren Holtby, technician
    outside.touch(MAIN_PLATE)  # the first step
    outside.touch(MAIN_PLATE)  # its first entry
    for words in ("P-26-04", "E. Strand"):
        outside.touch(TEXT_FIELD)
        outside.type(words)
        outside.touch(KEEP_TEXT)
    outside.touch(NEXT_DAY)
    for digit in "1830":
        outside.touch(KEYS[digit])
    outside.touch(KEEP_NUMBER)
    kill(program)
    kept, _ = kept_in(tmp_path)
    assert kept["permit_number"] == "P-26-04"
    assert kept["permit_issuer"] == "E. Strand"
    assert kept["permit_ends"].endswith("18:30")

    program, outside = start()
    outside.touch(FIRST_ROW)  # the job is there again
    outside.touch(FIRST_PERSON)
    outside.touch(MAKE_SAFE)
    outside.touch(TANK_VALVES)
    kill(program)
    again, safe = kept_in(tmp_path)
    assert again == kept
    assert [done.partition(":")[0] for done in safe] == ["If safe"]


def until(there):
    """Wait until something is there."""
    end = time.monotonic() + PATIENCE
    while not (found := there()):
        assert time.monotonic() < end, "it never came"
        time.sleep(0.25)
    return found


def test_key_is_made_by_touch_and_its_secret_stands_nowhere(start, tmp_path):
    program, outside = start()
    outside.touch(PEOPLE_AND_KEYS)
    outside.touch(MAKE_A_KEY)
    for words in ("Maren Holtby", SECRET, SECRET):
        outside.touch(SECRET_FIELD)
        outside.type(words)
        outside.touch(GIVE)
    (request,) = until(lambda: list((tmp_path / "for-office").glob("*.pem")))
    kill(program)
    assert read_request(request).name == "Maren Holtby"
    assert list((tmp_path / "keys").iterdir())
    for path in tmp_path.rglob("*"):
        assert path.is_dir() or SECRET.encode() not in path.read_bytes()
