"""Tablets with a small job, each below a home of its own."""

from datetime import timedelta

import pytest

from fieldapp.actions.entering import enter
from fieldapp.actions.rules import Act
from fieldapp.journal.jobs import Jobs, KeptJob
from tests.actions.play import BEGIN, CHECKLIST, SHEET, TECHNICIAN

NUMBER = "KM-2031.04"


class Tablet:
    """A home with a name; its jobs are closed after each act."""

    def __init__(self, home, device):
        self.home = home
        home.mkdir()
        (home / "device").write_text(f"{device}\n", encoding="ascii")
        self.journal = home / "jobs" / NUMBER / f"{device}.journal"

    def begin(self):
        jobs = Jobs(self.home, lambda: BEGIN)
        assert isinstance(jobs.begin(CHECKLIST, SHEET, TECHNICIAN), KeptJob)
        jobs.close()

    def permit(self, ends):
        jobs = Jobs(self.home, lambda: BEGIN)
        kept = jobs.open(NUMBER)
        act = Act(TECHNICIAN, BEGIN + timedelta(minutes=1))
        outcome = enter(kept.job, "permit_ends", {"value": ends}, act)
        assert kept.keep(outcome) is None
        jobs.close()

    def log(self):
        jobs = Jobs(self.home, lambda: BEGIN)
        try:
            return jobs.open(NUMBER).job.state.log
        finally:
            jobs.close()

    def permits(self):
        return [event.what.fields["value"] for event in self.log()[1:]]

    def files(self):
        return {
            path.relative_to(self.home): path.read_bytes()
            for path in self.home.rglob("*")
            if path.is_file() and path.suffix != ".lock"
        }


@pytest.fixture
def tablet(tmp_path):
    """Returns a new tablet of some name; the first one has begun the job if told."""

    def make(device, *, begun=False):
        made = Tablet(tmp_path / device, device)
        if begun:
            made.begin()
        return made

    return make
