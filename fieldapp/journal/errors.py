"""What can go wrong with a journal, each with the file, the reason and the way on."""

from pathlib import Path

from fieldapp.errors import FieldAppError


class JournalDamagedError(FieldAppError):
    """A saved entry is no longer what was saved, or it is gone."""

    def __init__(self, path: Path, entry: int, why: str) -> None:
        super().__init__(
            f"{path}, entry {entry}: {why}. Nothing was changed. Keep this file and the files "
            f"beside it as they are and give them to the office. "
            f"Entries before it that can be read: {entry - 1}."
        )
        self.path = path
        self.entry = entry
        self.why = why

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return (
            f"Entry {self.entry} cannot be relied on: {_without_file(self.why)}. Nothing was "
            f"changed. Leave this job as it is and give the tablet to the office. Entries that can "
            f"be read: {self.entry - 1}."
        )


class JournalFormatError(FieldAppError):
    """The journal was written by a version that keeps its entries in another way."""

    def __init__(self, path: Path, written: object, known: int) -> None:
        super().__init__(
            f"{path}: kept in format {written}, this version reads format {known}. "
            f"Open it with the version of the program that wrote it, or with a newer one."
        )
        self.path = path
        self.written = written
        self.known = known

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return (
            f"Kept in format {self.written}; the program on this tablet reads format {self.known}. "
            f"Nothing was changed. Ask the office for the program that reads it."
        )


class JournalOfOtherDeviceError(FieldAppError):
    """Only the device that began a journal may add to it."""

    def __init__(self, path: Path, device: str, written_by: str) -> None:
        super().__init__(
            f"{path}: belongs to {written_by}, this is {device}. Only {written_by} adds to it; "
            f"open the job with the journal of this device."
        )
        self.path = path
        self.device = device
        self.written_by = written_by

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return (
            f"It belongs to {self.written_by}; this is {self.device}. Go on with the job on "
            f"{self.written_by}, or hand it over from there as one file."
        )


class JournalBusyError(FieldAppError):
    """Another window or program holds the journal."""

    def __init__(self, path: Path) -> None:
        super().__init__(f"{path}: open in another window or program. Close it there first.")
        self.path = path


class JournalUnavailableError(FieldAppError):
    """The disk does not let the journal be opened."""

    def __init__(self, path: Path, why: str) -> None:
        super().__init__(
            f"{path}: cannot be opened ({why}). "
            f"Look that its folder is there, has space and may be written to."
        )
        self.path = path
        self.why = why

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return (
            f"It cannot be opened ({self.why.lower()}). Look whether there is room, and whether "
            f"the card or share is plugged in; else the office must look at the tablet."
        )


class JournalPoisonedError(FieldAppError):
    """Nothing more is written until the journal has been opened again and checked."""

    def __init__(self, path: Path, why: str) -> None:
        super().__init__(
            f"{path}: NOT SAVED, {why}. Close the job and open it again; "
            f"it then shows what is saved. Enter again what is missing."
        )
        self.path = path
        self.why = why

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return (
            f"NOT SAVED, {self.why}. Enter it again: the job is then read anew and shows what is "
            f"saved."
        )


class NoSpaceError(FieldAppError):
    """The entry did not fit on the disk; the journal is as it was before."""

    def __init__(self, path: Path) -> None:
        super().__init__(
            f"{path}: NOT SAVED, the disk has no space left. Remove files that are not needed, "
            f"then enter it again. What was saved before is safe."
        )
        self.path = path

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return (
            "NOT SAVED, the tablet has no space left. Remove pictures or files that are not "
            "needed, then enter it again. What was saved before is safe."
        )


class EntriesAreForEverError(FieldAppError):
    """Something tried to change or remove what a journal keeps."""

    def __init__(self, path: Path, table: str, act: str) -> None:
        super().__init__(
            f"{path}, table {table}: {act} is not possible, entries are for ever. "
            f"Insert a further document that corrects the earlier one."
        )
        self.path = path
        self.table = table
        self.act = act


class DocumentRefusedError(FieldAppError):
    """A document holds something that would not be read back exactly as it was given."""

    def __init__(self, place: str, why: str) -> None:
        super().__init__(f"NOT SAVED, {place or 'the document'}: {why}.")
        self.place = place
        self.why = why

    @property
    def at_tablet(self) -> str:
        """As on the screen of a tablet."""
        return "NOT SAVED, a sign in what was typed cannot be kept. Type it again without it."


def _without_file(why: str) -> str:
    return why.replace("its .head file", "its head")
