"""Two tablets that worked at once: both sides can be read, and a person settles which goes on."""

from datetime import timedelta

import pytest

from fieldapp.actions.entering import enter, report
from fieldapp.actions.rules import Act
from fieldapp.handover.archive import MANIFEST, journal_name, packed, unpacked
from fieldapp.handover.errors import HandOverRefusedError, SecondStoryError
from fieldapp.handover.receiving import receive
from fieldapp.handover.sending import hand_over
from fieldapp.job.events import Entered, GapStated, Settled
from fieldapp.journal.errors import JournalBusyError
from fieldapp.journal.exporting import as_csv
from fieldapp.journal.jobs import Jobs
from fieldapp.journal.lines.chain import START, next_entry, walk
from fieldapp.journal.lines.reading import sound_inspection
from fieldapp.journal.settling import (
    NoSuchSideError,
    NothingToSettleError,
    SettlementUnnamedError,
    conflict_in,
    settle,
)
from fieldapp.journal.tablets.gap import state_gap
from fieldapp.journal.tablets.union import ParallelStoriesError
from tests.actions.play import BEGIN, LEAD, TECHNICIAN
from tests.handover.conftest import NUMBER
from tests.handover.test_hand_over import AT, send

WHY = "one stood at the unit, two in the car"


def both(source, target):
    content = hand_over(source.home, NUMBER, AT)
    return receive(content, target.home, target.home.name, None, both=True)


def settled(tablet, keep, who=LEAD, reason=WHY):
    return settle(
        tablet.journal.parent, device=tablet.home.name, who=who, keep=keep, reason=reason,
        clock=lambda: AT,
    )  # fmt: skip


def values_in(settled):
    """What a settlement set aside, as it was entered."""
    given = (event.what for event in settled.events())
    return [what.fields["value"] for what in given if isinstance(what, Entered)]


@pytest.fixture
def one(tablet):
    return tablet("one", begun=True)


@pytest.fixture
def two(one, tablet):
    """A tablet that took the job over, after which both went on; it has both sides now."""
    made = tablet("two")
    send(one, made)
    one.permit("18:00")
    made.permit("17:00")
    made.permit("17:30")
    both(one, made)
    return made


def test_job_with_two_stories_is_not_opened_and_says_what_to_do(two):
    before = two.files()
    with pytest.raises(
        ParallelStoriesError, match=r"one and two each went on .* by 1 event and 2 events"
    ):
        two.log()
    with pytest.raises(ParallelStoriesError, match="fieldapp store settle"):
        two.log()
    assert two.files() == before


def test_both_sides_can_be_read(two):
    found = conflict_in(two.journal.parent)
    assert found is not None
    assert found.after == 0
    said = {
        branch.device: [kept.event["what"]["fields"]["value"] for kept in branch.events]
        for branch in found.branches
    }
    assert said == {"one": ["18:00"], "two": ["17:00", "17:30"]}


@pytest.mark.parametrize(
    ("keep", "goes_on", "aside"),
    [("one", ["18:00"], ["17:00", "17:30"]), ("two", ["17:00", "17:30"], ["18:00"])],
)
def test_a_person_settles_it_and_what_is_set_aside_stays_readable(two, keep, goes_on, aside):
    assert len(settled(two, keep).aside) == len(aside)
    *_, last = two.log()
    assert isinstance(last.what, Settled)
    assert (last.by, last.at, last.what.after, last.what.kept, last.what.reason) == (
        LEAD, AT, 0, keep, WHY,
    )  # fmt: skip
    entered = [event.what for event in two.log() if isinstance(event.what, Entered)]
    assert [what.fields["value"] for what in entered] == goes_on
    assert values_in(last.what) == aside
    assert conflict_in(two.journal.parent) is None


def test_settled_on_one_tablet_it_is_settled_on_the_other_and_work_goes_on(one, two):
    settled(two, "two")
    taken = send(two, one)
    assert taken.conflict is None
    assert [event.by for event in taken.settled] == [LEAD]
    one.permit("20:00")
    send(one, two)
    assert one.log() == two.log()
    assert one.log()[-1].what.fields["value"] == "20:00"


def test_work_that_did_not_know_of_the_settlement_is_a_conflict_again(one, two):
    settled(two, "two")
    one.permit("19:00")
    with pytest.raises(SecondStoryError):
        send(two, one)
    both(two, one)
    settled(one, "two")
    last = one.log()[-1].what
    assert isinstance(last, Settled)
    assert values_in(last) == ["19:00"]
    send(one, two)
    assert one.log() == two.log()


def test_a_tablet_that_did_none_of_the_work_can_settle_it(one, two, tablet):
    office = tablet("office")
    send(one, office)
    both(two, office)
    settled(office, "one")
    assert send(office, two).conflict is None
    assert two.log() == office.log()


def test_settlement_names_a_side_a_person_and_a_reason(two):
    before = two.files()
    with pytest.raises(NoSuchSideError, match="three is no side of it: name one or two"):
        settled(two, "three")
    for who, reason in (("", WHY), (LEAD, " ")):
        with pytest.raises(SettlementUnnamedError, match="say who"):
            settled(two, "one", who, reason)
    assert two.files() == before


def test_what_is_one_story_is_not_settled(one):
    with pytest.raises(NothingToSettleError, match=f"job {NUMBER}: its journals tell one story"):
        settled(one, "one")


def test_job_that_is_open_is_not_settled(two):
    settled(two, "two")
    jobs = Jobs(two.home, lambda: BEGIN)
    jobs.open(NUMBER)
    with pytest.raises(JournalBusyError):
        settled(two, "two")
    jobs.close()


def test_window_that_could_not_open_the_job_lets_it_be_settled(two):
    jobs = Jobs(two.home, lambda: BEGIN)
    for _ in range(2):
        with pytest.raises(ParallelStoriesError):
            jobs.open(NUMBER)
    settled(two, "two")
    assert isinstance(jobs.open(NUMBER).job.state.log[-1].what, Settled)
    jobs.close()


def test_signature_from_before_does_not_stand_after_it(two):
    settled(two, "two")
    jobs = Jobs(two.home, lambda: BEGIN)
    assert jobs.open(NUMBER).job.state.signature("technician") is None
    jobs.close()


def test_entries_of_the_other_side_are_not_told_otherwise_than_they_were_kept(two, tablet):
    settled(two, "two")
    members = unpacked(hand_over(two.home, NUMBER, AT))
    raw = members[journal_name("two")]
    head, changed = START, b""
    for body in walk(raw).bodies:
        for operation in body.operations:
            what = operation[3].get("what", {})
            for each in what.get("aside", ()):
                each["event"]["what"]["fields"]["value"] = "23:00"
        head, _, line = next_entry(
            head, device=body.device, time=body.time, operations=body.operations
        )
        changed += line
    old = walk(raw).head
    members[journal_name("two")] = changed
    members[MANIFEST] = members[MANIFEST].replace(old.hash.encode(), head.hash.encode())
    with pytest.raises(HandOverRefusedError, match="sets aside what one did not keep"):
        receive(packed(members), tablet("three").home, "three", None)


def test_what_both_worked_at_and_what_was_touched_meanwhile_is_to_do_again(one, tablet):
    """A safeguard: nobody can say in which order the two did it."""
    other = tablet("two")
    send(one, other)
    for each, minute in ((one, 1), (other, 2)):
        jobs = Jobs(each.home, lambda: BEGIN)
        kept = jobs.open(NUMBER)
        act = Act(TECHNICIAN, BEGIN + timedelta(minutes=minute))
        assert kept.keep(enter(kept.job, "permit_ends", {"value": "18:00"}, act)) is None
        happening = kept.job.checklist.happenings[0].id
        if each is other:
            assert kept.keep(report(kept.job, happening, act)) is None
        jobs.close()
    both(one, other)
    settled(other, "one")
    jobs = Jobs(other.home, lambda: BEGIN)
    job = jobs.open(NUMBER).job
    jobs.close()
    step = job.checklist.step_of("permit_ends")
    assert step.id in standing_stale(job)


def standing_stale(job):
    from fieldapp.judgement.evaluation import StepState, evaluate

    found = evaluate(job, AT)
    return {name for name, step in found.steps.items() if step.state is StepState.STALE}


def test_gap_on_one_side_is_stated_from_what_that_side_knew(one, two):
    two.journal.write_bytes(b"".join(two.journal.read_bytes().splitlines(keepends=True)[:-1]))
    stated = state_gap(two.journal, device="two", who=LEAD, reason="power went", clock=lambda: AT)
    assert stated.missing == 1
    found = conflict_in(two.journal.parent)
    assert found is not None
    assert [len(branch.events) for branch in found.branches] == [1, 2]
    settled(two, "two")
    assert [type(event.what) for event in two.log()[-2:]] == [GapStated, Settled]


def test_gap_after_the_other_tablet_went_on_follows_from_it(one, tablet):
    two = tablet("two")
    send(one, two)
    two.permit("17:00")
    send(two, one)
    one.permit("18:00")
    one.journal.write_bytes(b"".join(one.journal.read_bytes().splitlines(keepends=True)[:1]))
    state_gap(one.journal, device="one", who=LEAD, reason="power went", clock=lambda: AT)
    assert [type(event.what) for event in one.log()[1:]] == [Entered, GapStated]


def test_settlement_is_one_row_of_a_table(two):
    settled(two, "two")
    text = as_csv(sound_inspection(two.journal).bodies)
    assert text.splitlines()[-1].endswith(f'"after=0; aside=1; kept=two; reason={WHY}",two,5')
