"""Everything to a card and back, one job as one file, two sides settled and a gap stated."""

import shutil

import pytest

from fieldapp.crew.secret import Secret
from fieldapp.job.events import GapStated, Settled
from fieldapp.journal.jobs import Jobs
from fieldapp.screens.copies.cards import short
from tests.record.small_job import BEGAN
from tests.screens.findings import findings
from tests.screens.signed_jobs import (
    LEAD,
    SECRET,
    TECHNICIAN,
    Tablet,
    all_words,
    give_keys,
    plate,
)
from tests.screens.two_tablets import (
    apart,
    at_copies,
    handed_over,
    lose_the_last_entry,
    settling,
    taken_in,
)


@pytest.fixture
def tablet(tmp_path, card, number):
    give_keys(tmp_path / "home")
    made = Tablet(tmp_path / "home")
    made.state.cards = lambda: (card,)
    yield made
    made.close()


def test_without_a_second_place_the_screen_says_so_and_offers_the_card(tablet, card):
    view = tablet.touch("copies")
    assert "None is set" in all_words(view)
    assert "copy" not in [one.name for one in view.rail]
    assert short(card) in all_words(tablet.touch("places"))


def test_no_card_plugged_in_says_what_to_do(tablet):
    tablet.state.cards = tuple
    tablet.touch("copies")
    assert "Plug in a card" in all_words(tablet.touch("places"))


def test_everything_is_copied_and_the_screen_says_how_much(tablet, card, number):
    at_copies(tablet, card)
    view = tablet.touch("copy")
    assert f"1 of 1 file copied to {card}" in all_words(view)
    assert list((card / "jobs" / number).glob("*.journal"))


@pytest.mark.parametrize(
    ("outcome", "word"),
    [("2 of 2 files copied to /media/do not use", "copied"),
     ("1 of 2 files copied to /media/card\nleft as it is. The card holds more", "not all"),
     ("not finished", "not all"), ("nothing is kept yet", "copied")],
)  # fmt: skip
def test_last_copy_is_called_whole_only_if_it_was(tablet, card, outcome, word):
    at_copies(tablet, card)
    (tablet.home / "backup.txt").write_text(f"backup 2031-05-04T08:00+02:00: {outcome}\n")
    (row,) = [row for row in tablet.desk.view().rows if row.first == "Last copy"]
    assert row.word == word


def test_what_is_missing_here_comes_back_from_the_card(tablet, card, number):
    at_copies(tablet, card)
    tablet.touch("copy")
    tablet.state.let_go_of_jobs()
    shutil.rmtree(tablet.home / "jobs" / number)
    view = tablet.touch("bring back")
    assert "1 of 1 file copied" in all_words(view)
    tablet.touch("jobs")
    tablet.touch("open job", number)
    assert tablet.state.job.number == number


def test_card_that_went_away_is_said_and_nothing_is_called_copied(tablet, card):
    at_copies(tablet, card)
    shutil.rmtree(card)
    card.write_text("no folder any more")
    view = tablet.touch("copy")
    assert "Not done" in all_words(view)
    assert "Last copy" not in all_words(view)


def test_job_goes_to_another_tablet_as_one_unsigned_file(tablet, other, card, number):
    path = handed_over(tablet, card, number)
    assert path.parent == card / "hand-over"
    view = taken_in(other, path)
    assert f"Job {number}, unsigned" in all_words(view)
    other.touch("jobs")
    other.touch("open job", number)
    assert other.state.job.state.signature("technician") is not None


def test_file_is_signed_with_the_secret_of_who_vouches(tablet, other, card, number):
    at_copies(tablet, card)
    view = tablet.touch("hand over", number)
    assert f"Sign as {TECHNICIAN}" in all_words(view)
    view = tablet.touch("vouch", TECHNICIAN)
    assert view.title == f"{TECHNICIAN}: your secret"
    assert f"the hand-over file of {number}" in view.lines[0]
    view = tablet.touch("given", Secret("kettle on the roof"))
    assert "does not open this key" in view.frame.refused
    view = tablet.touch("given", Secret(SECRET))
    assert f"Signed by {TECHNICIAN}" in all_words(view)
    shutil.copytree(tablet.home / "trust", other.home / "trust")
    assert f"signed by {TECHNICIAN}" in all_words(taken_in(other, tablet.state.copies.written.path))


def test_file_that_was_changed_is_not_taken_in(tablet, other, card, number):
    path = handed_over(tablet, card, number)
    path.write_bytes(path.read_bytes()[:-40])
    view = taken_in(other, path)
    assert "Not taken in" in all_words(view)
    assert other.state.jobs.numbers() == ()


def test_second_side_is_not_taken_in_unless_somebody_wants_to_settle_it(
    tablet, other, card, number
):
    path = apart(tablet, other, card, number)
    view = taken_in(tablet, path)
    assert "each went on with this job" in all_words(view)
    tablet.touch("jobs")
    tablet.touch("open job", number)
    assert tablet.state.job.number == number


def test_both_sides_are_shown_and_one_goes_on_by_name_and_reason(tablet, other, card, number):
    view = settling(tablet, other, card, number)
    assert "Seen on this tablet." in all_words(view)
    assert "Seen on the other one." in all_words(view)
    device = other.state.jobs.device
    view = tablet.touch("keep", device)
    assert {TECHNICIAN, LEAD} <= {row.first for row in view.rows}
    view = tablet.touch("by", LEAD)
    assert len(view.reasons) == 5
    assert "Say why" in tablet.touch("kept", "  ").frame.refused
    tablet.touch("kept", view.reasons[0])
    settled = tablet.state.job.state.of(Settled)[0]
    assert (settled.by, settled.what.kept) == (LEAD, device)
    assert settled.what.reason == view.reasons[0]
    assert "Seen on the other one." in str(tablet.state.job.state.log)


def test_gap_is_stated_and_signed_by_name_and_reason(tablet, number):
    lose_the_last_entry(tablet.home, number)
    view = tablet.touch("jobs")
    assert "not open" in all_words(view)
    view = tablet.touch("hurt", number)
    assert "The disk lost 1 entry" in all_words(view)
    assert plate(view, "gap").first == "State the gap"
    tablet.touch("gap")
    tablet.touch("by", TECHNICIAN)
    view = tablet.touch("kept", "The battery ran out.")
    assert f"the statement of the gap of {number}" in view.lines[0]
    tablet.touch("given", Secret(SECRET))
    stated = tablet.state.job.state.of(GapStated)[0]
    assert (stated.by, stated.what.reason) == (TECHNICIAN, "The battery ran out.")
    assert stated.what.certificate


def test_gap_is_stated_unsigned_where_the_tablet_has_no_key(tmp_path, number):
    tablet = Tablet(tmp_path / "home")
    lose_the_last_entry(tablet.home, number)
    for touch in (("jobs",), ("hurt", number), ("gap",), ("by", LEAD), ("kept", "Not known.")):
        tablet.touch(*touch)
    stated = tablet.state.job.state.of(GapStated)[0]
    assert (stated.by, stated.what.certificate) == (LEAD, "")
    tablet.close()


def test_journal_that_was_changed_offers_no_way_round(tablet, number):
    path = next((tablet.home / "jobs" / number).glob("*.journal"))
    raw = bytearray(path.read_bytes())
    raw[len(raw) // 2] ^= 1
    path.write_bytes(bytes(raw))
    tablet.touch("jobs")
    view = tablet.touch("hurt", number)
    assert [one.name for one in view.rail] == ["back", "safe"]
    assert "not open" in all_words(view)


@pytest.mark.parametrize("look", ["sun", "night"])
def test_every_screen_of_copies_keeps_to_the_sizes(driver, tablet, other, card, number, look):
    from fieldapp.screens.shell import Shell

    if look == "night":
        tablet.touch("look")
    settling(tablet, other, card, number)
    tablet.touch("jobs")
    shell = driver.show(Shell(tablet.desk))
    for touch in (
        ("copies",), ("places",), ("back",), ("hand over", number), ("back",), ("files",),
        ("back",), ("back",), ("hurt", number), ("sides",),
        ("keep", tablet.state.jobs.device), ("by", LEAD),
    ):  # fmt: skip
        tablet.touch(*touch)
        shell.show()
        driver.frames(3)
        assert findings(shell) == []


def test_jobs_folder_is_the_same_after_looking(tablet, number):
    """Looking at copies opens no journal and changes none."""
    before = {path: path.read_bytes() for path in tablet.home.rglob("*.journal")}
    for touch in (("copies",), ("files",), ("back",), ("hand over", number)):
        tablet.touch(*touch)
    assert {path: path.read_bytes() for path in tablet.home.rglob("*.journal")} == before
    assert Jobs(tablet.home, lambda: BEGAN).numbers() == (number,)
