"""Files and folders that people name on the command line, and new files written there."""

import os
from pathlib import Path

import click

from fieldapp.errors import FieldAppError
from fieldapp.whole import write_whole


class FileIsThereError(FieldAppError):
    """A new file was to be written where one is already."""

    def __init__(self, path: Path) -> None:
        super().__init__(f"{path} is there already: name a new file")
        self.path = path


def place(text: str) -> Path:
    """Return a place to read from; what is there is found out by whoever reads it."""
    if not text.strip():
        raise click.BadParameter("the name is empty: give one.")
    return Path(text)


def folder(text: str) -> Path:
    """Return a folder, which need not be there yet."""
    if os.path.isfile(text):  # noqa: PTH113 - Path.is_file stops where it may not look
        raise click.BadParameter(f"{text} is a file: name a folder.")
    return place(text)


def file(text: str) -> Path:
    """Return a file, which need not be there yet."""
    if os.path.isdir(text):  # noqa: PTH112 - as above
        raise click.BadParameter(f"{text} is a folder: name a file in it.")
    return place(text)


def demand_new(path: Path) -> None:
    """Refuse to write over a file, before anybody waits for what goes into it."""
    if path.exists():
        raise FileIsThereError(path)


def write_new(path: Path, content: bytes) -> None:
    """Write a file that is not there yet, whole or not at all."""
    demand_new(path)
    write_whole(path, content)
