"""The shipped lists but the hookup, each played to its end as a job that follows one."""

from dataclasses import dataclass
from datetime import datetime
from functools import cache

from fieldapp.actions.beginning import Following, begin, job_of
from fieldapp.actions.rules import Act
from fieldapp.job.events import Event
from fieldapp.job.job import Job
from fieldapp.record.chapters.shapes.shapes_of_sources import Content
from fieldapp.record.content import content_of
from fieldapp.record.pages.kit.paper import A4
from tests.checklists.playing import BEGIN, TECHNICIAN, Playing, checklist_text, sheet

HOOKUP, HEAD_OF_HOOKUP = "SP-T2-2026-01", "7c" * 32
ALONE = ("oil_sampling", "vacuum_treatment")


@dataclass(frozen=True)
class Played:
    """A job that was done and signed off, and its record."""

    job: Job
    at: datetime
    head: tuple[int, str]
    content: Content


@cache
def played(name, paper=A4):
    playing = Playing(name)
    if name not in ALONE:
        following = Following(HOOKUP, HEAD_OF_HOOKUP)
        found = begin(checklist_text(name), sheet(), Act(TECHNICIAN, BEGIN), following)
        playing.job = job_of(tuple(event for event in found if isinstance(event, Event)))
    playing.through()
    head = (len(playing.job.state.log), "ab" * 32)
    content = content_of(playing.job, playing.now, head=head, version="0.0.0", paper=paper.name)
    return Played(playing.job, playing.now, head, content)
