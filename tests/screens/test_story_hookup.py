"""The first hour of a hookup, touch by touch: begun, a slip put right, one thing not measured."""

import pytest

from fieldapp.demo.player import sheet_text
from fieldapp.screens.app import checklists_here
from fieldapp.screens.desk.desk import Desk
from tests.screens.person import Person, Watch
from tests.screens.stages import MAREN, RUTH, moment


@pytest.fixture
def person(driver, tmp_path):
    (tmp_path / "sheets").mkdir()
    (tmp_path / "sheets" / "sorrel.toml").write_text(sheet_text(), encoding="utf-8")
    watch = Watch(moment("07:05"))
    desk = Desk(tmp_path, watch, checklists_here())
    yield Person(driver, desk, watch)
    desk.close()


def test_first_hour_with_a_slip_and_a_thing_that_cannot_be_measured(person):
    person.touch("New job", "Sorrel Pass", MAREN)
    person.touch("Enter the permit", "Permit number").write("P-26-0616-04").touch("Keep")
    person.write("Emil Strand").touch("Keep").key_in("1930").touch("Keep")
    person.touch("It ends 2 h or more")
    assert person.reads("done")
    person.touch("Tell the control room").write("Desk 2, O. Wray").touch("Keep")

    person.touch("Back", "Read humidity and wind", "Relative humidity")
    person.touch("cannot measure", "the instrument is broken", "Leave it out")
    person.touch("Wind").key_in("2.4").touch("Keep", "none", "Keep", "none", "Keep")
    assert person.reads("crew lead")

    person.touch("Wind").key_in("4.2").touch("it was a slip", "digits turned round", "Correct it")
    assert person.job.state.latest("wind").fields["value"] == "4.2"

    person.touch(MAREN, RUTH)
    person.touch("accepts it").touch("measured again before start", "Accept it")
    (deviation,) = person.desk.state.evaluation().deviations
    assert deviation.settled
    assert deviation.acceptance.by == RUTH
    assert person.touches < 75
