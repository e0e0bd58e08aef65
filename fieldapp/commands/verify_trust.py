"""Whose word `fieldapp verify` takes for the signers of a record."""

from dataclasses import dataclass, replace
from pathlib import Path

from fieldapp.crew.fingerprint import in_groups
from fieldapp.crew.roster import FOLDER, Roster, find_roster
from fieldapp.crew.trust_file import read_trust


@dataclass(frozen=True, slots=True)
class Trust:
    """An authority that is believed, where it was found, and what is to be known about that."""

    roster: Roster
    place: Path
    notes: tuple[str, ...] = ()


class Believed:
    """Finds the trust for each record: the one given, else this device's, else the one beside it.

    Each is read once. This device's list of certificates taken back is never set aside for an
    older one of the same authority.
    """

    def __init__(self, home: Path, given: Path | None) -> None:
        self._home, self._given = home, given
        self._read: dict[Path, Trust] = {}
        if given is not None:
            self._trust_in(given)  # what was named must be there, whatever the records are

    def for_record(self, record: Path) -> Trust | None:
        """Return whom to believe about a record, or nobody."""
        place = find_roster(record, self._home, self._given)
        return self._trust_in(place) if place is not None else None

    def _trust_in(self, place: Path) -> Trust:
        if place not in self._read:
            self._read[place] = self._with_own_list(Trust(read_trust(place), place))
        return self._read[place]

    def _with_own_list(self, trust: Trust) -> Trust:
        own = self._home / FOLDER
        if trust.place == own:
            return trust
        if not own.is_dir():
            return self._noted(trust) if self._given is None else trust
        held = read_trust(own)
        if held.fingerprint != trust.roster.fingerprint or held.number <= trust.roster.number:
            return trust
        note = (
            f"{trust.place} holds list number {trust.roster.number} of those withdrawn; number "
            f"{held.number} from {own} was used: ask the office for its newest trust folder"
        )
        roster = replace(trust.roster, revocation_list=held.revocation_list)
        return Trust(roster, trust.place, (note,))

    def _noted(self, trust: Trust) -> Trust:
        note = (
            "the trust folder lay beside the record, and who forges one can forge the other: "
            f"compare the office’s key {in_groups(trust.roster.fingerprint)} with the office"
        )
        return replace(trust, notes=(note,))
