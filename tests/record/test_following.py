"""Records given together say whether they name each other rightly."""

import json
from dataclasses import replace

import pytest

from fieldapp.record.following import Named, Relation, named_in, relations
from tests.record import specimen as made

FIRST, SECOND, OTHER = "1a" * 32, "2b" * 32, "3c" * 32
HOOKUP = Named("hookup.pdf", "R-0417", 1, FIRST, (SECOND,))
VISIT = Named("visit.pdf", "R-0417.visit-1", 1, OTHER, follows="R-0417", follows_head=FIRST)
AGAIN = Named("again.pdf", "R-0417", 2, OTHER, earlier=((1, SECOND),))


def told(*records):
    return [(one.words, one.right) for one in relations(records)]


def test_records_that_name_nobody_say_nothing():
    assert relations([HOOKUP, Named("x.pdf", "R-0500", 1, OTHER)]) == ()


@pytest.mark.parametrize("order", [(HOOKUP, VISIT), (VISIT, HOOKUP)], ids=["after", "before"])
def test_visit_that_names_the_head_of_its_hookup_is_right(order):
    words = "follows R-0417 and names its journal head rightly (hookup.pdf)"
    assert relations(order) == (Relation("visit.pdf", words, right=True),)


def test_visit_may_name_the_head_that_was_signed_for_a_later_stamp_changes_the_last_one():
    words = "follows R-0417 and names its journal head rightly (hookup.pdf)"
    found = relations([HOOKUP, replace(VISIT, follows_head=SECOND)])
    assert found == (Relation("visit.pdf", words, right=True),)


def test_list_begun_before_the_sign_off_names_a_head_that_no_record_shows():
    """An alarm response does not wait for a signature; a forged one cannot be told by its head."""
    hookup = replace(HOOKUP, closed="2031-05-04T17:00:00+02:00")
    early = replace(VISIT, follows_head=OTHER, began="2031-05-04T14:59:59+00:00")
    ((words, right),) = told(hookup, early)
    assert right
    assert words == (
        "follows R-0417 and began before that was signed off: the journal head "
        "3c3c3c3c3c3c3c3c… that it names stands in the journal alone"
    )
    ((_, later),) = told(hookup, replace(early, began="2031-05-04T15:00:00+00:00"))
    assert not later


def test_visit_that_names_another_head_is_not():
    ((words, right),) = told(HOOKUP, replace(VISIT, follows_head=OTHER))
    assert not right
    assert words == (
        "follows R-0417 and names the journal head 3c3c3c3c3c3c3c3c…, but hookup.pdf ends in "
        "1a1a1a1a1a1a1a1a…; ask the crew for both as they were signed"
    )


def test_visit_without_its_hookup_asks_for_it():
    assert told(VISIT) == [("follows R-0417: give that record too, and the two are compared", True)]


def test_visit_that_names_no_head_is_not_right():
    ((words, right),) = told(HOOKUP, replace(VISIT, follows_head=""))
    assert (right, "names the journal head none" in words) == (False, True)


def test_visit_follows_any_revision_of_its_hookup():
    ((_, first), (words, second)) = told(HOOKUP, AGAIN, replace(VISIT, follows_head=OTHER))
    assert first
    assert second
    assert "(again.pdf)" in words


def test_revision_that_names_what_was_signed_before_is_right():
    words = "names what was signed as revision 1 rightly (hookup.pdf)"
    assert relations([AGAIN, HOOKUP]) == (Relation("again.pdf", words, right=True),)


def test_revision_that_names_something_else_is_not():
    ((words, right),) = told(HOOKUP, replace(AGAIN, earlier=((1, OTHER),)))
    assert not right
    assert words == (
        "names another revision 1 than hookup.pdf; ask the crew for both as they were signed"
    )


def test_two_records_of_one_revision_are_told():
    ((words, right),) = told(HOOKUP, Named("copy.pdf", "R-0417", 1, OTHER))
    assert not right
    assert "is R-0417, revision 1, and so is hookup.pdf" in words
    assert told(HOOKUP, Named("copy.pdf", "R-0417", 1, FIRST)) == []


def test_names_are_read_from_the_attached_data():
    record = json.loads(made.record(
        heading={"number": "R-0417", "revision": 2, "follows": "R-1", "follows_head": FIRST,
                 "began": "2031-05-04T08:00:00+02:00"},
        earlier=[{"revision": 1, "head": SECOND}],
    ))  # fmt: skip
    assert named_in("a.pdf", record) == Named(
        "a.pdf", "R-0417", 2, made.HEAD, (made.HEAD, made.HEAD), "R-1", FIRST, ((1, SECOND),),
        "2031-05-04T08:00:00+02:00", made.CLOSED.isoformat(),
    )  # fmt: skip


@pytest.mark.parametrize("began", ["yesterday", "2031-05-04T08:00:00"])
def test_beginning_that_is_no_time_with_its_offset_is_at_odds_and_no_fall(began):
    closed = replace(HOOKUP, closed="2031-05-04T12:00:00+02:00")
    list_of = Named("visit.pdf", "V-1", 1, OTHER, follows="R-0417", follows_head=SECOND[::-1])
    found = told(closed, replace(list_of, began=began))
    assert [right for _, right in found] == [False]


def test_names_are_read_past_what_is_no_signature():
    record = json.loads(made.record())
    record["signatures"].append("Ada Moor")
    assert named_in("a.pdf", record).signed == (made.HEAD, made.HEAD)
