"""What touches mean at a photo: a picture of the tablet is chosen, looked at, and kept."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path

from fieldapp.checklist.model import Entry
from fieldapp.journal import pictures
from fieldapp.journal.pictures import PictureRefusedError
from fieldapp.screens.desk.desk_steps import turn_page
from fieldapp.screens.desk.state.desk_state import DeskState
from fieldapp.screens.entry.entry_photo import LIST, Found
from fieldapp.screens.entry.tablet_pictures import newest_pictures

CHOSEN = "chosen"


def pictures_here(state: DeskState, entry: Entry) -> Found:
    """Return what there is to choose from, what is chosen, and where the kept picture lies."""
    given = state.job.state.latest(entry.id)
    sha256 = given.fields.get("sha256", "") if given else ""
    return Found(
        newest_pictures(state.cameras, state.now),
        state.text(entry.id, CHOSEN),
        pictures.path_of(_folder(state), sha256) if sha256 else None,
    )


def kept_picture(state: DeskState, entry: Entry) -> dict[str, str] | None:
    """Keep the chosen picture in the job's folder; return what the journal keeps of it.

    None where it cannot be kept; why is told.
    """
    chosen = state.text(entry.id, CHOSEN)
    if not chosen:
        return {}
    try:
        picture = pictures.keep(_folder(state), Path(chosen))
    except PictureRefusedError as refused:
        state.refused = str(refused)
        return None
    return {"photo": picture.name, "sha256": picture.sha256}


def choose(state: DeskState, path: str) -> None:
    """Show a picture large, before it is kept."""
    state.type(state.place.entry, path, CHOSEN)


def another(state: DeskState) -> None:
    """Go back to the pictures to choose from."""
    state.forget(state.place.entry)
    state.place = replace(state.place, part=LIST, start=0)


def turn(state: DeskState, start: str) -> None:
    """Show the pictures, or the answers, from another one on."""
    turn_page(state, int(start))


def _folder(state: DeskState) -> Path:
    return state.jobs.folder(state.job.number)


DEEDS: Mapping[tuple[str, str], Callable[..., None]] = {
    ("entry", "picture"): choose,
    ("entry", "another"): another,
    ("entry", "page"): turn,
}
