"""Asking for one person's secret: whom the tablet trusts, and how long a wrong one makes wait."""

from fieldapp.crew.keys import key_path
from fieldapp.crew.roster import Roster
from fieldapp.crew.tablet.patience import next_try
from fieldapp.crew.tablet.taking_in import held_roster
from fieldapp.crew.tablet.tries import tries_at
from fieldapp.errors import FieldAppError, said_at_tablet
from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.place import Place


def ask_secret(state: DeskState, place: Place) -> None:
    """Ask the person in a place's part for their secret."""
    look_how_long(state, place.part)
    state.go(place)


def wait_again(state: DeskState) -> None:
    """Look again how long that person has to wait after a wrong secret."""
    if state.place.screen == "secret" and state.place.part:
        look_how_long(state, state.place.part)


def roster_here(state: DeskState) -> Roster | None:
    """Return the tablet's trust folder; one that is hurt counts as none, and says so."""
    try:
        return held_roster(state.home)
    except FieldAppError as failure:
        state.refused = said_at_tablet(failure)
        return None


def look_how_long(state: DeskState, name: str) -> None:
    """Look how long a person has to wait before the next try."""
    roster = roster_here(state)
    if roster is not None:
        path = key_path(state.home / "keys", roster.named(name))
        state.keys.wait_until = next_try(tries_at(path, state.now))
