"""A hookup with the lists that follow it, as one course of drying."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from fieldapp.job.job import Job


@dataclass(frozen=True, slots=True)
class Course:
    """A job that stands alone, and those that follow it in the order in which they began.

    The hookup is None where only what follows it was brought to this tablet.
    """

    number: str
    hookup: Job | None
    followers: tuple[Job, ...] = ()

    @property
    def jobs(self) -> tuple[Job, ...]:
        """Return all its jobs in the order in which they began."""
        return (*((self.hookup,) if self.hookup else ()), *self.followers)

    @property
    def latest(self) -> datetime:
        """Return when something was entered last."""
        return max(job.state.log[-1].at for job in self.jobs)

    def of(self, checklist: str) -> tuple[Job, ...]:
        """Return its jobs of one list, in order."""
        return tuple(job for job in self.jobs if job.checklist.id == checklist)


def began(job: Job) -> datetime:
    """Return when a job began."""
    return job.state.log[0].at


def courses_of(jobs: Iterable[Job]) -> tuple[Course, ...]:
    """Return the courses that some jobs belong to, the one last worked on first."""
    ordered = sorted(jobs, key=began)
    numbers = dict.fromkeys(job.follows or job.number for job in ordered)
    alone = {job.number: job for job in ordered if not job.follows}
    found = (
        Course(number, alone.get(number), tuple(j for j in ordered if j.follows == number))
        for number in numbers
    )
    return tuple(sorted(found, key=lambda course: course.latest, reverse=True))
