"""What is open, what a report reopens, and the line diagram with a part's steps."""

import pytest

from fieldapp.judgement.evaluation import evaluate
from fieldapp.screens import theme
from fieldapp.screens.diagram_state import diagram_of
from fieldapp.screens.hookup_view import hookup_view
from fieldapp.screens.open_view import open_view
from fieldapp.screens.report_view import report_view
from tests.screens.findings import false_grounds, findings
from tests.screens.stages import desktop, evaluated


def opened(text, day=16):
    job, evaluation, at = evaluated(text, day)
    return open_view(job, evaluation, at, desktop("pull"))


def reported(text, **given):
    job, evaluation, at = evaluated(text)
    return report_view(job, evaluation, at, desktop("pull"), **given)


def hooked(text, part="", day=16):
    job, evaluation, at = evaluated(text, day)
    diagram = diagram_of(job, evaluate(job, at))
    return hookup_view(job, evaluation, at, desktop("pull"), diagram, part=part)


def screen_of(name):
    from fieldapp.screens.hookup import HookupScreen
    from fieldapp.screens.open import OpenScreen
    from fieldapp.screens.report import ReportScreen

    made = {"open": OpenScreen, "report": ReportScreen, "hookup": HookupScreen}[name]()
    made.heard = []
    made.bind(on_touched=lambda _, *what: made.heard.append(what))
    return made


SHOWN = {
    "open touched": ("open", lambda: opened("11:57")),
    "open late": ("open", lambda: opened("12:38", 17)),
    "report": ("report", lambda: reported("12:50")),
    "report last": ("report", lambda: reported("12:50", start=18)),
    "report chosen": ("report", lambda: reported("12:50", part="joint_touched")),
    "hookup": ("hookup", lambda: hooked("12:41")),
    "hookup valve": ("hookup", lambda: hooked("13:00", "return_tank_valve", 17)),
}


@pytest.mark.parametrize("look", theme.LOOKS, ids=lambda look: look.name)
@pytest.mark.parametrize("name", SHOWN)
def test_all_can_be_read_and_touched(driver, name, look):
    theme.switch_look(look)
    kind, view = SHOWN[name]
    screen = driver.show(screen_of(kind))
    screen.show(view())
    driver.frames(3)
    assert findings(screen) == []
    assert list(false_grounds(screen, driver.picture())) == []
    driver.tap("safe")
    assert screen.heard == [("safe",)]


def test_what_to_do_again_comes_first_with_its_reason():
    view = opened("11:57")
    assert next(group.words for group in view.groups).endswith("to do again")
    assert view.rows[0].word == "to do again"
    assert any("A joint was touched, 11:57" in row.second for row in view.rows)
    assert "Evacuate" in view.phases


def test_deviation_says_who_may_accept_it():
    (row,) = [row for row in opened("17:13").rows if row.word == "to accept"]
    assert "The crew lead may accept this" in row.second


def test_report_says_what_it_reopens_before_it_is_kept():
    view = reported("12:50", part="joint_touched")
    assert "Open to the pump and read every 30 s" in view.reopens
    assert reported("12:50", part="acetylene_found").title == "New acetylene in the gas analysis"


def test_report_is_kept_with_its_note(driver):
    screen = driver.show(screen_of("report"))
    screen.show(reported("12:50"))
    driver.frames(3)
    driver.tap("joint_touched")
    screen.show(reported("12:50", part="joint_touched"))
    driver.frames(3)
    driver.tap("note")
    driver.type("gasket")
    driver.tap("report")
    assert screen.heard == [("ask", "joint_touched"), ("report", "joint_touched", "gasket")]


def test_valve_can_be_closed_from_the_line_diagram(driver):
    screen = driver.show(screen_of("hookup"))
    screen.show(hooked("13:00", "return_tank_valve", 17))
    driver.frames(3)
    driver.tap("close valve")
    assert screen.heard == [("close valve", "return_tank_valve")]
    assert hooked("13:00", "vacuum_gauge", 17).close is None


def test_touched_part_shows_its_steps():
    view = hooked("12:41", "vacuum_gauge")
    assert next(row.first for row in view.rows) == "Hold: shut the pump valve and wait"
    assert view.diagram.here == "vacuum_gauge"
