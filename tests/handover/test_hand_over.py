"""A job goes from tablet to tablet; what two of them tell differently is never chosen."""

from datetime import UTC, datetime

import pytest

from fieldapp.crew.authority import Authority, Revoked, found_authority, revocation_list
from fieldapp.crew.enrolment import enrol_crew
from fieldapp.crew.keys import read_key
from fieldapp.crew.roster import Roster
from fieldapp.handover.errors import HandOverForkedError, SecondStoryError
from fieldapp.handover.receiving import receive
from fieldapp.handover.sending import hand_over
from fieldapp.journal.errors import JournalBusyError, JournalDamagedError
from fieldapp.journal.jobs import Jobs, NoSuchJobError, NotBegunError
from fieldapp.journal.lines.file import Journal
from fieldapp.journal.tablets.union import StoryIncompleteError
from tests.actions.play import BEGIN
from tests.handover.conftest import NUMBER

AT = datetime(2031, 5, 4, 9, 0, tzinfo=UTC)
SECRET = "kettle on the hill"


@pytest.fixture
def one(tablet):
    return tablet("one", begun=True)


@pytest.fixture
def two(tablet):
    return tablet("two")


@pytest.fixture(scope="module")
def crew(tmp_path_factory):
    folder = tmp_path_factory.mktemp("crew")
    return folder, enrol_crew(
        folder, office="Example office", technician="Ada Moor", lead="Bo Lind", at=AT,
        secret=SECRET, cost=2**10,
    )  # fmt: skip


def send(source, target, signer=None, roster=None):
    content = hand_over(source.home, NUMBER, AT, signer)
    return receive(content, target.home, target.home.name, roster)


def test_job_goes_on_at_the_other_tablet_and_comes_back(one, two):
    one.permit("18:00")
    assert send(one, two).new == (("one", 2),)
    two.permit("19:00")
    assert two.permits() == ["18:00", "19:00"]
    assert send(two, one).new == (("two", 2),)
    one.permit("20:00")
    assert one.permits() == ["18:00", "19:00", "20:00"]
    assert send(one, two).new == (("one", 2),)
    assert two.log() == one.log()


def test_file_that_was_taken_in_already_brings_nothing_new(one, two):
    send(one, two)
    before = two.files()
    assert send(one, two).new == ()
    assert two.files() == before


def test_older_file_brings_nothing_new(one, two):
    older = hand_over(one.home, NUMBER, AT)
    one.permit("18:00")
    send(one, two)
    assert receive(older, two.home, "two", None).new == ()
    assert two.permits() == ["18:00"]


def test_two_tablets_that_went_on_apart_are_told_and_nothing_is_chosen(one, two):
    send(one, two)
    one.permit("18:00")
    two.permit("19:00")
    before = one.files(), two.files()
    for source, target in ((one, two), (two, one)):
        with pytest.raises(SecondStoryError, match="one and two each went on after event 0"):
            send(source, target)
    assert (one.files(), two.files()) == before


def test_two_stories_of_one_journal_are_told(one, two, tablet):
    send(one, two)
    twin = tablet("twin")
    twin.journal.parent.mkdir(parents=True)
    for path in one.journal.parent.glob("one.journal*"):
        (twin.journal.parent / path.name).write_bytes(path.read_bytes())
    (twin.home / "device").write_text("one\n")
    one.permit("18:00")
    twin.permit("17:00")
    send(one, two)
    before = two.files()
    with pytest.raises(HandOverForkedError, match="journal of one in it and the one here"):
        send(twin, two)
    assert two.files() == before


def test_tablet_does_not_take_its_own_entries_from_a_file(one, two):
    content = hand_over(one.home, NUMBER, AT)
    one.permit("18:00")
    longer = hand_over(one.home, NUMBER, AT)
    receive(content, two.home, "two", None)
    with pytest.raises(HandOverForkedError, match="entries of this tablet"):
        receive(longer, two.home, "one", None)


def test_job_that_is_open_is_not_added_to(one, two):
    send(one, two)
    two.permit("18:00")
    jobs = Jobs(two.home, lambda: BEGIN)
    jobs.open(NUMBER)
    with pytest.raises(JournalBusyError):
        send(one, two)
    jobs.close()


def test_other_journal_that_was_put_back_is_noticed(one, two):
    send(one, two)
    older = {path: path.read_bytes() for path in two.journal.parent.glob("one.journal*")}
    one.permit("18:00")
    send(one, two)
    two.permit("19:00")
    for path, content in older.items():
        path.write_bytes(content)
    with pytest.raises(JournalDamagedError, match="not the journal that this tablet went on from"):
        two.log()


def test_missing_tablet_in_between_is_told(one, two, tablet):
    three = tablet("three")
    one.permit("18:00")
    send(one, two)
    two.permit("19:00")
    send(two, three)
    three.permit("20:00")
    for path in three.journal.parent.glob("two.journal*"):
        path.unlink()
    with pytest.raises(StoryIncompleteError, match="event 2 is in none"):
        three.log()


def test_signature_says_who_as_far_as_the_office_vouches(one, two, crew):
    folder, people = crew
    roster = people.roster
    assert send(one, two).signer.startswith("unsigned")
    signer = people.technician
    assert send(one, two, signer, roster).signer == "signed by Ada Moor, technician"
    assert "no trust folder to ask" in send(one, two, signer).signer
    stranger = found_authority("Other office", AT)
    crl = roster.revocation_list
    other = Roster(stranger.certificate, crl)
    assert "does not count: the certificate of Ada Moor is from another office" in (
        send(one, two, signer, other).signer
    )
    authority = Authority(roster.authority, read_key(folder / "office/authority.key", SECRET))
    serial = signer.person.certificate.serial_number
    took_back = revocation_list(
        authority, [Revoked(serial, AT)], number=2, at=AT, next_update=AT.replace(year=2032)
    )
    again = Roster(roster.authority, took_back, roster.people)
    assert "does not count: the certificate of Ada Moor was withdrawn on" in (
        send(one, two, signer, again).signer
    )


def test_job_that_is_not_here_is_not_handed_over(two):
    with pytest.raises(NoSuchJobError):
        hand_over(two.home, NUMBER, AT)


def test_damaged_job_is_not_handed_over(one):
    one.journal.write_bytes(one.journal.read_bytes()[:-5])
    with pytest.raises(JournalDamagedError):
        hand_over(one.home, NUMBER, AT)


def test_job_whose_beginning_was_cut_short_is_not_handed_over(two):
    two.journal.parent.mkdir(parents=True)
    Journal(two.journal, device="two", clock=lambda: BEGIN).close()
    with pytest.raises(NotBegunError, match="begin it again"):
        hand_over(two.home, NUMBER, AT)
