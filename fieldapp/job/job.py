"""A job: its checklist, its sheet, and what has happened so far."""

from dataclasses import dataclass, replace

from fieldapp.checklist.model import Checklist
from fieldapp.job.events import Event
from fieldapp.job.sheet import JobSheet
from fieldapp.job.state import JobState, after


@dataclass(frozen=True, slots=True)
class Job:
    """One hookup at one transformer. It keeps to the checklist that it began with."""

    checklist: Checklist
    sheet: JobSheet
    state: JobState

    def with_events(self, events: tuple[Event, ...]) -> "Job":
        """Return the job once these have happened too."""
        state = self.state
        for event in events:
            state = after(state, event)
        return replace(self, state=state)
