"""The sign-off says what is open, takes acceptances and signatures, and is locked at the end."""

import pytest

from fieldapp.judgement.evaluation import evaluate
from fieldapp.screens import theme
from fieldapp.screens.signing.signoff_view import signoff_view
from tests.screens.findings import false_grounds, findings
from tests.screens.stages import MAREN, RUTH, desktop, job_at, moment
from tests.screens.test_trace_view import plate

INK = (((0.1, 0.5), (0.4, 0.2), (0.9, 0.6)),)
HEAD = "9f3c1e5a77b20d48" * 4


def viewed(text, day=17, who=MAREN, **given):
    job, at = job_at(text, day), moment(text, day)
    return signoff_view(job, evaluate(job, at), at, desktop("sign_t", who), head=HEAD, **given)


SHOWN = {
    "early": ("16:00", 16),
    "to accept": ("17:13", 16, RUTH),
    "to name": ("17:18", 16, RUTH),
    "technician": ("12:38",),
    "lead": ("12:45", 17, RUTH),
    "locked": ("13:00", 17, RUTH),
}
TYPED = {"name typed": {"typed": MAREN}, "name asked": {"part": "name"}}


@pytest.fixture
def screen(driver):
    from fieldapp.screens.signing.signoff import SignoffScreen

    made = driver.show(SignoffScreen())
    made.heard = []
    made.bind(on_touched=lambda _, *what: made.heard.append(what))
    return made


@pytest.mark.parametrize("look", theme.LOOKS, ids=lambda look: look.name)
@pytest.mark.parametrize("name", SHOWN)
def test_all_can_be_read_and_touched(driver, screen, name, look):
    theme.switch_look(look)
    screen.show(viewed(*SHOWN[name]))
    driver.frames(3)
    assert findings(screen) == []
    assert list(false_grounds(screen, driver.picture())) == []
    driver.tap("safe")
    assert screen.heard == [("safe",)]


def test_accepted_condition_asks_who_sees_to_it_and_by_which_day(driver, screen):
    screen.show(viewed(*SHOWN["to name"]))
    driver.frames(3)
    driver.tap("go zero")
    assert screen.heard == [("go", "zero")]


@pytest.mark.parametrize("look", theme.LOOKS, ids=lambda look: look.name)
@pytest.mark.parametrize("name", TYPED)
def test_typed_name_can_be_read(driver, screen, name, look):
    theme.switch_look(look)
    screen.show(viewed("12:38", **TYPED[name]))
    driver.frames(3)
    assert findings(screen) == []
    assert list(false_grounds(screen, driver.picture())) == []


def test_main_plate_waits_and_says_for_what():
    early = plate(viewed("16:00", 16), "sign")
    assert (early.kind, early.second) == ("waiting", "19 still open")
    assert plate(viewed("12:38"), "sign").second == "sign on the line"
    assert plate(viewed("12:38", strokes=INK), "sign").kind == "main"
    assert plate(viewed("12:45", 17, RUTH, strokes=INK), "sign").second == "3 still open"
    assert plate(viewed("12:45", 17, MAREN), "sign").kind == "waiting"


def test_deviation_is_accepted_by_the_lead_alone():
    (row,) = [row for row in viewed("17:13", 16, RUTH).rows if row.mark == "deviation"]
    assert row.plate.details == ("condition zero_inlet",)
    (row,) = [row for row in viewed("17:13", 16, MAREN).rows if row.mark == "deviation"]
    assert row.plate.kind == "waiting"


def test_correction_shows_old_and_new():
    (row,) = [row for row in viewed("12:45", 17, RUTH).rows if row.mark == "corrected"]
    assert "32.5" in row.title
    assert row.title.endswith("was 23.5")
    assert row.said == "“digits swapped”"


def test_condition_leads_to_the_acceptance(driver, screen):
    screen.show(viewed("17:13", 16, RUTH))
    driver.frames(3)
    driver.tap("ask lead condition zero_inlet")
    screen.show(viewed("17:13", 16, RUTH, part="condition zero_inlet"))
    driver.frames(3)
    driver.tap("reason 0")
    driver.tap("keep")
    assert screen.heard == [
        ("ask", "condition zero_inlet"),
        ("accept", "zero_inlet", "measured again before start"),
    ]


def test_technician_signs_on_the_pad(driver, screen):
    screen.show(viewed("12:38"))
    driver.frames(3)
    pad = driver.get("pad")
    driver.drag([(pad.x + 60, pad.y + 90), (pad.x + 150, pad.y + 120), (pad.x + 300, pad.y + 80)])
    what, strokes = screen.heard[-1]
    assert what == "strokes"
    screen.show(viewed("12:38", strokes=strokes))
    driver.frames(3)
    driver.tap("sign")
    assert screen.heard[-1] == ("sign", "technician", strokes)


def test_hand_that_cannot_draw_types_the_name(driver, screen):
    screen.show(viewed("12:38"))
    driver.frames(3)
    assert plate(viewed("12:38", typed=MAREN), "sign").kind == "main"
    assert plate(viewed("12:38", typed=RUTH), "sign").kind == "waiting"
    driver.tap("type name")
    assert screen.heard == [("ask", "name")]
    screen.show(viewed("12:38", part="name"))
    driver.frames(3)
    driver.tap("note")
    driver.type(MAREN)
    driver.tap("keep")
    assert screen.heard[-1] == ("name", MAREN)
    screen.show(viewed("12:38", typed=MAREN))
    driver.frames(3)
    assert MAREN in driver.get("pad").texts[-1].text
    driver.tap("sign")
    assert screen.heard[-1] == ("sign", "technician", ())
    driver.tap("clear")
    assert screen.heard[-1] == ("clear",)


def test_lead_sees_and_sends_back(driver, screen):
    view = viewed("12:45", 17, RUTH)
    screen.show(view)
    driver.frames(3)
    seen = view.rows[0].plate.details[0]
    driver.tap(f"see {seen}")
    driver.tap("send back")
    assert screen.heard == [("see", int(seen)), ("ask", "send back")]


def test_locked_tells_the_fingerprint_and_leads_to_the_record():
    view = viewed("13:00", 17, RUTH)
    assert HEAD[:8] in view.locked[1]
    assert "“Make the record”" in view.locked[2]
    assert plate(view, "make record").kind == "main"
    assert (view.technician.signed, view.lead.signed, view.send_back) == (True, True, None)
