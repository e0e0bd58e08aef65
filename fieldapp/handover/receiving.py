"""Takes the journals of a hand-over file in: all of it is checked before anything is written."""

from collections.abc import Iterator
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path

from fieldapp.crew.roster import Roster
from fieldapp.handover.archive import Source, picture_in, pictures_listed, unpacked
from fieldapp.handover.copying import write_journal
from fieldapp.handover.errors import HandOverForkedError, HandOverRefusedError, SecondStoryError
from fieldapp.handover.examination import (
    Examined,
    Journal,
    demand_job,
    demand_true_settlements,
    examined,
)
from fieldapp.handover.manifest import signer_words
from fieldapp.handover.pictures import demand_picture, keep_picture, named_by
from fieldapp.handover.relation import Relation, relation
from fieldapp.job.events import Event, Settled, event_of
from fieldapp.journal.folders import job_folders, journals_in
from fieldapp.journal.lines import disk
from fieldapp.journal.lines.reading import Inspection, sound_inspection
from fieldapp.journal.tablets.story import Conflict, kept_in, way_to
from fieldapp.journal.tablets.union import ParallelStoriesError, events_of, one_story
from fieldapp.whole import make_folder


@dataclass(frozen=True, slots=True)
class Received:
    """What came of a hand-over file: how many entries of which tablet are new here.

    `conflict` is where tablets went on apart; a person has to settle it before the job is opened.
    `settled` are the settlements that came with it.
    """

    job: str
    signer: str
    new: tuple[tuple[str, int], ...]
    conflict: Conflict | None = None
    settled: tuple[Event, ...] = ()


def receive(
    source: Source, home: Path, device: str, roster: Roster | None, *, both: bool = False
) -> Received:
    """Take a hand-over file in, the union by device and entry; return what is new.

    A file that would bring a second story is refused, so that work can go on here, unless `both`
    sides are wanted to settle it.
    """
    found = examined(unpacked(source))
    _demand_pictures(found, source)
    signer = signer_words(found.signed, found.signature, roster)
    folder = home / "jobs" / found.manifest.job
    with ExitStack() as held:
        _hold(held, folder, (device, *(journal.device for journal in found.journals)))
        here = _here(folder)
        _demand_told_apart(found, home, here, device)
        wanted = tuple(_wanted(found, here, device))
        conflict = _conflict(found, here)
        if conflict and wanted and not both:
            raise SecondStoryError(conflict)
        make_folder(folder)
        for name in found.manifest.pictures:
            keep_picture(folder, name, picture_in(source, name))
        for journal in wanted:
            write_journal(journal.raw, folder / f"{journal.device}.journal")
    new = tuple((each.device, _more(each, here.get(each.device))) for each in wanted)
    settled = tuple(event for each in wanted for event in _settled(each, here.get(each.device)))
    return Received(found.manifest.job, signer, new, conflict, settled)


def _demand_pictures(found: Examined, source: Source) -> None:
    """Each picture is on the list, named by an event, what was kept, and no trap."""
    named = named_by(body for journal in found.journals for body in journal.chain.bodies)
    if {*pictures_listed(source)} != {*found.manifest.pictures}:
        raise HandOverRefusedError("the pictures in it are not those on its list")
    for name in found.manifest.pictures:
        if name.partition(".")[0] not in named:
            raise HandOverRefusedError(f"no event of the job names picture {name} in it")
        demand_picture(name, picture_in(source, name))


def _demand_told_apart(
    found: Examined, home: Path, here: dict[str, Inspection], device: str
) -> None:
    """Refuse names that differ from those here in capitals alone: some disks take them for one."""
    jobs = [path.name for path in job_folders(home)]
    names = [
        (found.manifest.job, jobs),
        *((each.device, [*here, device]) for each in found.journals),
    ]
    for name, known in names:
        alike = [other for other in known if other != name and other.casefold() == name.casefold()]
        if alike:
            raise HandOverRefusedError(f"{name} in it and {alike[0]} here differ in capitals alone")


def _hold(held: ExitStack, folder: Path, devices: tuple[str, ...]) -> None:
    """Nobody adds to the job while it is taken in."""
    if folder.is_dir():
        for device in sorted(set(devices)):
            held.enter_context(disk.alone(folder / f"{device}.journal"))


def _here(folder: Path) -> dict[str, Inspection]:
    return {path.stem: sound_inspection(path) for path in journals_in(folder)}


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


def _conflict(found: Examined, here: dict[str, Inspection]) -> Conflict | None:
    """Where the file and the tablet together go apart; what they tell must be of that job."""
    parts = {name: each.bodies for name, each in here.items()}
    for journal in found.journals:
        if len(journal.chain.bodies) >= len(parts.get(journal.device, ())):
            parts[journal.device] = journal.chain.bodies
    kept = [each for bodies in parts.values() for each in kept_in(bodies)]
    demand_true_settlements(kept)
    try:
        story = one_story(kept)
    except ParallelStoriesError as parallel:
        for branch in parallel.conflict.branches:
            demand_job(found.manifest.job, [each.event for each in way_to(kept, branch)])
        return parallel.conflict
    demand_job(found.manifest.job, story)
    return None


def _more(journal: Journal, there: Inspection | None) -> int:
    return len(journal.chain.bodies) - (len(there.bodies) if there else 0)


def _settled(journal: Journal, there: Inspection | None) -> Iterator[Event]:
    known = len(there.bodies) if there else 0
    for document in events_of(journal.chain.bodies[known:]):
        if isinstance((event := event_of(document)).what, Settled):
            yield event
