"""What the list of people shows: role, key, until when, withdrawn or not, and what waits.

Touches it passes on:
    "new key"      a key of one's own, made on this tablet
    "trust"        what the office sent
    "request", fingerprint    a key that waits for the office
"""

from collections.abc import Sequence
from datetime import datetime

from fieldapp.crew.fingerprint import in_groups
from fieldapp.crew.members import Member, Standing, members_of
from fieldapp.crew.people import name_of
from fieldapp.crew.roster import Roster
from fieldapp.crew.standing import list_ran_out
from fieldapp.crew.tablet.request import Request
from fieldapp.screens.crew.told import told_rows
from fieldapp.screens.frame_view import PlateView
from fieldapp.screens.row_view import ListView, RowView

BACK = PlateView("back", "Back")
SAFE = PlateView("safe", "Stop and make safe", kind="warning")
_RAIL = (
    BACK,
    SAFE,
    PlateView("new key", "Make a key", "of your own"),
    PlateView("trust", "Take in", "from office"),
)
NO_OFFICE = "This tablet knows no office yet: touch “Take in” once its trust file is here."
_MARKS = {
    Standing.COUNTS: "proven",
    Standing.NOT_YET: "notyet",
    Standing.RAN_OUT: "notyet",
    Standing.WITHDRAWN: "failed",
}


def crew_view(
    roster: Roster | None, waiting: Sequence[Request], here: frozenset[str], now: datetime,
    start: int, told: tuple[str, bool],
) -> ListView:  # fmt: skip
    """Return everybody that the office vouches for, and the keys that wait for it."""
    members = members_of(roster, now, here) if roster else ()
    return ListView(
        title="People and keys",
        rail=_RAIL,
        rows=(
            *told_rows(told),
            _office_row(roster, now),
            *map(_waiting_row, waiting),
            *map(_member_row, members),
        ),
        start=start,
    )


def _office_row(roster: Roster | None, now: datetime) -> RowView:
    if roster is None:
        return RowView("", (), "No office yet", NO_OFFICE, "unproven", "")
    until = roster.revocation_list.next_update_utc
    due = f"{until:%Y-%m-%d}" if until else "not known"
    over = list_ran_out(roster, now)
    told = "ran out on" if over else "next due"
    words = f"Office key {in_groups(roster.fingerprint)}. List {roster.number}, {told} {due}."
    return RowView("", (), name_of(roster.authority), words, "failed" if over else "proven",
                   "list is old" if over else "office")  # fmt: skip


def _waiting_row(request: Request) -> RowView:
    words = f"Key {in_groups(request.fingerprint)}. The office has not answered yet."
    return RowView("request", (request.fingerprint,), request.name, words, "todo", "asked",
                   below="touch for the file")  # fmt: skip


def _member_row(member: Member) -> RowView:
    place = "on this tablet" if member.key_here else "on another tablet"
    words = f"{member.role}. Key {in_groups(member.fingerprint)}, {place}."
    words = f"{words[:1].upper()}{words[1:]}"
    return RowView("", (), member.name, words, _MARKS[member.standing], member.standing,
                   right=_day(member), below=_under(member))  # fmt: skip


def _day(member: Member) -> str:
    if member.withdrawn_on is not None:
        return f"{member.withdrawn_on:%Y-%m-%d}"
    day = member.since if member.standing is Standing.NOT_YET else member.until
    return f"{day:%Y-%m-%d}"


def _under(member: Member) -> str:
    if member.withdrawn_on is not None:
        return "key lost" if member.key_lost else "left"
    return "from then" if member.standing is Standing.NOT_YET else "until then"
