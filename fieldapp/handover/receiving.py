"""Takes the journals of a hand-over file in: all of it is checked before anything is written."""

from collections.abc import Iterator
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path

from fieldapp.crew.roster import Roster
from fieldapp.handover.archive import unpacked
from fieldapp.handover.copying import write_journal
from fieldapp.handover.errors import HandOverForkedError
from fieldapp.handover.examination import Examined, Journal, demand_job, events_in, examined
from fieldapp.handover.manifest import signer_words
from fieldapp.handover.relation import Relation, relation
from fieldapp.journal import disk
from fieldapp.journal.reading import Inspection, sound_inspection
from fieldapp.journal.union import ParallelStoriesError, events_of, one_story


@dataclass(frozen=True, slots=True)
class Received:
    """What came of a hand-over file: how many entries of which tablet are new here."""

    job: str
    signer: str
    new: tuple[tuple[str, int], ...]


def receive(content: bytes, home: Path, device: str, roster: Roster | None) -> Received:
    """Take a hand-over file in, the union by device and entry; return what is new."""
    found = examined(unpacked(content))
    signer = signer_words(found.signed, found.signature, roster)
    folder = home / "jobs" / found.manifest.job
    with ExitStack() as held:
        _hold(held, folder, (device, *(journal.device for journal in found.journals)))
        here = _here(folder)
        wanted = tuple(_wanted(found, here, device))
        _demand_one_story(found, here)
        folder.mkdir(parents=True, exist_ok=True)
        for journal in wanted:
            write_journal(journal.raw, folder / f"{journal.device}.journal")
    new = tuple((each.device, _more(each, here.get(each.device))) for each in wanted)
    return Received(found.manifest.job, signer, new)


def _hold(held: ExitStack, folder: Path, devices: tuple[str, ...]) -> None:
    """Nobody adds to the job while it is taken in."""
    if folder.is_dir():
        for device in sorted(set(devices)):
            held.enter_context(disk.alone(folder / f"{device}.journal"))


def _here(folder: Path) -> dict[str, Inspection]:
    return {path.stem: sound_inspection(path) for path in sorted(folder.glob("*.journal"))}


def _wanted(found: Examined, here: dict[str, Inspection], device: str) -> Iterator[Journal]:
    """The journals that tell more than those here; a fork anywhere refuses the whole file."""
    for journal in found.journals:
        there = here.get(journal.device)
        stands = relation(journal.chain, there.chain) if there else Relation.LONGER
        if stands is Relation.FORK:
            raise HandOverForkedError(
                f"the journal of {journal.device} in it and the one here tell different stories"
            )
        if stands is not Relation.LONGER:
            continue
        if journal.device == device:
            raise HandOverForkedError(
                f"it holds entries of this tablet ({device}) that are missing here"
            )
        yield journal


def _demand_one_story(found: Examined, here: dict[str, Inspection]) -> None:
    parts = {name: events_of(each.bodies) for name, each in here.items()}
    for journal in found.journals:
        events = events_in(journal)
        if len(events) >= len(parts.get(journal.device, ())):
            parts[journal.device] = events
    try:
        story = one_story(parts)
    except ParallelStoriesError as parallel:
        both = " and ".join(parallel.devices)
        raise HandOverForkedError(f"{both} each went on after event {parallel.after}") from parallel
    demand_job(found.manifest.job, story)


def _more(journal: Journal, there: Inspection | None) -> int:
    return len(journal.chain.bodies) - (len(there.bodies) if there else 0)
