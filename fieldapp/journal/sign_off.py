"""A job as its crew lead signed it off: what is stamped later belongs to the lists that follow."""

from dataclasses import dataclass, replace
from pathlib import Path

from fieldapp.actions.rules import LEAD
from fieldapp.job.events import Event, document_of
from fieldapp.job.job import Job
from fieldapp.job.state import replay
from fieldapp.journal.folders import journals_in
from fieldapp.journal.jobs import KeptJob
from fieldapp.journal.lines.chain import Head
from fieldapp.journal.lines.reading import sound_inspection
from fieldapp.journal.tablets.story import kept_in


@dataclass(frozen=True, slots=True)
class Recorded:
    """What a record tells of: a job, and the entry of the journal with which it ends."""

    job: Job
    head: Head


def as_signed_off(kept: KeptJob, folder: Path) -> Recorded:
    """Return a job up to its sign-off, the same on every tablet; as it is while there is none."""
    closing = kept.job.state.signature(LEAD)
    if closing is None:
        return Recorded(kept.job, kept.head)
    log = kept.job.state.log
    told = replay(log[: log.index(closing) + 1])
    return Recorded(replace(kept.job, state=told), _entry_of(closing, folder) or kept.head)


def _entry_of(event: Event, folder: Path) -> Head | None:
    """Return the entry that keeps an event, in whichever tablet's journal it is."""
    document = document_of(event)
    for path in journals_in(folder):
        found = sound_inspection(path)
        for each in kept_in(found.bodies):
            if each.event == document:
                return Head(each.entry, found.chain.hash_of(each.entry))
    return None
