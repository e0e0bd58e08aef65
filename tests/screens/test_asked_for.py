"""Steps that an answer asks for, in the window: waiting, not needed, back again with the reason."""

import pytest

from fieldapp.actions.entering import correct, enter
from fieldapp.actions.rules import Act
from tests.actions.test_asked_for import WITH_ANSWERS
from tests.screens.findings import findings
from tests.screens.sitting import TECHNICIAN, Sitting


class Shown:
    """The window over the small list with answers."""

    def __init__(self, driver, home):
        from fieldapp.screens.shell import Shell

        self.driver = driver
        self.sitting = Sitting(home, checklist=WITH_ANSWERS).begin()
        self.shell = driver.show(Shell(self.sitting.desk))

    def give(self, action, *arguments):
        state = self.sitting.state
        act = Act(TECHNICIAN, state.now)
        assert state.kept.keep(action(state.kept.job, *arguments, act)) is None

    def words(self, *touches):
        """Touch one after the other; return what the window says then."""
        for touch in touches:
            self.sitting.touch(*touch)
        self.shell.show()
        self.driver.frames(3)
        assert findings(self.shell) == []
        return " ".join(self.driver.texts())


@pytest.fixture
def shown(driver, tmp_path):
    window = Shown(driver, tmp_path / "home")
    yield window
    window.sitting.desk.close()


def test_step_says_which_step_it_waits_for(shown):
    assert "Waits for “Look at the joints”" in shown.words(("go", "tighten"))


def test_step_says_by_which_answer_it_is_not_needed(shown):
    shown.give(enter, "joints", {"value": "dry"})
    assert "Not needed: “Joints” is “dry”" in shown.words(("go", "tighten"))


def test_step_that_a_correction_brings_back_says_why_and_so_does_the_gate_behind_it(shown):
    shown.give(enter, "joints", {"value": "dry"})
    shown.give(enter, "guarded", {"value": "yes"})
    shown.give(correct, "joints", {"value": "damp"}, "looked again")
    assert "To do: “Joints” is “damp”, corrected" in shown.words(("go", "tighten"))
    assert "Waits for “Tighten the joint”: “Joints” is “damp”" in shown.words(("go", "guard"))
