"""The card or share to which every job is copied when the window closes."""

import json
import re
import tomllib
from collections.abc import Iterable
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from threading import Thread

from fieldapp.errors import FieldAppError
from fieldapp.handover.backup import NothingToCopyError, copy_all, demand_there
from fieldapp.handover.copying import Copied
from fieldapp.journal.tablets.wording import counted
from fieldapp.whole import write_whole

SETTING = "backup.toml"
OUTCOME = "backup.txt"
NOT_FINISHED = "not finished"
NOTHING_YET = "nothing is kept yet"
_ALL = re.compile(r"(backup \S+: )?(\d+) of \2 files? copied to ")
LONGEST_WAIT = 120.0
"""Seconds that the program stays for a copy once its window is gone; a copy cut short is none."""


class SecondPlaceUnclearError(FieldAppError):
    """The setting does not name a second place."""

    def __init__(self, path: Path) -> None:
        super().__init__(
            f'{path}: does not say where to copy to: write one line, to = "FOLDER", '
            f"or set it with “fieldapp store backup --to FOLDER --always”"
        )
        self.path = path

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return "Where to copy to is not known any more: touch “Second place” and choose it again"


def second_place(home: Path) -> Path | None:
    """Return where jobs are copied to when the window closes; None if nowhere."""
    path = home / SETTING
    if not path.is_file():
        return None
    try:
        found = tomllib.loads(path.read_text(encoding="utf-8")).get("to")
    except (ValueError, OSError) as reason:
        raise SecondPlaceUnclearError(path) from reason
    if not isinstance(found, str) or not found:
        raise SecondPlaceUnclearError(path)
    return Path(found)


def set_second_place(home: Path, place: Path) -> None:
    """Copy to that place from now on, whenever the window closes."""
    home.mkdir(parents=True, exist_ok=True)
    text = f"to = {json.dumps(str(place.absolute()))}\n"  # a text of JSON is one of TOML
    write_whole(home / SETTING, text.encode())


def back_up_on_leaving(home: Path, now: datetime, wait: float = LONGEST_WAIT) -> None:
    """Copy what is kept to the second place, if one is set; never keep anybody waiting for long.

    The window is gone by then. What came of it is written beside the setting.
    """
    if (home / SETTING).is_file():
        copying = Thread(target=_back_up, args=(home, now), daemon=True)
        copying.start()
        copying.join(wait)


def outcome_of(copied: Iterable[Copied], place: Path) -> str:
    """Return in one line how many files were copied, and in further ones what was not."""
    found = list(copied)
    refused = [each.at_tablet for each in found if each.refused]
    many = counted(len(found), "file", "files")
    return "\n".join((f"{len(found) - len(refused)} of {many} copied to {place}", *refused))


def was_whole(outcome: str) -> bool:
    """Say whether an outcome tells of a copy of all there was.

    >>> was_whole("2 of 2 files copied to /media/do not use")
    True
    >>> was_whole("backup 2031-05-04T08:00+02:00: 1 of 2 files copied to /media/card")
    False
    """
    return outcome.endswith(NOTHING_YET) or _ALL.match(outcome) is not None


def last_backup(home: Path) -> str:
    """Return what came of the last copy that was made when the window closed."""
    path = home / OUTCOME
    return path.read_text(encoding="utf-8").strip() if path.is_file() else ""


def note_outcome(home: Path, now: datetime, words: str) -> None:
    """Keep what came of the copy that was made on leaving, for whoever opens the window next."""
    text = f"backup {now.isoformat(timespec='minutes')}: {words}\n"
    with suppress(OSError):  # a full tablet can still be copied from
        write_whole(home / OUTCOME, text.encode())


def _copied(home: Path, place: Path) -> str:
    demand_there(place)
    return outcome_of(copy_all(home, place), place)


def _back_up(home: Path, now: datetime) -> None:
    note_outcome(home, now, NOT_FINISHED)
    try:
        place = second_place(home)
        words = _copied(home, place) if place else "no second place is set"
    except NothingToCopyError:
        words = NOTHING_YET
    except FieldAppError as fault:
        words = fault.at_tablet
    except OSError as fault:
        words = f"not made, {fault.strerror or fault}: look whether the card or share is there"
    note_outcome(home, now, words)
