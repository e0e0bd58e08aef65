"""Runs the command line in the test's own process, with a told clock and a folder of its own."""

from datetime import datetime

import pytest

from fieldapp.commands.line import World, run

NOW = datetime.fromisoformat("2026-06-16T06:45+02:00")


@pytest.fixture
def fieldapp(tmp_path, capsys):
    """Return a function that runs a command and gives (exit code, output, complaints)."""
    opened = []

    def command(*arguments):
        world = World(lambda: NOW, tmp_path / "home", opened.append)
        code = run([str(argument) for argument in arguments], world)
        written = capsys.readouterr()
        return code, written.out, written.err

    command.opened = opened
    return command
