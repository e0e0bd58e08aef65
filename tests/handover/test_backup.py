"""A backup is a verified copy; neither way is anything newer or different overwritten."""

import errno
from pathlib import Path

import pytest

from fieldapp.handover.backup import NothingToCopyError, copy_all, files_below
from fieldapp.handover.copying import CopyDiffersError, copy_journal, write_journal
from fieldapp.journal.jobs import Jobs
from fieldapp.journal.lines.reading import inspect
from tests.actions.play import BEGIN
from tests.handover.conftest import NUMBER


def copied(source, target):
    return [each.refused for each in copy_all(source, target)]


@pytest.fixture
def one(tablet):
    return tablet("one", begun=True)


@pytest.fixture
def card(tmp_path, one):
    assert copied(one.home, tmp_path / "card") == [""]
    return tmp_path / "card"


def test_backup_holds_the_journal_and_its_head(one, card):
    there = card / "jobs" / NUMBER / "one.journal"
    assert there.read_bytes() == one.journal.read_bytes()
    found = inspect(there)
    assert (found.words, found.saved) == ("", found.chain.head)


def test_backup_that_is_restored_on_an_empty_tablet_opens_there(one, card, tablet):
    other = tablet("other")
    assert copied(card, other.home) == [""]
    assert other.log() == one.log()


def test_later_backup_replaces_the_earlier_one(one, card):
    one.permit("18:00")
    assert copied(one.home, card) == [""]
    assert len(inspect(card / "jobs" / NUMBER / "one.journal").bodies) == 2
    assert copied(one.home, card) == [""]


def test_restoring_never_overwrites_a_newer_journal(one, card):
    one.permit("18:00")
    before = one.files()
    (refused,) = copied(card, one.home)
    assert "newer by 1 entry than" in refused
    assert one.files() == before


@pytest.mark.parametrize("way", ["backup", "restore"])
def test_another_story_is_refused_both_ways(one, card, tablet, way):
    one.permit("18:00")
    twin = card / "jobs" / NUMBER / "one.journal"
    other = tablet("twin")
    (other.home / "device").write_text("one\n")
    copied(card, other.home)
    other.permit("17:00")
    write_journal(inspect(other.home / "jobs" / NUMBER / "one.journal").raw, twin)
    before = one.files(), twin.read_bytes()
    places = (one.home, card) if way == "backup" else (card, one.home)
    (refused,) = copied(*places)
    assert "another story" in refused
    assert (one.files(), twin.read_bytes()) == before


def test_damaged_journal_is_not_copied_over_a_sound_backup(one, card):
    sound = (card / "jobs" / NUMBER / "one.journal").read_bytes()
    one.journal.write_bytes(one.journal.read_bytes()[:-10])
    (refused,) = copied(one.home, card)
    assert "saved entry is missing" in refused
    assert (card / "jobs" / NUMBER / "one.journal").read_bytes() == sound


def test_damaged_backup_is_left_for_the_office(one, card):
    there = card / "jobs" / NUMBER / "one.journal"
    there.write_bytes(b"x" + there.read_bytes())
    (refused,) = copied(one.home, card)
    assert refused.startswith("left as it is: ")
    assert there.read_bytes().startswith(b"x")


def test_end_that_was_never_acknowledged_is_not_copied(one, tmp_path):
    whole = one.journal.read_bytes()
    one.journal.write_bytes(whole + b'["to')
    assert copied(one.home, tmp_path / "card") == [""]
    assert (tmp_path / "card" / "jobs" / NUMBER / "one.journal").read_bytes() == whole


def test_journal_that_is_open_is_not_restored_over(one, card):
    jobs = Jobs(one.home, lambda: BEGIN)
    jobs.open(NUMBER)
    assert copied(one.home, card) == [""]
    (refused,) = copied(card, one.home)
    assert "open in another window or program" in refused
    jobs.close()


def test_disk_that_gives_back_something_else_is_told(one, tmp_path, monkeypatch):
    monkeypatch.setattr(
        "fieldapp.handover.copying.write_whole", lambda path, content: path.write_bytes(b"other")
    )
    with pytest.raises(CopyDiffersError, match="take another one"):
        copy_journal(one.journal, tmp_path / "copy.journal")


def test_lost_journal_is_restored_if_the_backup_holds_all_that_was_saved(one, card):
    one.journal.unlink()
    assert copied(card, one.home) == [""]
    one.permit("18:00")
    one.journal.unlink()
    (refused,) = copied(card, one.home)
    assert "entries up to number 2 were saved there" in refused
    assert not one.journal.exists()


def test_place_without_journals_is_named(tmp_path):
    with pytest.raises(NothingToCopyError, match="holds no journals"):
        files_below(tmp_path)


@pytest.mark.parametrize("known", [True, False], ids=["over an older one", "for the first time"])
def test_copy_cut_short_before_its_head_is_made_once_more(one, tmp_path, monkeypatch, known):
    if known:
        copied(one.home, tmp_path / "card")
    one.permit("18:00")

    def cut(_):
        raise KeyboardInterrupt

    monkeypatch.setattr("fieldapp.handover.copying.both_places", cut)
    with pytest.raises(KeyboardInterrupt):
        copied(one.home, tmp_path / "card")
    monkeypatch.undo()
    assert inspect(tmp_path / "card" / "jobs" / NUMBER / "one.journal").words == ""
    assert copied(one.home, tmp_path / "card") == [""]


@pytest.mark.parametrize(
    ("closed", "words"),
    [(".", f"Job {NUMBER}: its folder cannot be looked into"),
     ("pictures", f"Job {NUMBER}, its pictures: its folder cannot be looked into")],
)  # fmt: skip
def test_folder_that_is_closed_is_named_and_the_copy_is_not_called_whole(
    one, tmp_path, monkeypatch, closed, words
):
    folder, look = one.journal.parent / closed, Path.iterdir
    folder.mkdir(exist_ok=True)

    def refusing(path):
        if path == folder:
            raise PermissionError(errno.EACCES, "Permission denied")
        return look(path)

    monkeypatch.setattr(Path, "iterdir", refusing)
    found = [each for each in copy_all(one.home, tmp_path / "card") if each.refused]
    assert [each.at_tablet.partition(" (")[0] for each in found] == [words]
    assert "Ask for the right to read it" in found[0].refused
