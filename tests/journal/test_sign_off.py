"""A record ends at the sign-off: no later stamp and no other tablet makes it another one."""

from datetime import timedelta

import pytest

from fieldapp.actions.entering import make_safe
from fieldapp.actions.rules import Act
from fieldapp.handover.receiving import receive
from fieldapp.handover.sending import hand_over
from fieldapp.journal.jobs import Jobs, KeptJob
from fieldapp.journal.sign_off import as_signed_off
from tests.actions.hookup import signed
from tests.actions.play import BEGIN, CHECKLIST, SHEET, TECHNICIAN

NUMBER = "KM-2031.04"


def tablet(place):
    return Jobs(place, lambda: BEGIN)


def told(jobs):
    return as_signed_off(jobs.open(NUMBER), jobs.folder(NUMBER))


def stamp(jobs):
    kept = jobs.open(NUMBER)
    act = Act(TECHNICIAN, kept.job.state.log[-1].at + timedelta(hours=1))
    assert kept.keep(make_safe(kept.job, "leaving", act)) is None


@pytest.fixture
def jobs(tmp_path):
    found = tablet(tmp_path / "one")
    kept = found.begin(CHECKLIST, SHEET, TECHNICIAN)
    assert isinstance(kept, KeptJob), kept
    for event in signed().job.state.log[1:]:
        assert kept.keep((event,)) is None
    yield found
    found.close()


def test_job_that_is_not_signed_off_is_told_as_it_stands(tmp_path):
    found = tablet(tmp_path)
    kept = found.begin(CHECKLIST, SHEET, TECHNICIAN)
    stamp(found)
    assert told(found).job == kept.job
    assert told(found).head == kept.head
    found.close()


def test_record_ends_at_the_sign_off_whatever_is_stamped_later(jobs):
    kept = jobs.open(NUMBER)
    log, head = kept.job.state.log, kept.head
    for _ in range(2):
        stamp(jobs)
    assert len(kept.job.state.log) == len(log) + 2
    assert told(jobs).job.state.log == log
    assert told(jobs).head == head != kept.head
    assert told(jobs).job.state.signature("crew lead") == log[-1]


def test_it_is_the_same_on_another_tablet_that_goes_on(jobs, tmp_path):
    here = told(jobs)
    jobs.close()
    there = tablet(tmp_path / "two")
    receive(hand_over(tmp_path / "one", NUMBER, BEGIN), there.home, there.device, None)
    stamp(there)
    assert told(there) == here
    assert there.open(NUMBER).head != here.head
    there.close()
