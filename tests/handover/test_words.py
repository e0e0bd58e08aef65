"""Every failure of journal and hand-over in words: where, what is wrong, what to do; one line."""

import importlib
import pkgutil
import re
from pathlib import Path

import pytest

import fieldapp.handover
import fieldapp.journal
from fieldapp.errors import FieldAppError
from fieldapp.handover.backup import NothingToCopyError, PlaceMissingError
from fieldapp.handover.copying import CopyDiffersError
from fieldapp.handover.errors import HandOverForkedError, HandOverRefusedError, SecondStoryError
from fieldapp.handover.second_place import SecondPlaceUnclearError
from fieldapp.journal.errors import (
    DocumentRefusedError,
    EntriesAreForEverError,
    JournalBusyError,
    JournalDamagedError,
    JournalFormatError,
    JournalOfOtherDeviceError,
    JournalPoisonedError,
    JournalUnavailableError,
    NoSpaceError,
)
from fieldapp.journal.folders import FolderClosedError
from fieldapp.journal.jobs import DeviceUnnamedError, NoSuchJobError, NotBegunError
from fieldapp.journal.pictures import PictureRefusedError
from fieldapp.journal.settling import (
    NoSuchSideError,
    NothingToSettleError,
    SettlementUnnamedError,
)
from fieldapp.journal.tablets.gap import GapUnnamedError, NoGapError
from fieldapp.journal.tablets.story import Branch, Conflict, Kept
from fieldapp.journal.tablets.union import ParallelStoriesError, StoryIncompleteError

JOURNAL = Path("jobs/HK-1/one.journal")
SIDES = Conflict(
    7,
    tuple(
        Branch(device, (Kept(device, 1, 1, {"sequence": 8}, {}),) * many)
        for device, many in (("one", 1), ("two", 3))
    ),
)
FAILURES = [
    CopyDiffersError(JOURNAL),
    DocumentRefusedError("reading", "0.5 is a float; keep it as text, as it was typed"),
    DeviceUnnamedError(Path("home/device")),
    EntriesAreForEverError(JOURNAL, "events", "update"),
    FolderClosedError(Path("home/jobs"), "Permission denied"),
    GapUnnamedError(),
    HandOverForkedError("it holds entries of this tablet (one) that are missing here"),
    HandOverRefusedError("it names a journal twice"),
    JournalBusyError(JOURNAL),
    JournalDamagedError(JOURNAL, 5, "it does not follow from the entry before it"),
    JournalFormatError(JOURNAL, 2, 1),
    JournalOfOtherDeviceError(JOURNAL, "two", "one"),
    JournalPoisonedError(JOURNAL, "the disk did not confirm the last entry (I/O failure)"),
    JournalUnavailableError(JOURNAL, "No such file or directory"),
    NoGapError(JOURNAL, "nothing is missing; open the job"),
    NoSpaceError(JOURNAL),
    NoSuchJobError("HK-2", Path("home")),
    NoSuchSideError("three", ("one", "two")),
    NotBegunError("HK-1"),
    NothingToCopyError(Path("card")),
    NothingToSettleError("HK-1"),
    ParallelStoriesError(SIDES),
    PlaceMissingError(Path("card")),
    PictureRefusedError("bond.jpg", "it is no JPEG or PNG picture"),
    SecondPlaceUnclearError(Path("home/backup.toml")),
    SecondStoryError(SIDES),
    SettlementUnnamedError(),
    StoryIncompleteError(4),
]
UNWELCOME = re.compile(
    r"\b(please|error|invalid|failed|exception|traceback|1 \w+s)\b", re.IGNORECASE
)
WAY_ON = re.compile(
    r"\b(give|open|close|keep|look|remove|insert|name|bring|take|say|set|see|ask|begin|enter|make"
    r"|type|go on|touch|the list of jobs shows"
    r"|there is nothing)\b",
    re.IGNORECASE,
)


def kinds():
    """Every kind of failure that journal and hand-over define."""
    for package in (fieldapp.journal, fieldapp.handover):
        for module in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            held = vars(importlib.import_module(module.name))
            for thing in held.values():
                if isinstance(thing, type) and issubclass(thing, FieldAppError):
                    yield from [thing] if thing.__module__.startswith(package.__name__) else ()


def test_each_kind_is_here():
    assert {type(failure) for failure in FAILURES} == {*kinds()}


@pytest.mark.parametrize("failure", FAILURES, ids=lambda failure: type(failure).__name__)
def test_words_are_one_line_with_a_way_on(failure):
    words = str(failure)
    assert "\n" not in words
    assert not UNWELCOME.search(words)
    assert WAY_ON.search(words)


@pytest.mark.parametrize("failure", FAILURES, ids=lambda failure: type(failure).__name__)
def test_words_at_a_tablet_name_no_folder_no_file_and_no_command(failure):
    words = failure.at_tablet
    assert "\n" not in words
    assert not UNWELCOME.search(words)
    assert not re.search(r"fieldapp|--|jobs/|\bhome\b|\.journal|\.head|\.toml", words)
    assert WAY_ON.search(words)
