"""In a narrow terminal sentences are broken between words; a file gets the lines as they are."""

import os
import pty
import struct
import subprocess
import sys
from fcntl import ioctl
from termios import TIOCSWINSZ

import pytest

from fieldapp.demo.player import sheet_text

COLUMNS = 60


def on_terminal(*arguments):
    """Run a command in a terminal of 60 columns; return the lines that it shows."""
    ours, theirs = pty.openpty()
    ioctl(theirs, TIOCSWINSZ, struct.pack("HHHH", 24, COLUMNS, 0, 0))
    command = [sys.executable, "-m", "fieldapp", *map(str, arguments)]
    words = {key: value for key, value in os.environ.items() if key != "COLUMNS"}
    with subprocess.Popen(command, stdout=theirs, env=words) as running:
        os.close(theirs)
        shown = b""
        while True:
            try:
                more = os.read(ours, 4096)
            except OSError:  # the other end is closed
                break
            shown += more
        assert running.wait() == 0
    os.close(ours)
    return shown.decode().replace("\r", "").splitlines()


@pytest.fixture
def sheet(tmp_path):
    path = tmp_path / "sheet.toml"
    path.write_text(sheet_text(), encoding="utf-8")
    return path


@pytest.mark.parametrize("arguments", [("plan", None), ("calc", "hold_test")], ids=lambda a: a[0])
def test_lines_are_no_wider_than_the_terminal(fieldapp, sheet, arguments):
    arguments = [sheet if each is None else each for each in arguments]
    narrow = on_terminal(*arguments)
    assert max(map(len, narrow)) <= COLUMNS
    wide = fieldapp(*arguments)[1]
    assert max(map(len, wide.splitlines())) > COLUMNS
    assert "".join("".join(narrow).split()) == "".join(wide.split())
