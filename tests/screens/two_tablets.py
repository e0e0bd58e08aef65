"""Two tablets and a card between them: copies, hand-overs, two sides and a gap, for tests."""

from fieldapp.handover.second_place import second_place
from fieldapp.journal.lines.anchor import anchor_path
from tests.screens.signed_jobs import LEAD, all_words


def at_copies(tablet, card):
    tablet.touch("copies")
    if second_place(tablet.home) is None:
        tablet.touch("places")
        tablet.touch("place", str(card))
    return tablet.desk.view()


def handed_over(tablet, card, number):
    at_copies(tablet, card)
    tablet.touch("hand over", number)
    tablet.touch("unsigned")
    path = tablet.state.copies.written.path
    tablet.touch("jobs")
    return path


def taken_in(tablet, path):
    tablet.touch("copies")
    tablet.touch("files")
    return tablet.touch("take", str(path))


def went_on(tablet, number, reason):
    """The crew lead sends the job back, so that this tablet has an event of its own."""
    tablet.state.who = LEAD
    tablet.touch("open job", number)
    tablet.state.place = type(tablet.state.place)("signoff")
    tablet.touch("send back", reason)
    tablet.touch("jobs")
    if tablet.screen == "leaving":
        tablet.touch("stay")


def apart(tablet, other, card, number):
    """Both tablets go on with the job; the other one's file lies on the card."""
    taken_in(other, handed_over(tablet, card, number))
    other.touch("jobs")
    went_on(tablet, number, "Seen on this tablet.")
    went_on(other, number, "Seen on the other one.")
    tablet.minutes, other.minutes = 700, 700
    return handed_over(other, card, number)


def settling(tablet, other, card, number):
    taken_in(tablet, apart(tablet, other, card, number))
    tablet.touch("both")
    view = tablet.touch("jobs")
    assert "Two tablets went on with it at once" in all_words(view)
    tablet.touch("hurt", number)
    return tablet.touch("sides")


def lose_the_last_entry(home, number):
    """What a disk does that says it has written what it has not: the head alone knows."""
    path = next((home / "jobs" / number).glob("*.journal"))
    lines = path.read_bytes().splitlines(keepends=True)
    path.write_bytes(b"".join(lines[:-1]))
    assert anchor_path(path).exists()
