"""What is shown of people and keys, and of the signed record."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from fieldapp.crew.tablet.request import keys_here, pending
from fieldapp.errors import FieldAppError, said_at_tablet
from fieldapp.screens.copies.hurt_view import GAP
from fieldapp.screens.crew.crew_view import BACK, SAFE, crew_view
from fieldapp.screens.crew.made_view import made_view
from fieldapp.screens.crew.secret_view import AGAIN, NAME, NEW, secret_view
from fieldapp.screens.crew.trust_view import offer_view, trust_view
from fieldapp.screens.desk.desk_frame import told
from fieldapp.screens.desk.keys import desk_keys, desk_record
from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.desk.state.desk_vouch import roster_here
from fieldapp.screens.frame_view import FrameView
from fieldapp.screens.signing.record_view import record_view, signers_of


def _crew(state: DeskState) -> object:
    roster, keys = roster_here(state), state.home / "keys"
    try:
        here = keys_here(keys)
        enrolled = (
            frozenset(person.fingerprint for person in roster.people) if roster else here - here
        )
        waiting = pending(keys, enrolled)
    except FieldAppError as failure:
        here, waiting = frozenset(), ()
        state.refused = said_at_tablet(failure)
    return crew_view(roster, waiting, here, state.now, state.place.start, told(state))


def _secret(state: DeskState) -> object:
    purpose, keys = state.place.purpose, state.keys
    own, asked = purpose in (NAME, NEW, AGAIN), _asked(state)
    words, stopped = told(state)
    frame = FrameView(
        unit=asked.about, site=asked.what,
        clock=f"{state.now:%H:%M}", plates=(BACK, SAFE), aside=True,
        refused=words, not_saved=words if stopped else "",
    )  # fmt: skip
    return secret_view(purpose, asked.name, frame, state.now, working=keys.bench.words,
                       until=None if own else keys.wait_until,
                       signs=asked.signs)  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Asked:
    """Who is asked, about what, and what that person signs."""

    name: str
    about: str
    what: str
    signs: str


def _asked(state: DeskState) -> _Asked:
    place = state.place
    if place.purpose in (NAME, NEW, AGAIN):
        return _Asked(state.keys.name, "A key of your own", "made on this tablet", "")
    if place.part:
        what = "the statement of the gap" if place.purpose == GAP else "the hand-over file"
        signs = f"{what} of {place.entry}, as its journals stand"
        return _Asked(place.part, place.entry, what, signs)
    name = desk_record.name_of_signer(state, place.purpose)
    return _Asked(name, state.job.number, "the signed record", desk_record.signed_words(state))


def _made(state: DeskState) -> object:
    assert state.keys.made is not None  # noqa: S101 - this screen follows the making
    return made_view(state.keys.made, state.keys.request, state.place.start)


def _trust(state: DeskState) -> object:
    folder = state.home / desk_keys.FROM_OFFICE
    return trust_view(desk_keys.files_from_office(state), folder, state.place.start, told(state))


def _offer(state: DeskState) -> object:
    return offer_view(desk_keys.offer_here(state), state.now, state.place.start, told(state),
                      working=state.keys.bench.words)  # fmt: skip


def _record(state: DeskState) -> object:
    roster = roster_here(state)
    signers = signers_of(state.job, roster, state.home / "keys", state.keys.signers)
    return record_view(
        state.job, state.evaluation(), desk_record.facts_of(state), signers, state.place.start,
        told(state), trust=roster is not None, working=state.keys.bench.words,
    )  # fmt: skip


VIEWS: Mapping[str, Callable[[DeskState], object]] = {
    "crew": _crew,
    "secret": _secret,
    "made": _made,
    "trust": _trust,
    "offer": _offer,
    "record": _record,
}
