"""Everything is copied to the second place when the window closes, and nobody waits for it."""

from threading import Event as Signal

import pytest

from fieldapp.handover import second_place as leaving
from fieldapp.handover.copying import Copied
from fieldapp.handover.second_place import (
    OUTCOME,
    SETTING,
    SecondPlaceUnclearError,
    back_up_on_leaving,
    last_backup,
    outcome_of,
    second_place,
    set_second_place,
)
from fieldapp.screens import app, runtime
from tests.actions.play import BEGIN
from tests.handover.conftest import NUMBER


@pytest.fixture
def one(tablet):
    return tablet("one", begun=True)


@pytest.fixture
def card(one, tmp_path):
    """A second place that is set."""
    (tmp_path / "card").mkdir()
    set_second_place(one.home, tmp_path / "card")
    return tmp_path / "card"


def test_nothing_is_copied_where_no_second_place_is_set(one):
    before = one.files()
    back_up_on_leaving(one.home, BEGIN)
    assert (one.files(), last_backup(one.home), second_place(one.home)) == (before, "", None)


def test_what_is_set_is_read_back_whatever_its_name(one, tmp_path):
    for name in ('SD "card"', "back\\slash", "käse", "a\nb"):
        set_second_place(one.home, tmp_path / name)
        assert second_place(one.home) == tmp_path / name


def test_jobs_are_copied_on_leaving_and_the_outcome_is_kept(one, card):
    back_up_on_leaving(one.home, BEGIN)
    copy = card / "jobs" / NUMBER / "one.journal"
    assert copy.read_bytes() == one.journal.read_bytes()
    assert last_backup(one.home) == (f"backup 2031-05-04T08:00+02:00: 1 of 1 file copied to {card}")


def test_window_that_is_closed_leaves_a_copy(one, card, monkeypatch):
    monkeypatch.setattr(runtime, "prepare_environment", lambda _: None)
    monkeypatch.setattr(runtime, "prepare_window", lambda: None)
    monkeypatch.setattr(app, "_run", lambda desk, *_: desk.state.jobs.open(NUMBER))
    app.run(one.home, lambda: BEGIN)
    assert (card / "jobs" / NUMBER / "one.journal").read_bytes() == one.journal.read_bytes()


def test_copy_that_takes_too_long_keeps_nobody(one, card, monkeypatch):
    going, go_on = Signal(), Signal()

    def slow(source, target):
        going.set()
        go_on.wait()
        yield Copied(source, target)

    monkeypatch.setattr(leaving, "copy_all", slow)
    back_up_on_leaving(one.home, BEGIN, wait=0.01)
    assert going.wait(10)
    assert last_backup(one.home).endswith(": not finished")
    go_on.set()


def test_place_that_is_not_there_is_said_and_is_no_obstacle(one, card):
    card.rmdir()
    back_up_on_leaving(one.home, BEGIN)
    assert "The second place is not there, so nothing was copied" in last_backup(one.home)
    assert not card.exists()
    card.write_text("a file, no card")
    back_up_on_leaving(one.home, BEGIN)
    assert "not made, Not a directory" in last_backup(one.home)


def test_empty_tablet_leaves_nothing_to_copy(tablet, tmp_path):
    empty = tablet("empty")
    (tmp_path / "card").mkdir()
    set_second_place(empty.home, tmp_path / "card")
    back_up_on_leaving(empty.home, BEGIN)
    assert last_backup(empty.home).endswith("nothing is kept yet")


@pytest.mark.parametrize("text", ["", "to = 5", 'to = ""', "to = [", "\xff"])
def test_setting_that_names_no_place_says_how_it_is_set(one, text):
    (one.home / SETTING).write_bytes(text.encode("latin-1"))
    with pytest.raises(SecondPlaceUnclearError, match="store backup --to FOLDER --always"):
        second_place(one.home)
    back_up_on_leaving(one.home, BEGIN)
    assert "Where to copy to is not known" in (one.home / OUTCOME).read_text(encoding="utf-8")


def test_outcome_names_what_was_not_copied(one, card):
    there = card / "jobs" / NUMBER / "one.journal"
    left = Copied(one.journal, there, refused=f"{there}: left as it is", why="Left as it is")
    assert outcome_of([left, Copied(one.journal, there)], card).splitlines() == [
        f"1 of 2 files copied to {card}",
        f"Job {NUMBER}, one: left as it is",
    ]
