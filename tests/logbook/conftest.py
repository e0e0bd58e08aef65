"""The demo's hookup, played once; each test begins its own weeks after it."""

from dataclasses import replace

import pytest

from fieldapp.demo.player import play
from fieldapp.logbook.figures import moment
from tests.logbook.weeks import Weeks


@pytest.fixture(scope="session")
def hookup(tmp_path_factory):
    jobs = play(tmp_path_factory.mktemp("hookup"), lambda _: None)
    yield jobs.open(jobs.numbers()[0]).job
    jobs.close()


@pytest.fixture
def weeks(hookup):
    return Weeks(hookup, moment(hookup, "started"))


@pytest.fixture
def hookup_without(hookup):
    """Return the hookup as if an entry had never been given."""

    def without(entry):
        given = {name: each for name, each in hookup.state.given.items() if name != entry}
        return replace(hookup, state=replace(hookup.state, given=given))

    return without
