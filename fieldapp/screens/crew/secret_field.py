"""The field for a name or a secret: one line, and nothing of it is kept or suggested."""

from __future__ import annotations

from fieldapp.screens import theme
from fieldapp.screens.kit.note import NoteField

FIELD_HIGH = 100


class SecretField(NoteField):
    """One line; the tablet's keyboard keeps nothing of it and suggests nothing."""

    def __init__(self, **kwargs: object) -> None:
        """Take one line, as large as a value is typed."""
        super().__init__(**kwargs)
        self.multiline = False
        self.keyboard_suggestions = False
        self.allow_copy = False
        self.text_validate_unfocus = False
        self.padding[1] = (FIELD_HIGH - 6 - 1.5 * theme.TASK) / 2
