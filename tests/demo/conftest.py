"""The demo, played once for all who look at it."""

import pytest

from fieldapp.demo.player import play


@pytest.fixture(scope="session")
def played(tmp_path_factory):
    """Return the kept job of the demo, played to its end."""
    jobs = play(tmp_path_factory.mktemp("demo"), lambda _: None)
    yield jobs.open(jobs.numbers()[0])
    jobs.close()
