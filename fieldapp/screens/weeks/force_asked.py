"""What is asked of a block, a restoring or a handing over: a text, with five to touch."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from fieldapp.job.sheet import CREW_LEAD, Person
from fieldapp.screens.frame_view import FrameView
from fieldapp.screens.reason_view import ReasonView

WHAT, PERSON, UNTIL, RESTORER, PROVED, TAKER = (
    "what", "person", "until", "restorer", "proved", "taker",
)  # fmt: skip
NO_TIME = "no time named"
FROM_THE_OWNER = ("authorised person", "owner's engineer")
_THINGS = ("a trip link is open", "tap changer on manual", "fire spray isolated",
           "an alarm in the control room", "a second permit")  # fmt: skip
_PROOFS = ("looked at and tried", "0 V measured, then closed", "the control room confirms",
           "relay reset, link closed", "handed back")  # fmt: skip
_HINT = "in your own words, or touch one below"
_NAME = "needs a name"
_MOST = 5


@dataclass(frozen=True, slots=True)
class _Question:
    title: str
    first: str
    second: str
    needs: str


_QUESTIONS = {
    WHAT: _Question("What is blocked, open or isolated?", "Go on", "then by whom", "say what"),
    PERSON: _Question("By whom? Name, role", "Go on", "then until when", _NAME),
    UNTIL: _Question("Until when?", "Keep it", "with the time", "needs a time"),
    RESTORER: _Question("Who restored it? Name, role", "Go on", "then how it was proved", _NAME),
    PROVED: _Question("How was it proved?", "Keep it", "with the time", "say how"),
    TAKER: _Question("Who takes over? Name, role", "Hand over", "with the time; then leave", _NAME),
}


def asked_view(
    purpose: str, typed: str, crew: Sequence[Person], who: str, now: datetime, frame: FrameView
) -> ReasonView:  # fmt: skip
    """Return the question for a purpose."""
    question = _QUESTIONS[purpose]
    offers = {WHAT: _THINGS, PROVED: _PROOFS, UNTIL: _times(now)}.get(purpose, ())
    if purpose in (PERSON, RESTORER):
        offers = _people(crew, FROM_THE_OWNER)
    elif purpose == TAKER:
        others = [person for person in crew if person.name != who]
        offers = _people(others, (CREW_LEAD, "technician", *FROM_THE_OWNER))
    return ReasonView(frame, question.title, _HINT, tuple(offers), typed, question.first,
                      question.second, question.needs)  # fmt: skip


def name_and_role(text: str) -> tuple[str, str]:
    """Return what stands before the first comma, and what stands behind it.

    >>> name_and_role("Ola Brandt, station keeper")
    ('Ola Brandt', 'station keeper')
    """
    name, _, role = text.partition(",")
    return name.strip(), role.strip()


def _people(crew: Sequence[Person], roles: Sequence[str]) -> tuple[str, ...]:
    known = [person for person in crew if person.role in roles]
    known.sort(key=lambda person: roles.index(person.role))
    return tuple(f"{person.name}, {person.role}" for person in known)[:_MOST]


def _times(now: datetime) -> tuple[str, ...]:
    later = [now + timedelta(hours=hours) for hours in (1, 2, 4, 8)]
    return (*(f"{moment:%Y-%m-%d %H:%M}" for moment in later), NO_TIME)
