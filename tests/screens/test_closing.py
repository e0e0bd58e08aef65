"""Whoever closes the window sees the last copy being made, and never has to wait for it."""

from threading import Event as Signal

import pytest

from fieldapp.handover.backup import copy_all
from fieldapp.handover.second_place import last_backup, set_second_place
from fieldapp.screens.desk.copies import desk_copies
from tests.screens.findings import findings
from tests.screens.signed_jobs import Tablet, all_words


@pytest.fixture
def tablet(tmp_path, number):
    made = Tablet(tmp_path / "home")
    yield made
    made.close()


@pytest.fixture
def card(tablet, tmp_path):
    made = tmp_path / "card"
    made.mkdir()
    set_second_place(tablet.home, made)
    return made


@pytest.fixture
def slow(monkeypatch):
    """A card that takes its first file and waits with the next."""
    first, go_on = Signal(), Signal()
    quick = copy_all

    def copying(source, target):
        for copied in quick(source, target):
            yield copied
            first.set()
            go_on.wait(30)

    monkeypatch.setattr(desk_copies, "copy_all", copying)
    yield first, go_on
    go_on.set()


def test_window_without_a_second_place_closes_at_once(tablet):
    assert tablet.desk.may_close()
    assert not tablet.desk.closing


def test_window_of_an_empty_tablet_closes_at_once(tmp_path):
    empty = Tablet(tmp_path / "empty")
    set_second_place(empty.home, tmp_path / "card")
    assert empty.desk.may_close()
    empty.close()


def test_copy_is_shown_as_it_goes_and_the_window_then_closes_by_itself(tablet, card, number, slow):
    first, go_on = slow
    tablet.touch("open job", number)
    assert not tablet.desk.may_close()
    assert first.wait(30)
    words = all_words(tablet.desk.view())
    assert "Copying, 1 of 1" in words
    assert "The window closes by itself" in words
    assert last_backup(tablet.home).endswith("not finished")
    assert not tablet.desk.closed
    go_on.set()
    tablet.desk.settle(wait=True)
    assert tablet.desk.closed
    assert "1 of 1 file copied" in last_backup(tablet.home)
    assert list((card / "jobs" / number).glob("*.journal"))


def test_second_close_does_not_wait(tablet, card, slow):
    first, go_on = slow
    tablet.desk.may_close()
    assert first.wait(30)
    assert tablet.desk.may_close()
    go_on.set()
    tablet.desk.close()
    assert last_backup(tablet.home).endswith("not finished")


def test_leaving_now_closes_without_waiting(tablet, card, slow):
    first, go_on = slow
    tablet.desk.may_close()
    assert first.wait(30)
    tablet.touch("leave now", settle=False)
    assert tablet.desk.closed
    go_on.set()


def test_whoever_stays_goes_on_and_the_window_stays_open(tablet, card, number, slow):
    first, go_on = slow
    tablet.touch("open job", number)
    tablet.desk.may_close()
    assert first.wait(30)
    tablet.touch("stay", settle=False)
    assert tablet.screen == "jobs"
    go_on.set()
    tablet.desk.settle(wait=True)
    assert not tablet.desk.closed
    tablet.touch("open job", number)
    assert not tablet.desk.may_close()  # it is copied anew
    tablet.desk.settle(wait=True)
    assert tablet.desk.closed


def test_what_was_not_copied_is_shown_and_the_next_close_closes(tablet, card, number):
    (card / "jobs").write_text("a file where a folder must be")
    assert not tablet.desk.may_close()
    tablet.desk.settle(wait=True)
    view = tablet.desk.view()
    words = " ".join([all_words(view), view.told[0]])
    assert "Not copied" in words or "not all" in words
    assert "The window is still open" in words
    assert not tablet.desk.closed
    assert tablet.desk.may_close()


def test_making_safe_is_there_while_it_copies(tablet, card, number, slow):
    first, _ = slow
    tablet.desk.may_close()
    assert first.wait(30)
    tablet.touch("safe", settle=False)
    assert tablet.screen == "safe"


@pytest.mark.parametrize("look", ["sun", "night"])
def test_screen_can_be_read(driver, tablet, card, slow, look):
    from fieldapp.screens.shell import Shell

    if look == "night":
        tablet.touch("look")
    tablet.desk.may_close()
    assert slow[0].wait(30)
    shell = driver.show(Shell(tablet.desk))
    driver.frames(3)
    assert findings(shell) == []
