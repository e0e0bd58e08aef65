"""Why something was not possible, or what is to be read, as rows of a list."""

import os
from pathlib import Path
from textwrap import wrap

from fieldapp.screens.row_view import RowView

_A_LINE, _LINES = 78, 2
_A_PATH = 48


def told_rows(told: tuple[str, bool], first: str = "Not done") -> tuple[RowView, ...]:
    """Return the rows that say why the last act was not possible; none if it was."""
    words, stopped = told
    if not words:
        return ()
    sentence = f"{words[:1].upper()}{words[1:]}"
    return said_rows("failed", "", "NOT SAVED" if stopped else first, sentence)


def said_rows(mark: str, word: str, first: str, sentence: str) -> tuple[RowView, ...]:
    """Return a sentence as rows, two lines a row; the first has the mark and what it is about."""
    lines = wrap(sentence, _A_LINE, break_on_hyphens=False) or [""]
    parts = [" ".join(lines[at : at + _LINES]) for at in range(0, len(lines), _LINES)]
    more = (RowView("", (), "", part, goes_on=True) for part in parts[1:])
    return (RowView("", (), first, parts[0], mark, word), *more)


def path_words(path: Path) -> str:
    """Return a path in lines that are short enough for a tall sheet too."""
    text, lines = str(path), []
    while len(text) > _A_PATH:
        broken = text.rfind(os.sep, 1, _A_PATH) + 1 or _A_PATH
        lines.append(text[:broken])
        text = text[broken:]
    return "\n".join([*lines, text])
