"""Runs the command line in the test's own process, with a told clock and a folder of its own."""

from datetime import datetime
from pathlib import Path

import click
import pytest

from fieldapp.commands.line import World, run
from tests.crew.offices import SECRET
from tests.screens.signed_jobs import give_keys, keep_signed_job

NOW = datetime.fromisoformat("2026-06-16T06:45+02:00")


class Line:
    """The command line; `opened` lists the homes on which the window was opened."""

    def __init__(self, home, capsys):
        self.home = home
        self.capsys = capsys
        self.opened: list[Path] = []

    def __call__(self, *arguments):
        """Run a command; return (exit code, output, complaints)."""
        world = World(lambda: NOW, self.home, self.opened.append)
        code = run([str(argument) for argument in arguments], world)
        written = self.capsys.readouterr()
        return code, written.out, written.err


@pytest.fixture
def fieldapp(tmp_path, capsys):
    """Return the command line."""
    return Line(tmp_path / "home", capsys)


@pytest.fixture
def number(fieldapp):
    give_keys(fieldapp.home)
    return keep_signed_job(fieldapp.home)


@pytest.fixture
def asked(monkeypatch):
    """List what secrets were asked for; each is given rightly."""
    prompts = []

    def prompt(words, **_):
        prompts.append(words)
        return SECRET

    monkeypatch.setattr(click, "prompt", prompt)
    monkeypatch.setattr(click, "confirm", lambda words, **_: bool(prompt(words)))
    return prompts
