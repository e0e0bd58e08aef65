"""Where the files that come with the program lie, in a checkout and when installed."""

from pathlib import Path


def assets() -> Path:
    """Return the folder of fonts and pictures."""
    return _folder("assets")


def checklists() -> Path:
    """Return the folder with one folder for each checklist."""
    return _folder("checklists")


def _folder(name: str) -> Path:
    package = Path(__file__).parent
    installed = package / name
    return installed if installed.is_dir() else package.parent / name
