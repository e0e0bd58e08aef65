"""Long choices, what cannot be taken, another instrument, what stays open: by touch, in gloves."""

from datetime import date

import pytest

from fieldapp.screens import theme
from fieldapp.screens.asking import Asking
from fieldapp.screens.body_view import AskingView
from fieldapp.screens.desk.state.desk_state import NIGHT
from fieldapp.screens.kit.diagram.diagram_view import Diagram
from tests.actions.play import LEAD, SHEET
from tests.actions.test_instruments import INSTRUMENTS
from tests.screens.findings import false_grounds, findings
from tests.screens.sitting import Sitting
from tests.screens.test_every_kind import EVERY_KIND, at_entry, proof, touch

MORE = SHEET.replace("[[crew]]", f"{INSTRUMENTS}\n[[crew]]", 1)


@pytest.fixture
def sitting(tmp_path):
    made = Sitting(tmp_path, {"kestrel.toml": MORE}, EVERY_KIND)
    made.begin()
    yield made
    made.desk.close()


@pytest.fixture(params=["sun", "night"])
def shown(request, driver, sitting):
    """Return a way to look at the screen as it is now: nothing small, near, clipped or pale."""
    from fieldapp.screens.shell import Shell

    sitting.state.look = request.param
    theme.switch_look(theme.NIGHT if request.param == NIGHT else theme.SUN)
    shell = driver.show(Shell(sitting.desk))

    def look():
        shell.show()
        driver.frames(3)
        assert findings(shell) == []
        assert list(false_grounds(shell, driver.picture())) == []

    return look


def test_eight_answers_take_two_pages_and_the_chosen_one_is_told_on_both(sitting, shown):
    at_entry(sitting, "choice")
    shown()
    plates = sitting.view().body.plates
    assert [p.first for p in plates] == ["none", "one", "two", "three", "four", "More answers"]
    sitting.touch("page", *plates[-1].details)
    view = sitting.touch("choose", "cannot be read")
    shown()
    assert [p.kind for p in view.body.plates] == ["plain", "plain", "held", "plain"]
    view = sitting.touch("page", *view.body.plates[-1].details)
    shown()
    assert view.body.limit == "Chosen: cannot be read."


def test_number_that_cannot_be_taken_is_said_accepted_and_left_open(sitting, shown):
    at_entry(sitting, "number")
    shown()
    view = sitting.touch("missing")
    shown()
    assert len(view.reasons) == 5
    assert view.keep_second == "the crew lead decides"
    sitting.touch("kept", view.reasons[0])
    shown()
    sitting.state.who = LEAD
    sitting.touch("accept", "e_number")
    view = sitting.touch("kept", "put right at the next visit")
    assert [row.touch for row in view.rows] == ["entry", "", "promise"]
    view = sitting.touch("promise", "e_number")
    shown()
    assert "Ada Quill" in view.reasons
    sitting.touch("typed", "Ada Quill")
    view = sitting.touch("kept", "Ada Quill")
    shown()
    assert view.reasons[2] == "2031-05-11, in a week"
    view = sitting.touch("kept", view.reasons[2])
    shown()
    assert view.rows[-1].first == "Stays open: Ada Quill, by 11 May 2031"
    assert sitting.job.state.promises["e_number"][0].due == date(2031, 5, 11)


def test_day_that_is_none_is_refused_and_asked_for_again(sitting):
    at_entry(sitting, "number")
    sitting.touch("missing")
    sitting.touch("kept", "the instrument is broken")
    sitting.state.who = LEAD
    sitting.touch("accept", "e_number")
    sitting.touch("kept", "put right at the next visit")
    sitting.touch("promise", "e_number")
    sitting.touch("typed", "Ada Quill")
    sitting.touch("kept", "Ada Quill")
    sitting.touch("kept", "soon")
    assert sitting.state.refused == "“soon” is no day: write it like 2026-06-30."
    assert sitting.place.screen == "reason"


def in_hand(sitting):
    return sitting.view().asking.instrument.names[1]


def test_another_instrument_is_taken_and_stays_in_hand_for_the_phase(sitting, shown, tmp_path):
    at_entry(sitting, "number")
    shown()
    assert in_hand(sitting) == "Vacuum gauge"
    view = sitting.touch("instruments")
    shown()
    assert [row.details[0] for row in view.rows] == [
        "vacuum_gauge", "fine_gauge", "dial_gauge", "late_gauge", "narrow_gauge",
    ]  # fmt: skip
    assert [row.word for row in view.rows] == ["in hand", "ready", "ready", "overdue", "ready"]
    sitting.touch("instrument", "narrow_gauge")
    shown()
    touch(sitting, (("typed", "166.0"),))
    assert "lies outside its range, 1 to 100" in sitting.view().body.verdict.sentence
    touch(sitting, (("typed", "50.0"), ("keep",)))
    assert sitting.job.state.latest("e_number").instrument == "narrow_gauge"
    at_entry(sitting, "hold")
    sitting.touch("start")
    sitting.touch("ask", "hold_p")
    shown()
    assert sitting.view().pad.asking.instrument.names[1] == "Narrow gauge"
    sitting.touch("instruments", "hold_p")
    sitting.touch("instrument", "fine_gauge")
    sitting.touch("reading", {"hold_p": "50.0"})
    fields = sitting.job.state.attempt("e_hold").readings[0].fields
    assert fields["hold_p_instrument"] == "fine_gauge"


def test_instrument_is_still_in_hand_when_the_app_was_started_again(sitting, tmp_path):
    at_entry(sitting, "number")
    sitting.touch("instruments")
    sitting.touch("instrument", "fine_gauge")
    touch(sitting, (("typed", "50.0"), ("keep",)))
    sitting.desk.close()
    again = Sitting(tmp_path, {"kestrel.toml": MORE}, EVERY_KIND)
    again.touch("open job", sitting.state.jobs.numbers()[0])
    again.touch("person", "Ada Quill")
    at_entry(again, "number")
    assert in_hand(again) == "Fine gauge"
    again.desk.close()


def test_slip_in_a_proof_is_corrected_and_the_plates_fit(sitting, shown):
    at_entry(sitting, "alarm")
    touch(sitting, (*proof("3.8", "9"), ("keep",)))
    at_entry(sitting, "alarm")
    touch(sitting, proof("3.8", "8"))
    shown()
    names = [plate.name for plate in sitting.view().body.keep]
    assert names == ["correct", "keep", "again"]
    touch(sitting, (("again",), *proof("3.8")))
    shown()
    assert [plate.name for plate in sitting.view().body.keep] == ["part before", "correct", "keep"]


@pytest.mark.parametrize(
    "scanned", ["MX-4471", "mx-4471", " MX-4471\r\n", "MX -4471", "\x1dMX-4471"]
)
def test_serial_as_a_scanner_types_it_agrees_and_is_kept_as_typed(sitting, scanned):
    at_entry(sitting, "serial")
    sitting.touch("typed", scanned)
    assert sitting.view().body.verdict.sentence == "Agrees with the job sheet."
    sitting.touch("keep")
    assert sitting.job.state.latest("e_serial").fields["value"] == scanned


@pytest.mark.parametrize("high", [300, 360, 420])
def test_drawing_over_the_width_of_a_tall_sheet_has_room_or_is_left_out(driver, high):
    asking = Asking(view=AskingView("Why it waits", "Measure something"))
    asking.diagram = Diagram(unit="T2")
    driver.show(asking, (24, 140, 752, high))
    assert findings(asking) == []
    assert (asking.children[0].__class__.__name__ == "LineDiagram") == (high == 420)
