"""What touches mean for people and keys: a key of one's own, a secret, what the office sent."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path

from fieldapp.crew.authority import UnfitNameError
from fieldapp.crew.keys import SHORTEST_SECRET, ShortSecretError
from fieldapp.crew.secret import Secret
from fieldapp.crew.tablet.request import FOR_OFFICE, Request, file_name, make_key, pending
from fieldapp.crew.tablet.taking_in import TakenIn, take_in, why_refused
from fieldapp.crew.trust_file import read_trust
from fieldapp.errors import FieldAppError, said_at_tablet
from fieldapp.screens.copies.hurt_view import GAP
from fieldapp.screens.crew.secret_view import AGAIN, NAME, NEW
from fieldapp.screens.crew.trust_view import Offer
from fieldapp.screens.desk.copies import desk_handing, desk_hurt
from fieldapp.screens.desk.keys import desk_record
from fieldapp.screens.desk.state import desk_vouch
from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.desk.state.desk_vouch import roster_here
from fieldapp.screens.place import Place
from fieldapp.whole import write_whole

FROM_OFFICE = "from-office"
_LONGEST_NAME = 64
_TOLD_IN_ROWS = frozenset(
    {"crew", "offer", "record", "copies", "places", "handing", "files", "hurt", "sides", "who"}
)
_ENDINGS = (".pem", ".crt")


def to_crew(state: DeskState) -> None:
    """Go to the people and keys; no job is in hand there."""
    state.kept = None
    state.go(Place("crew"))


def new_key(state: DeskState) -> None:
    """Ask whose key is made."""
    state.go(Place("secret", purpose=NAME))


def named(state: DeskState, text: str) -> None:
    """Hold the name of a new key; the secret is asked next."""
    name = " ".join(text.split())
    if not name or len(name.encode()) > _LONGEST_NAME:
        state.refused = str(UnfitNameError(name))
        return
    state.keys.name = name
    state.turn(Place("secret", purpose=NEW))


def given(state: DeskState, secret: Secret) -> None:
    """Take a secret for what it was asked for."""
    purpose = state.place.purpose
    if purpose == NEW:
        _hold(state, secret)
    elif purpose == AGAIN:
        _make(state, secret)
    elif purpose == desk_handing.HAND_OVER:
        desk_handing.write_signed(state, secret)
    elif purpose == GAP:
        desk_hurt.state_signed(state, secret)
    else:
        desk_record.unlock(state, purpose, secret)


def _hold(state: DeskState, secret: Secret) -> None:
    if len(secret.text) < SHORTEST_SECRET:
        state.refused = str(ShortSecretError())
        return
    state.keys.secret = secret
    state.turn(Place("secret", purpose=AGAIN))


def _make(state: DeskState, secret: Secret) -> None:
    keys = state.keys
    if keys.secret != secret:
        keys.secret = None
        state.refused = "The two secrets are not the same: type it again, from the start"
        state.turn(Place("secret", purpose=NEW))
        return
    keys.secret = None
    home, name = state.home, keys.name

    def do() -> tuple[Request, Path]:
        made = make_key(home / "keys", name, secret.text)
        return made, _write_request(home, made)

    def then(found: tuple[Request, Path]) -> None:
        keys.made, keys.request = found
        if state.place.screen == "secret":
            state.turn(Place("made"))

    state.begin("the key is being made and sealed", do, then)


def show_request(state: DeskState, fingerprint: str) -> None:
    """Show a key that waits for the office, and write its file again."""
    waiting = pending(state.home / "keys", frozenset())
    state.keys.made = next(one for one in waiting if one.fingerprint == fingerprint)
    state.keys.request = _write_request(state.home, state.keys.made)
    state.go(Place("made"))


def to_trust(state: DeskState) -> None:
    """Go to the files that the office sent."""
    state.go(Place("trust"))


def to_offer(state: DeskState, name: str) -> None:
    """Look into a file that the office sent."""
    state.go(Place("offer", entry=name))


def take_offer(state: DeskState) -> None:
    """Take in what the office sent; what was shown was compared."""
    offer = offer_here(state)
    assert offer.offered is not None  # noqa: S101 - without one there is no plate
    said = offer.offered.fingerprint if offer.held is None else ""
    home, offered, now = state.home, offer.offered, state.now

    def then(_: TakenIn) -> None:
        if state.place.screen == "offer":
            state.way = [place for place in state.way if place.screen not in ("trust", "crew")]
            state.turn(Place("crew"))

    state.begin("taking it in", lambda: take_in(home, offered, now, said), then)


def files_from_office(state: DeskState) -> tuple[str, ...]:
    """Return the names of the files that lie ready, the newest first."""
    folder = state.home / FROM_OFFICE
    found = [path for path in folder.glob("*") if path.suffix in _ENDINGS or path.is_dir()]
    newest = sorted(found, key=lambda path: (-path.stat().st_mtime, path.name))
    return tuple(path.name for path in newest)


def offer_here(state: DeskState) -> Offer:
    """Return what the file at hand says, or why it says nothing."""
    name = state.place.entry
    held = roster_here(state)
    try:
        offered = read_trust(state.home / FROM_OFFICE / name)
    except FieldAppError as failure:
        return Offer(name, None, held, said_at_tablet(failure))
    return Offer(name, offered, held, why_refused(offered, held, state.now))


def lock_unless_at_work(state: DeskState) -> None:
    """Let go of unlocked keys and secrets once somebody walks away from what they are for."""
    if state.place.screen not in ("secret", "record", "safe"):
        state.keys.lock()


def settle(state: DeskState, *, wait: bool = False) -> bool:
    """Take in the work that is ready; say whether there was any."""
    why = state.keys.bench.settle(wait=wait)
    if why:
        state.refused = f"{why[:1].upper()}{why[1:]}"
        desk_record.wait_again(state)
        desk_vouch.wait_again(state)
        at_first_row(state)
    return why is not None


def _write_request(home: Path, made: Request) -> Path:
    path = home / FOR_OFFICE / file_name(made.name)
    write_whole(path, made.text)
    return path


def at_first_row(state: DeskState) -> None:
    """Show a list from its first row, where what was not possible stands."""
    if state.refused and state.place.screen in _TOLD_IN_ROWS:
        state.place = replace(state.place, start=0)


DEEDS: Mapping[tuple[str, str], Callable[..., None]] = {
    ("jobs", "crew"): to_crew,
    ("crew", "new key"): new_key,
    ("crew", "request"): show_request,
    ("crew", "trust"): to_trust,
    ("trust", "offer"): to_offer,
    ("offer", "take in"): take_offer,
    ("secret", "named"): named,
    ("secret", "given"): given,
}
