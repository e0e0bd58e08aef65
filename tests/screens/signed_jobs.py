"""A tablet with a small job that both have signed off, and a crew with keys, for tests of keys."""

from datetime import timedelta
from pathlib import Path

from fieldapp.crew.enrolment import enrol_crew
from fieldapp.journal.jobs import Jobs, KeptJob
from fieldapp.screens.desk.desk import Desk
from tests.crew.offices import CHEAP, SECRET
from tests.record import small_job
from tests.record.small_job import BEGAN, LEAD, TECHNICIAN

__all__ = ["LEAD", "SECRET", "TECHNICIAN", "Tablet", "keep_signed_job"]


def keep_signed_job(home, made=small_job.signed_off):
    """Keep the small job, signed off or as far as it was made, on a tablet; return its number."""
    done = made().job
    jobs = Jobs(home, lambda: BEGAN)
    kept = jobs.begin(done.begun.checklist, done.begun.sheet, TECHNICIAN)
    assert isinstance(kept, KeptJob), kept
    assert kept.keep(done.state.log[1:]) is None
    jobs.close()
    return done.number


def give_keys(home, *, technician=TECHNICIAN, lead=LEAD):
    """Give a tablet a crew with keys, as a demo does."""
    return enrol_crew(home, office="Example office", technician=technician, lead=lead,
                      at=BEGAN - timedelta(days=30), secret=SECRET, cost=CHEAP)  # fmt: skip


class Tablet:
    """A desk over a folder; `minutes` is the time since the small job began."""

    def __init__(self, home: Path):
        self.home, self.minutes = home, 600.0
        self.desk = Desk(home, lambda: BEGAN + timedelta(minutes=self.minutes), {})

    @property
    def state(self):
        return self.desk.state

    @property
    def screen(self):
        return self.state.place.screen

    def touch(self, what, *details, settle=True):
        """Touch, see that the view can be made, and wait for what goes on beside the window."""
        self.desk.touched(what, *details)
        view = self.desk.view()
        while settle and self.desk.settle(wait=True):
            view = self.desk.view()
        return view

    def at_the_record(self, number, who=LEAD):
        """Go to the signed record of a job."""
        self.state.kept = self.state.jobs.open(number)
        self.state.who = who
        self.touch("open")
        self.state.place = type(self.state.place)("signoff")
        return self.touch("make record")

    def close(self):
        self.desk.close()


def plate(view, name):
    """Return the plate of a list's rail."""
    return next(one for one in view.rail if one.name == name)


def all_words(view):
    """Return all words of a list's rows."""
    return "\n".join(f"{row.first} | {row.second} | {row.word}" for row in view.rows)
