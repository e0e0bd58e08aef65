"""The jobs whose records are looked at, each made once."""

import pytest

from fieldapp.demo.player import play
from fieldapp.record.content import content_of, fingerprint_of, json_of
from fieldapp.record.pdf import render
from tests.record import small_job


class Record:
    """A record with everything made on the way to it."""

    def __init__(self, job, head, at=None):
        self.job, self.head = job, head
        self.at = at or job.state.log[-1].at
        self.content = content_of(job, self.at, head=head, version="0.0.0")
        self.json = json_of(self.content)
        self.fingerprint = fingerprint_of(self.json)

    def rendered(self, **named):
        return render(self.content, fingerprint=self.fingerprint, **named)


@pytest.fixture(scope="session")
def record_of_crew():
    return lambda crew: Record(crew.job, small_job.HEAD, crew.now)


@pytest.fixture(scope="session")
def small(record_of_crew):
    return record_of_crew(small_job.signed_off())


@pytest.fixture(scope="session")
def hookup(tmp_path_factory):
    """Return the record of the demo's job, a whole hookup."""
    jobs = play(tmp_path_factory.mktemp("hookup"), lambda _: None)
    kept = jobs.open(jobs.numbers()[0])
    found = Record(kept.job, (kept.head.sequence, kept.head.hash))
    jobs.close()
    return found


@pytest.fixture(scope="session")
def hookup_pdf(hookup):
    return hookup.rendered()
