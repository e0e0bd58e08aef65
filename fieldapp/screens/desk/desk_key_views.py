"""What is shown of people and keys, and of the signed record."""

from collections.abc import Callable, Mapping

from fieldapp.crew.tablet.request import keys_here, pending
from fieldapp.errors import FieldAppError
from fieldapp.screens.crew.crew_view import BACK, SAFE, crew_view
from fieldapp.screens.crew.made_view import made_view
from fieldapp.screens.crew.secret_view import AGAIN, NAME, NEW, secret_view
from fieldapp.screens.crew.trust_view import offer_view, trust_view
from fieldapp.screens.desk import desk_keys, desk_record
from fieldapp.screens.desk.desk_frame import told
from fieldapp.screens.desk.desk_state import DeskState
from fieldapp.screens.frame_view import FrameView
from fieldapp.screens.signing.record_view import record_view, signers_of


def _crew(state: DeskState) -> object:
    roster, keys = desk_keys.roster_here(state), state.home / "keys"
    try:
        here = keys_here(keys)
        enrolled = (
            frozenset(person.fingerprint for person in roster.people) if roster else here - here
        )
        waiting = pending(keys, enrolled)
    except FieldAppError as failure:
        here, waiting = frozenset(), ()
        state.refused = str(failure)
    return crew_view(roster, waiting, here, state.now, state.place.start, told(state))


def _secret(state: DeskState) -> object:
    purpose, keys = state.place.purpose, state.keys
    own = purpose in (NAME, NEW, AGAIN)
    job = None if own or state.kept is None else state.kept.job
    words, stopped = told(state)
    frame = FrameView(
        unit=job.number if job else "A key of your own",
        site="the signed record" if job else "made on this tablet",
        clock=f"{state.now:%H:%M}", plates=(BACK, SAFE), aside=True,
        refused=words, not_saved=words if stopped else "",
    )  # fmt: skip
    name = keys.name if own else desk_record.name_of_signer(state, purpose)
    return secret_view(purpose, name, frame, state.now, working=keys.bench.words,
                       until=None if own else keys.wait_until,
                       signs="" if own else desk_record.signed_words(state))  # fmt: skip


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
    roster = desk_keys.roster_here(state)
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
