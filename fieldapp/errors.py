"""The one exception that every failure of the world is derived from."""


class FieldAppError(Exception):
    """Something outside the program failed; the message says what and what to do."""

    @property
    def at_tablet(self) -> str:
        """The same for who stands at a tablet, where nobody knows folders or commands."""
        folder, mark, rest = str(self).partition(": ")
        return rest if mark and ("/" in folder or "\\" in folder) else str(self)


def said_at_tablet(failure: FieldAppError | OSError) -> str:
    """Return a failure as the screen says it."""
    if isinstance(failure, FieldAppError):
        return failure.at_tablet
    why = (failure.strerror or "it cannot be used").lower()
    return f"Not possible ({why}): look whether the card or share is plugged in and has room"
