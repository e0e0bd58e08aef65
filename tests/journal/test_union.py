"""Journals of several tablets are one story, or it is said why not."""

import pytest

from fieldapp.journal.errors import JournalDamagedError
from fieldapp.journal.lines.reading import sound_inspection
from fieldapp.journal.tablets.story import Kept
from fieldapp.journal.tablets.union import (
    ParallelStoriesError,
    StoryIncompleteError,
    demand_remembered,
    heads_of,
    one_story,
)


def kept(device, *numbers, known=9):
    return [
        Kept(device, place, place, {"sequence": number}, {"a": known, "b": known})
        for place, number in enumerate(numbers, 1)
    ]


def test_events_are_told_in_their_order_whoever_kept_them():
    found = one_story(kept("b", 2, 3) + kept("a", 0, 1, 4))
    assert found == [{"sequence": number} for number in range(5)]
    assert one_story([]) == []


def test_same_number_twice_names_both_tablets_and_the_last_common_event():
    with pytest.raises(
        ParallelStoriesError, match="a and b each went on after event 1, by 2 events and 1 event"
    ) as caught:
        one_story(kept("b", 2, known=2) + kept("a", 0, 1, 2, 3, known=0))
    assert caught.value.conflict.after == 1


def test_number_that_is_nowhere_is_named():
    with pytest.raises(StoryIncompleteError, match="event 1 is in none"):
        one_story(kept("a", 0, 2))


@pytest.mark.parametrize("sequence", [1, 2, 9])
def test_noted_head_must_be_in_the_other_journal(open_journal, path, sequence):
    open_journal().append(["first"])
    open_journal().append(["second"])
    open_journal().close()
    found = [sound_inspection(path)]
    device = found[0].bodies[0].device
    demand_remembered(heads_of(found), found)
    demand_remembered({"elsewhere": [1, "0" * 64]}, found)
    with pytest.raises(JournalDamagedError, match="not the journal that this tablet went on from"):
        demand_remembered({device: [sequence, "0" * 64]}, found)
