"""Which jobs and journals lie in a folder; one that is closed to us is never an empty one."""

import re
from pathlib import Path

from fieldapp.errors import FieldAppError

JOBS, ENDING = "jobs", ".journal"

# Room for a job's own number (40), the id of the list that follows it (60) and its count.
_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,119}")
# Names that Windows keeps for devices, with any ending (Microsoft, “Naming Files, Paths, and
# Namespaces”).
_KEPT_BY_WINDOWS = re.compile(r"(CON|PRN|AUX|NUL|COM[0-9]|LPT[0-9])(\..*)?", re.IGNORECASE)


class FolderClosedError(FieldAppError):
    """The system does not let a folder be looked into."""

    def __init__(self, folder: Path, why: str) -> None:
        super().__init__(
            f"{folder}: cannot be looked into ({why}). What lies there is as it was. Ask for the "
            f"right to read it, or look whether the disk, card or share is whole"
        )
        self.folder = folder
        self.why = why

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return (
            f"Its folder cannot be looked into ({self.why.lower()}). Nothing was changed: give "
            f"the tablet to the office"
        )


def is_name(name: str) -> bool:
    """Whether every system can keep a file or a folder of this name, and keep it apart."""
    plain = _NAME.fullmatch(name) and not name.endswith(".")
    return bool(plain) and not _KEPT_BY_WINDOWS.fullmatch(name)


def looked_into(folder: Path) -> tuple[Path, ...]:
    """All that lies in a folder, by name; nothing if there is no such folder."""
    try:
        return tuple(sorted(folder.iterdir()))
    except (FileNotFoundError, NotADirectoryError):
        return ()
    except OSError as problem:
        raise FolderClosedError(folder, problem.strerror or str(problem)) from problem


def job_folders(home: Path) -> tuple[Path, ...]:
    """Whatever lies where the folders of the jobs lie."""
    return looked_into(home / JOBS)


def journals_in(folder: Path) -> tuple[Path, ...]:
    """The journals of a job, one a device."""
    return tuple(path for path in looked_into(folder) if path.suffix == ENDING)


def may_hold_jobs(home: Path) -> bool:
    """Whether a home has a job, or cannot be looked into: copying it then says why."""
    try:
        return any(may_hold_a_job(folder) for folder in job_folders(home))
    except FolderClosedError:
        return True


def may_hold_a_job(folder: Path) -> bool:
    """Whether a folder has a journal, or cannot be looked into: opening it then says why."""
    try:
        return bool(journals_in(folder))
    except FolderClosedError:
        return True
