"""What is shown once a key was made: its fingerprint to read out, and the file for the office."""

from pathlib import Path

from fieldapp.crew.fingerprint import in_groups
from fieldapp.crew.tablet.request import Request
from fieldapp.screens.crew.crew_view import BACK, SAFE
from fieldapp.screens.crew.told import path_words, said_rows
from fieldapp.screens.row_view import ListView, RowView


def made_view(request: Request, path: Path | None, start: int) -> ListView:
    """Return the fingerprint, where the file lies, and what comes next."""
    place = path_words(path) if path else "It was not written yet."
    return ListView(
        title=request.name,
        under=("a key of your own",),
        rail=(BACK, SAFE),
        rows=(
            RowView("", (), in_groups(request.fingerprint),
                    "The fingerprint of your key. Read it out, face to face, when the office "
                    "enrols you.", "now", "read out"),
            RowView("", (), "This file goes to the office", place, "todo", "carry"),
            *said_rows("todo", "then", "The office sends its trust file back",
                       "Take it in on this tablet. Until then this key signs nothing."),
            *said_rows("done", "kept", "The key stays here",
                       "Sealed under your secret. If that is forgotten, make a new key and let "
                       "the office withdraw this one."),
        ),
        start=start,
    )  # fmt: skip
