"""A clock that stands still and journals of this package's tests."""

from datetime import datetime, timedelta, timezone

import pytest

from fieldapp.journal.lines.file import Journal
from fieldapp.journal.store import JobDB

DEVICE = "tablet-7"


def clock():
    return datetime(2031, 5, 4, 8, 30, tzinfo=timezone(timedelta(hours=2)))


@pytest.fixture
def path(tmp_path):
    return tmp_path / "job.journal"


@pytest.fixture
def open_journal(path):
    """Opens the journal again and again; the last one is closed after the test."""
    opened: list[Journal] = []

    def opening(**options):
        while opened:
            opened.pop().close()
        opened.append(Journal(path, **{"device": DEVICE, "clock": clock, **options}))
        return opened[-1]

    yield opening
    while opened:
        opened.pop().close()


@pytest.fixture
def open_store(path):
    """Opens the documents again and again; the last ones are closed after the test."""
    opened: list[JobDB] = []

    def opening(**options):
        while opened:
            opened.pop().close()
        opened.append(JobDB(path, **{"device": DEVICE, "clock": clock, **options}))
        return opened[-1]

    yield opening
    while opened:
        opened.pop().close()
