"""What touches mean where a job is handed over as one file, or taken in from one."""

from collections.abc import Callable, Mapping
from pathlib import Path

from fieldapp.crew.members import Member, Standing, members_of
from fieldapp.crew.people import Signer
from fieldapp.crew.secret import Secret
from fieldapp.crew.tablet.request import keys_here
from fieldapp.crew.unlocking import unlock_signer
from fieldapp.errors import FieldAppError, said_at_tablet
from fieldapp.handover.errors import SecondStoryError
from fieldapp.handover.receiving import Received, receive
from fieldapp.handover.sending import file_hand_over
from fieldapp.journal.tablets.wording import entries
from fieldapp.screens.copies.handing_view import TakenIn, Written
from fieldapp.screens.desk.copies.desk_copies import place_here
from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.desk.state.desk_vouch import ask_secret, roster_here
from fieldapp.screens.place import Place

HAND_OVER = "hand over"
FOLDER, ENDING = "hand-over", ".handover"
_APART = "Open the job from the list of jobs: it shows both sides, and a person settles it."


def to_handing(state: DeskState, number: str) -> None:
    """Go to the hand-over of a job."""
    state.copies.written = None
    state.go(Place("handing", entry=number))


def vouch(state: DeskState, name: str) -> None:
    """Ask for the secret of who signs the file."""
    ask_secret(state, Place("secret", entry=state.place.entry, part=name, purpose=HAND_OVER))


def write_unsigned(state: DeskState) -> None:
    """Write the file without a signature."""
    _write(state, state.place.entry, "", lambda: None)


def write_signed(state: DeskState, secret: Secret) -> None:
    """Unlock the key of who signs, and write the file."""
    name, roster, now = state.place.part, roster_here(state), state.now
    if roster is not None:
        keys = state.home / "keys"
        _write(state, state.place.entry, name,
               lambda: unlock_signer(roster, keys, name, secret.text, now))  # fmt: skip


def to_files(state: DeskState) -> None:
    """Go to the hand-over files that lie ready."""
    state.copies.taken = state.copies.apart = None
    state.go(Place("files"))


def take(state: DeskState, file: str, *, both: bool = False) -> None:
    """Take a file in; nothing is written unless all of it is in order."""
    path, held = Path(file), state.copies
    held.taken, held.apart = None, None
    state.let_go_of_jobs()
    try:
        found = receive(path, state.home, state.jobs.device, roster_here(state), both=both)
    except SecondStoryError as apart:
        held.apart = path
        state.refused = apart.at_tablet
    except (FieldAppError, OSError) as failure:
        state.refused = said_at_tablet(failure)
    else:
        held.taken = _taken(path, found)


def take_both(state: DeskState) -> None:
    """Take in the side that tells another story, to settle it here."""
    if state.copies.apart is not None:
        take(state, str(state.copies.apart), both=True)


def files_here(state: DeskState) -> tuple[Path, ...]:
    """Return the hand-over files on what is plugged in, the newest first."""
    roots = dict.fromkeys((place_here(state), *state.cards()))
    folders = [place for root in roots if root for place in (root, root / FOLDER)]
    found = {path for folder in folders for path in folder.glob(f"*{ENDING}")}
    return tuple(sorted(found, key=lambda path: (-path.stat().st_mtime, path.name)))


def signers_here(state: DeskState) -> tuple[Member, ...]:
    """Return who can sign on this tablet now."""
    roster = roster_here(state)
    if roster is None:
        return ()
    try:
        here = keys_here(state.home / "keys")
    except FieldAppError as failure:
        state.refused = said_at_tablet(failure)
        return ()
    return tuple(one for one in members_of(roster, state.now, here)
                 if one.key_here and one.standing is Standing.COUNTS)  # fmt: skip


def _write(state: DeskState, number: str, signer: str, unlock: Callable[[], Signer | None]) -> None:
    place, home, now = place_here(state), state.home, state.now
    if place is None:
        return
    path = place / FOLDER / f"{number}-{now:%Y%m%d-%H%M%S}{ENDING}"

    def do() -> Written:
        key = unlock()
        return Written(path, signer, file_hand_over(path, home, number, now, key))

    def then(written: Written) -> None:
        state.copies.written = written
        if state.place.screen == "secret":
            state.back()

    state.begin("the file is being written", do, then)


def _taken(path: Path, found: Received) -> TakenIn:
    new = [f"{entries(many)} new, of {device}" for device, many in found.new]
    if found.conflict is not None:
        new.append(_APART)
    lines = (f"Job {found.job}, {found.signer}.", *(new or ["All of it was here already."]))
    return TakenIn(path.stem, lines, found.job, apart=found.conflict is not None)


DEEDS: Mapping[tuple[str, str], Callable[..., None]] = {
    ("copies", "hand over"): to_handing,
    ("handing", "vouch"): vouch,
    ("handing", "unsigned"): write_unsigned,
    ("copies", "files"): to_files,
    ("files", "take"): take,
    ("files", "both"): take_both,
}
