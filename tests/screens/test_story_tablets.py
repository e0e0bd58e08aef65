"""Two tablets, one job: handed over on a card, gone on with on both, settled by name."""

import pytest

from fieldapp.job.events import Settled
from fieldapp.screens.desk.desk import Desk
from tests.record import small_job
from tests.record.small_job import BEGAN, LEAD, TECHNICIAN
from tests.screens.person import Person, Watch
from tests.screens.signed_jobs import keep_signed_job


@pytest.fixture
def tablets(driver, tmp_path):
    """Return how one sits down at a tablet; both have the same card plugged in, one the job."""
    card = tmp_path / "card"
    card.mkdir()
    keep_signed_job(tmp_path / "one", small_job.arrived)
    watch = Watch(BEGAN.replace(hour=12))
    desks = {
        name: Desk(tmp_path / name, watch, {}, cards=lambda: (card,)) for name in ("one", "other")
    }
    yield lambda name: Person(driver, desks[name], watch)
    for desk in desks.values():
        desk.close()


def hand_over(person, first):
    person.touch("Copies")
    if first:
        person.touch("Second place", "card")
    person.touch("Hand over", "Write it unsigned")
    assert person.reads("On the other tablet")
    person.touch("Back", "Back")


def go_on(person, said):
    """Report a thing of one's own, so that this tablet has what the other has not."""
    person.touch("T2", TECHNICIAN, "Something was touched", "A joint was touched").write(said)
    person.touch("Report it", "Back", "Back")


def test_job_is_taken_over_gone_on_with_on_both_and_settled(tablets):
    one = tablets("one")
    hand_over(one, first=True)
    other = tablets("other")
    other.touch("Copies", "Take in", "to take in")
    assert other.reads("unsigned")
    other.touch("Back", "Back")
    go_on(other, "The suction hose, at the skid.")
    hand_over(other, first=True)

    one = tablets("one")
    go_on(one, "The return hose, at the tank.")
    one.touch("Copies", "Take in", "to take in")
    assert one.reads("each went on with this job")
    one.touch("Take in both", "Back", "Back")
    one.touch("Two tablets went on", "Both sides", "The other tablet", LEAD)
    one.touch("both crews agreed on it", "Settle it")
    (settled,) = one.job.state.of(Settled)
    assert (settled.by, settled.what.reason) == (LEAD, "both crews agreed on it")
    assert settled.what.kept != one.desk.state.jobs.device
    assert one.desk.state.place.screen in ("people", "steps")
