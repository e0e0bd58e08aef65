"""A folder that is closed to us is named; it is never taken for an empty one."""

import errno
from pathlib import Path

import pytest

from fieldapp.errors import FieldAppError
from fieldapp.journal.folders import (
    FolderClosedError,
    is_name,
    job_folders,
    journals_in,
    looked_into,
)
from fieldapp.journal.jobs import Jobs, journals_of, numbers_in
from fieldapp.journal.pictures import check
from fieldapp.journal.settling import conflict_in
from fieldapp.journal.tablets.union import other_journals
from tests.actions.play import BEGIN


@pytest.fixture
def closing(monkeypatch):
    """Closes a folder to whoever asks what lies in it, the system's keeper included."""

    def close(folder):
        look = Path.iterdir

        def refusing(path):
            if path == folder:
                raise PermissionError(errno.EACCES, "Permission denied", str(path))
            return look(path)

        monkeypatch.setattr(Path, "iterdir", refusing)

    return close


@pytest.fixture
def home(tmp_path):
    for number in ("A-1", "B-2"):
        (tmp_path / "jobs" / number).mkdir(parents=True)
        (tmp_path / "jobs" / number / "one.journal").touch()
    (tmp_path / "jobs" / "empty").mkdir()
    (tmp_path / "jobs" / "a file").touch()
    return tmp_path


def test_jobs_are_the_folders_with_a_journal(home):
    assert numbers_in(home) == ("A-1", "B-2")
    assert numbers_in(home / "nowhere") == ()
    assert [path.name for path in journals_of(home, "A-1")] == ["one.journal"]


def test_closed_job_stays_on_the_list_and_says_why_it_cannot_be_opened(home, closing):
    closing(home / "jobs" / "A-1")
    assert numbers_in(home) == ("A-1", "B-2")
    jobs = Jobs(home, lambda: BEGIN)
    with pytest.raises(
        FolderClosedError, match=r"A-1: cannot be looked into \(Permission denied\)"
    ):
        jobs.open("A-1")


@pytest.mark.parametrize(
    "ask",
    [
        journals_in,
        looked_into,
        conflict_in,
        lambda folder: other_journals(folder, "one"),
        lambda folder: check(folder.parent, {}),
    ],
    ids=["journals", "all", "stories", "others", "pictures"],
)
def test_closed_folder_is_not_an_empty_one(home, closing, ask):
    closed = home / "jobs" / "A-1" / "pictures"  # a folder of a job, or of its pictures
    closed.mkdir()
    closing(closed)
    with pytest.raises(FolderClosedError):
        ask(closed)


def test_home_whose_jobs_are_closed_is_not_an_empty_one(home, closing):
    closing(home / "jobs")
    for ask in (job_folders, numbers_in):
        with pytest.raises(FieldAppError, match="Ask for the right to read it"):
            ask(home)


@pytest.mark.parametrize("name", ["tablet-1a2b3c4d", "HK-2031.04", "a", "console", "com10"])
def test_name_that_every_disk_keeps(name):
    assert is_name(name)


@pytest.mark.parametrize(
    "name",
    [
        "",
        ".",
        "..",
        "a/b",
        "a\\b",
        ".a",
        "-a",
        "a.",
        "a ",
        "é",
        "a\n",
        "con",
        "NUL.x",
        "Com1",
        "a" * 121,
    ],
)
def test_name_that_some_disk_cannot_keep(name):
    assert not is_name(name)
