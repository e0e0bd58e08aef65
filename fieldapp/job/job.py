"""A job: its checklist, its sheet, and what has happened so far."""

from dataclasses import dataclass, replace

from fieldapp.checklist.model import Checklist, Entry
from fieldapp.job.events import Begun, Event
from fieldapp.job.sheet import JobSheet
from fieldapp.job.state import Attempt, JobState, after


@dataclass(frozen=True, slots=True)
class Job:
    """One list at one transformer. It keeps to the checklist that it began with."""

    checklist: Checklist
    sheet: JobSheet
    state: JobState

    @property
    def begun(self) -> Begun:
        """Return what the job was begun from: the first event of its journal."""
        first = self.state.log[0].what
        assert isinstance(first, Begun)  # noqa: S101 - the journal begins with it
        return first

    @property
    def number(self) -> str:
        """Return the job's own number; that of its job sheet is the hookup's."""
        return self.begun.number

    @property
    def follows(self) -> str:
        """Return the number of the hookup that this job follows; "" if it stands alone."""
        return self.begun.follows

    def running(self) -> tuple[tuple[Entry, Attempt], ...]:
        """Return the traces and holds that run now, in the order of the checklist."""
        found = (
            (entry, self.state.attempt(entry.id))
            for step in self.checklist.steps()
            for entry in step.entries
        )
        return tuple((entry, one) for entry, one in found if one is not None and one.ended is None)

    def with_events(self, events: tuple[Event, ...]) -> "Job":
        """Return the job once these have happened too."""
        state = self.state
        for event in events:
            state = after(state, event)
        return replace(self, state=state)
