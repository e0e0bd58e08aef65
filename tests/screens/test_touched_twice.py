"""A glove that touches twice gives one answer: the next question is read before it is answered."""

import pytest

from fieldapp.job.events import Reported
from tests.actions.play import CHECKLIST
from tests.screens.sitting import Sitting

LOCKED = """id = "locked"
kind = "confirm"
label = "Locked shut"
"""
TAGGED = """
[[phase.step.entry]]
id = "tagged"
kind = "confirm"
label = "Tag on the lock"
"""


@pytest.fixture
def sitting(driver, tmp_path):
    from fieldapp.screens.shell import Shell

    assert LOCKED in CHECKLIST
    made = Sitting(tmp_path, checklist=CHECKLIST.replace(LOCKED, LOCKED + TAGGED))
    made.begin()
    made.give("permit_ends", ("typed", "1800"), ("keep",))
    made.give("plate_serial", ("typed", "MX-4471"), ("keep",))
    made.touch("go", made.job.checklist.step_of("locked").id)
    if made.place.screen == "step":
        made.touch("entry", "locked")
    assert made.place.entry == "locked"
    driver.show(Shell(made.desk))
    yield made
    made.desk.close()


def test_second_touch_of_a_quick_pair_confirms_nothing_more(driver, sitting):
    driver.tap_twice("yes")
    assert sitting.job.state.latest("locked").fields["value"] == "yes"
    assert sitting.job.state.latest("tagged") is None
    assert sitting.place.entry == "tagged"


def test_next_confirmation_is_given_once_it_could_be_read(driver, sitting):
    driver.tap("yes")
    driver.tap("yes")
    assert sitting.job.state.latest("tagged").fields["value"] == "yes"


def test_nothing_is_reported_before_it_could_be_read(driver, sitting):
    driver.tap("report")
    happening = sitting.job.checklist.happenings[0].id
    driver.tap(happening)
    driver.end(driver.begin(driver.get("report")))
    assert [event for event in sitting.job.state.log if isinstance(event.what, Reported)] == []
    driver.tap("report")
    (reported,) = (e.what for e in sitting.job.state.log if isinstance(e.what, Reported))
    assert reported.happening == happening
