"""The emergency card: what may have to be done, and when it was; here nothing waits."""

from dataclasses import dataclass
from datetime import datetime

from fieldapp.job.emergency import CAUTION, LOCAL, ROWS
from fieldapp.job.events import MadeSafe
from fieldapp.job.job import Job

NOTED = {"control_room": "Add a name", "leaving": "Add what, whom"}


@dataclass(frozen=True, slots=True)
class SafeRow:
    """One act: its words, when it was done last ("" if not yet), and what can be added."""

    id: str
    words: str
    stamped: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class SafeView:
    """The card of one job; without a job nothing can be stamped, and it says so."""

    title: str
    clock: str
    who: str
    rows: tuple[SafeRow, ...]
    caution: str = CAUTION
    local: str = LOCAL
    told: str = ""
    not_saved: bool = False
    back: str = "Back"


def safe_view(job: Job | None, now: datetime, who: str, told: str, *, not_saved: bool) -> SafeView:
    """Return the card with the time of each act of today's work."""
    stamps = _stamps(job) if job else {}
    unit = job.sheet.text_of("unit") if job else ""
    site = job.sheet.text_of("site_name") if job else ""
    title = f"{unit}, {site}" if job else "No job is open: nothing is stamped"
    return SafeView(
        title=title,
        clock=f"{now:%H:%M}",
        who=who or "nobody named",
        rows=tuple(SafeRow(i, words, stamps.get(words, ""), NOTED.get(i, "")) for i, words in ROWS),
        told=told,
        not_saved=not_saved,
    )


def words_of_row(row: str) -> str:
    """Return the words of a row of the card."""
    return dict(ROWS)[row]


def _stamps(job: Job) -> dict[str, str]:
    stamps: dict[str, str] = {}
    for event in job.state.of(MadeSafe):
        what = event.what
        if isinstance(what, MadeSafe):
            note = f", {what.note}" if what.note else ""
            stamps[what.done] = f"{event.at:%d %b %H:%M}, {event.by or 'nobody named'}{note}"
    return stamps
