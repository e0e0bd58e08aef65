"""Any tablets at work in any order tell one story, or are settled by a person; nothing is lost."""

from itertools import permutations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from fieldapp.journal.tablets.story import Conflict, Kept, Lost, aside_of, told, way_to

TABLETS = "abc"


class Tablet:
    """Journals as one tablet has them: its own, and how far it has those of the others."""

    def __init__(self, device):
        self.device = device
        self.journals = {}
        self.noted = {}

    def kept(self):
        return [each for journal in self.journals.values() for each in journal]

    def story(self):
        return told(self.kept())

    def take_in(self, other):
        """The union by tablet and entry, as a hand-over file brings it."""
        for device, journal in other.journals.items():
            mine = self.journals.get(device, [])
            if len(journal) > len(mine):
                self.journals[device] = [*journal]

    def work(self, text):
        """Keep an event, unless two stories stop the work."""
        found = self.story()
        if isinstance(found, tuple):
            self._keep(len(found), {"kind": "Entered", "text": text})

    def settle(self, choice):
        """Let one side of a conflict go on."""
        found = self.story()
        if isinstance(found, Conflict):
            branch = found.branches[choice % len(found.branches)]
            aside = [
                {"device": each.device, "place": each.place, "event": each.event}
                for each in aside_of(self.kept(), branch)
            ]
            what = {"kind": "Settled", "kept": branch.device, "aside": aside}
            self._keep(branch.events[-1].number + 1, what)

    def _keep(self, number, what):
        own = self.journals.setdefault(self.device, [])
        known = {d: len(j) for d, j in self.journals.items() if d != self.device and j}
        event = {"sequence": number, "what": {**what, "who": self.device}}
        own.append(Kept(self.device, len(own) + 1, len(own) + 1, event, known))


def played(acts):
    """Tablets of which the first began the job and told the others, after some acts."""
    tablets = [Tablet(device) for device in TABLETS]
    tablets[0].work("begun")
    for other in tablets[1:]:
        other.take_in(tablets[0])
    for number, (kind, one, two) in enumerate(acts):
        if kind == "work":
            tablets[one].work(number)
        elif kind == "hand over":
            tablets[two].take_in(tablets[one])
        else:
            tablets[one].settle(two)
    return tablets


def union(*tablets):
    found = Tablet("office")
    for tablet in tablets:
        found.take_in(tablet)
    return found


def marks_within(event):
    """The events that an event carries, and those that these carry."""
    for each in event["what"].get("aside", ()):
        yield each["device"], each["place"]
        yield from marks_within(each["event"])


def readable(found):
    """Every event that can be read in a story or in the sides of a conflict."""
    kept = found if isinstance(found, tuple) else [k for b in found.branches for k in b.events]
    for each in kept:
        yield each.mark
        yield from marks_within(each.event)


tablet = st.integers(0, len(TABLETS) - 1)
acts = st.lists(
    st.tuples(st.sampled_from(["work", "work", "hand over", "settle"]), tablet, tablet),
    max_size=25,
)

# The second settlement lets a tablet go on two of whose events bear the same number.
settled_twice = [
    ("work", 1, 1), ("work", 0, 2), ("work", 1, 1), ("hand over", 0, 1), ("settle", 1, 2),
    ("work", 0, 2), ("hand over", 0, 1), ("settle", 1, 1),
]  # fmt: skip


@given(acts)
@example(settled_twice)
def test_union_is_the_same_in_any_order_and_however_often_it_is_made(acts):
    tablets = played(acts)
    found = {
        str(union(*order, *order[:again]).story())
        for order in permutations(tablets)
        for again in range(3)
    }
    assert len(found) == 1
    one, two, three = tablets
    left, right = union(union(one, two), three), union(one, union(two, three))
    assert left.story() == right.story()
    assert told(reversed(left.kept())) == left.story()


@given(acts)
@example(settled_twice)
def test_nothing_is_ever_lost(acts):
    whole = union(*played(acts))
    found = whole.story()
    assert not isinstance(found, Lost)
    there = set(readable(found))
    if isinstance(found, Conflict):
        there |= {each.mark for each in way_to(whole.kept(), found.branches[0])}
        for branch in found.branches:
            there |= set(readable(way_to(whole.kept(), branch)))
    assert there == {each.mark for each in whole.kept()}


@given(acts)
@example(settled_twice)
def test_a_story_counts_from_nought_and_every_side_goes_on_from_the_same_event(acts):
    whole = union(*played(acts))
    found = whole.story()
    if isinstance(found, Conflict):
        assert len({branch.device for branch in found.branches}) == len(found.branches) > 1
        firsts = {branch.events[0].mark for branch in found.branches}
        assert len(firsts) > 1
        ways = [way_to(whole.kept(), branch) for branch in found.branches]
        assert len({way[: found.after + 1] for way in map(_marks, ways)}) == 1
    else:
        ways = [found]
    for way in ways:
        assert [each.number for each in way] == [*range(len(way))]


@given(acts, st.integers(0, 5), tablet)
def test_settled_once_is_settled_everywhere(acts, choice, where):
    tablets = played(acts)
    for one in tablets:
        one.journals = union(*tablets).journals | {}
    tablets[where].settle(choice)
    for one in tablets:
        one.take_in(tablets[where])
        assert isinstance(one.story(), tuple)
        assert one.story() == tablets[where].story()


@given(acts)
@example(settled_twice)
def test_work_goes_on_from_what_was_settled(acts):
    tablets = played(acts)
    for one in tablets:
        one.take_in(union(*tablets))
    tablets[0].settle(1)
    before = tablets[0].story()
    tablets[1].take_in(tablets[0])
    tablets[1].work("after")
    assert tablets[1].story()[:-1] == before
    assert union(*tablets).story() == tablets[1].story()


def _marks(way):
    return tuple(each.mark for each in way)


def events(device, *numbers, known=None):
    return [
        Kept(device, place, place, {"sequence": number}, known or {})
        for place, number in enumerate(numbers, 1)
    ]


def test_no_events_are_an_empty_story():
    assert told([]) == ()


@pytest.mark.parametrize(
    ("kept", "lost"),
    [
        (events("a", 0, 2), 1),
        (events("a", 1, 2), 0),
        (events("a", 0) + events("b", 3, known={"a": 1}), 2),
        (events("a", 0, 1) + events("b", 1, known={"a": 1}) + events("c", 2), 1),
    ],
    ids=["between", "beginning", "other tablet", "unknown which of two"],
)
def test_event_that_is_nowhere_is_named(kept, lost):
    assert told(kept) == Lost(lost)


def test_events_that_set_each_other_aside_are_no_story():
    settled = {
        "sequence": 0,
        "what": {"kind": "Settled", "aside": [{"device": "a", "place": 1, "event": {}}]},
    }
    assert told([Kept("a", 1, 1, settled, {})]) == Lost(0)


def test_jobs_begun_apart_have_no_event_in_common():
    found = told(events("a", 0, 1) + events("b", 0))
    assert isinstance(found, Conflict)
    assert (found.after, [branch.device for branch in found.branches]) == (-1, ["a", "b"])
