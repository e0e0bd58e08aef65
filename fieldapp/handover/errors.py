"""Why a hand-over file is not taken in."""

from fieldapp.errors import FieldAppError
from fieldapp.journal.tablets.story import Conflict


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


class SecondStoryError(FieldAppError):
    """The file would bring a second story of the job: two tablets were at work at once."""

    def __init__(self, conflict: Conflict) -> None:
        super().__init__(
            f"{conflict.both} each went on after event {conflict.after}. Nothing was written, so "
            f"the job can be worked on here. To settle it on this tablet, take both sides in with "
            f"--both"
        )
        self.conflict = conflict

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return (
            f"{self.conflict.both} each went on with this job. Nothing was written, so it can be "
            f"worked on here. To settle it on this tablet touch “Take in both”"
        )
