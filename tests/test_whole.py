"""A file is there with all of its content, or it is not there."""

import errno
import os
import stat
from pathlib import Path

import pytest

from fieldapp.whole import OWN, whole_file, write_whole


def test_content_is_there_and_nothing_beside_it(tmp_path):
    path = tmp_path / "new folder" / "file"
    for content in (b"old and longer", b"new"):
        write_whole(path, content)
        assert path.read_bytes() == content
    assert [*path.parent.iterdir()] == [path]


def test_file_that_is_cut_short_leaves_the_old_one_and_nothing_beside_it(tmp_path):
    path = tmp_path / "file"
    write_whole(path, b"old")

    def cut_short():
        with whole_file(path) as file:
            file.write(b"new, but n")
            raise RuntimeError("stopped")

    with pytest.raises(RuntimeError, match="stopped"):
        cut_short()
    assert path.read_bytes() == b"old"
    assert [*tmp_path.iterdir()] == [path]


def test_disk_that_is_full_is_told_of_the_file_that_people_know(tmp_path, monkeypatch):
    def full(_):
        raise OSError(errno.ENOSPC, "no space")

    monkeypatch.setattr("fieldapp.whole.os.fsync", full)
    with pytest.raises(OSError, match="no space") as told:
        write_whole(tmp_path / "file", b"new")
    assert told.value.filename == str(tmp_path / "file")
    assert [*tmp_path.iterdir()] == []


def test_fault_of_another_file_keeps_its_name(tmp_path):
    def other():
        with whole_file(tmp_path / "file"):
            (tmp_path / "gone").read_bytes()

    with pytest.raises(FileNotFoundError) as told:
        other()
    assert told.value.filename == str(tmp_path / "gone")


def test_key_is_for_its_owner_alone(tmp_path):
    write_whole(tmp_path / "key", b"secret", OWN)
    assert (tmp_path / "key").stat().st_mode & 0o777 == 0o600


@pytest.fixture
def synced(monkeypatch):
    """List the folders that were put on the disk, oldest first."""
    folders: list[Path] = []
    monkeypatch.setattr("fieldapp.whole.sync_folder", folders.append)
    return folders


def test_names_of_new_folders_are_put_on_the_disk_too(tmp_path, synced):
    write_whole(tmp_path / "jobs" / "A-1" / "file", b"new")
    assert {tmp_path, tmp_path / "jobs", tmp_path / "jobs" / "A-1"} == {*synced}
    synced.clear()
    write_whole(tmp_path / "jobs" / "A-1" / "file", b"newer")
    assert synced == [tmp_path / "jobs" / "A-1"]


@pytest.mark.parametrize("number", [errno.EINVAL, errno.ENOTSUP])
def test_share_that_cannot_be_asked_to_sync_a_folder_still_takes_files(
    tmp_path, monkeypatch, number
):
    sync = os.fsync

    def of_files_alone(file):
        if stat.S_ISDIR(os.fstat(file).st_mode):
            raise OSError(number, "no such call")
        sync(file)

    monkeypatch.setattr("fieldapp.whole.os.fsync", of_files_alone)
    write_whole(tmp_path / "file", b"new")
    assert (tmp_path / "file").read_bytes() == b"new"


def test_folder_that_does_not_reach_the_disk_is_told(tmp_path, monkeypatch):
    def failing(file):
        if stat.S_ISDIR(os.fstat(file).st_mode):
            raise OSError(errno.EIO, "the disk does not answer")

    monkeypatch.setattr("fieldapp.whole.os.fsync", failing)
    with pytest.raises(OSError, match="does not answer"):
        write_whole(tmp_path / "file", b"new")
