"""What is in force in the window: entered by name, and shouted when somebody leaves with it."""

import pytest

from fieldapp.job.events import Blocked, HandedOver, Restored
from tests.screens.sitting import LEAD, TECHNICIAN, Sitting


@pytest.fixture
def sitting(tmp_path):
    made = Sitting(tmp_path)
    yield made
    made.desk.close()


def last(sitting):
    return sitting.job.state.log[-1].what


def rows(view):
    return {row.first.partition(":")[0]: row for row in view.rows}


def blocked(sitting, until="no time named"):
    sitting.touch("in force")
    sitting.touch("block")
    sitting.touch("kept", "fire spray isolated")
    sitting.touch("kept", "Ola Brandt, station keeper")
    return sitting.touch("kept", until)


def test_every_step_list_says_what_is_in_force(sitting):
    view = sitting.begin().view()
    assert next(p for p in view.frame.plates if p.name == "in force").second == "nothing"
    sitting.give("permit_ends", ("typed", "1800"), ("keep",))
    view = sitting.touch("steps")
    plate = next(p for p in view.frame.plates if p.name == "in force")
    assert plate.first == "1 in force"
    assert plate.second.endswith("h left")
    assert rows(sitting.touch("in force"))["Permit"].below == "18:00"


def test_permit_that_runs_out_is_first(sitting):
    sitting.begin().give("permit_ends", ("typed", "1800"), ("keep",))
    blocked(sitting)
    sitting.minute = 60 * 24.0
    view = sitting.view()
    assert (view.rows[0].word, view.rows[0].mark) == ("ran out", "failed")
    assert view.rows[0].right.endswith("over")


def test_block_needs_a_name_and_no_login(sitting):
    sitting.begin()
    view = blocked(sitting)
    assert last(sitting) == Blocked("fire spray isolated", "Ola Brandt", "station keeper", "")
    assert "Ola Brandt, station keeper" in rows(view)["fire spray isolated"].second


def test_time_of_a_block_can_be_touched(sitting):
    sitting.begin()
    sitting.touch("in force")
    sitting.touch("block")
    sitting.touch("kept", "fire spray isolated")
    view = sitting.touch("kept", "Ola Brandt")
    assert len(view.reasons) == 5
    sitting.touch("kept", view.reasons[0])
    assert "left" in rows(sitting.view())["fire spray isolated"].right


def test_what_is_no_time_is_refused_and_asked_again(sitting):
    sitting.begin()
    blocked(sitting, "when it rains")
    assert sitting.place.screen == "asked"
    assert "is not a time" in sitting.state.refused
    sitting.touch("kept", "18:00")
    assert last(sitting).until == "18:00"


def test_restored_and_proved_by_name(sitting):
    sitting.begin()
    row = rows(blocked(sitting))["fire spray isolated"]
    sitting.touch(row.touch, *row.details)
    sitting.touch("kept", "Ola Brandt, station keeper")
    view = sitting.touch("kept", "looked at and tried")
    what = last(sitting)
    assert isinstance(what, Restored)
    assert (what.person, what.proved) == ("Ola Brandt", "looked at and tried")
    assert rows(view)["fire spray isolated"].word == "back"
    assert "by Ola Brandt" in rows(view)["fire spray isolated"].second


@pytest.mark.parametrize("way", ["jobs", "back"])
def test_leaving_with_something_in_force_is_shouted(sitting, way):
    sitting.arrived()
    sitting.touch("steps")
    view = sitting.touch(way)
    assert sitting.place.screen == "leaving"
    assert view.caution[0] == "WARNING"
    assert "1 thing is in force" in view.caution[1]
    assert {plate.name for plate in view.rail} == {"hand over", "stay", "back", "safe"}
    sitting.touch("back")
    assert sitting.place.screen == "steps"


def test_handed_over_by_name_and_stamped(sitting):
    sitting.arrived()
    sitting.touch("jobs")
    view = sitting.touch("hand over")
    assert f"{LEAD}, crew lead" in view.reasons
    sitting.touch("kept", f"{LEAD}, crew lead")
    assert sitting.place.screen == "jobs"
    event = sitting.job.state.log[-1]
    assert isinstance(event.what, HandedOver)
    assert (event.what.person, event.what.role, event.by) == (LEAD, "crew lead", TECHNICIAN)
    assert event.what.in_force[0].startswith("Permit")


def test_leaving_with_nobody_named_is_stamped_and_not_refused(sitting):
    sitting.arrived()
    sitting.touch("jobs")
    sitting.touch("left")
    assert sitting.place.screen == "jobs"
    assert sitting.job.state.log[-1].what.person == ""


def test_whoever_stays_on_site_stamps_nothing(sitting):
    sitting.arrived()
    before = len(sitting.job.state.log)
    sitting.to_jobs()
    assert sitting.place.screen == "jobs"
    assert len(sitting.job.state.log) == before


def test_with_nothing_in_force_nobody_is_asked(sitting):
    sitting.begin()
    sitting.touch("jobs")
    assert sitting.place.screen == "jobs"


def test_making_safe_waits_for_nothing_there(sitting):
    sitting.arrived()
    sitting.touch("jobs")
    sitting.touch("safe")
    assert sitting.place.screen == "safe"
