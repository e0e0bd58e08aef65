"""Why a hand-over file is not taken in."""

from fieldapp.errors import FieldAppError


class HandOverRefusedError(FieldAppError):
    """A hand-over file is not what this program makes, or was changed on its way."""

    def __init__(self, why: str) -> None:
        super().__init__(f"{why}. Nothing was written; ask for the hand-over file again")
        self.why = why


class HandOverForkedError(FieldAppError):
    """The file and this tablet tell different stories of the same work."""

    def __init__(self, why: str) -> None:
        super().__init__(
            f"{why}. Nothing was written and nothing is chosen: "
            f"keep this file and the tablet as they are and settle it with the office"
        )
        self.why = why
