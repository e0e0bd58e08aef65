"""Tests of what a journal asks of the disk."""

import errno

import pytest

from fieldapp.journal.errors import JournalUnavailableError
from fieldapp.journal.lines import disk
from fieldapp.whole import write_whole


@pytest.fixture
def path(tmp_path):
    return tmp_path / "file"


@pytest.mark.parametrize("at_once", [1, 2, 1000])
def test_all_is_written_though_the_disk_takes_a_part_at_a_time(path, at_once):
    write_whole(path, b"0123456789")
    with path.open("r+b", buffering=0) as file:
        disk.write_all(file, 4, b"abcdefgh", lambda file, part: file.write(part[:at_once]))
    assert path.read_bytes() == b"0123abcdefgh"


def test_created_file_has_its_content_and_leaves_nothing_beside(path):
    write_whole(path, b"content")
    assert path.read_bytes() == b"content"
    assert [*path.parent.iterdir()] == [path]


def test_cut_removes_the_end_and_syncs(path):
    write_whole(path, b"0123456789")
    synced = []
    with path.open("r+b", buffering=0) as file:
        disk.cut(file, 4, lambda file: synced.append(path.read_bytes()))
    assert synced == [b"0123"]


def test_missing_file_has_no_content(path):
    assert disk.content(path) == b""


@pytest.mark.parametrize(
    ("number", "lack"),
    [(errno.ENOSPC, True), (errno.EDQUOT, True), (errno.EFBIG, True), (errno.EIO, False)],
    ids=["disk full", "quota", "file limit", "failing disk"],
)
def test_lack_of_space_is_told_from_a_failing_disk(number, lack):
    assert disk.is_lack_of_space(OSError(number, "")) is lack


def test_free_name_is_never_one_that_is_taken(path):
    names = []
    for _ in range(3):
        names.append(disk.free_name(path).name)
        disk.free_name(path).touch()
    assert names == ["file.torn-1", "file.torn-2", "file.torn-3"]


def test_trouble_is_named_with_the_file_and_the_way_on(path):
    with (
        pytest.raises(JournalUnavailableError, match="its folder is there") as caught,
        disk.named_trouble(path),
    ):
        path.read_bytes()
    assert caught.value.path == path
    assert str(path) in str(caught.value)
