"""The plan on the tablet: reached by one touch from a sheet, read and paged in gloves."""

import pytest

from fieldapp.demo.player import checklist_text, sheet_text
from fieldapp.screens import theme
from fieldapp.screens.sheet.plan_view import answer_view, plan_view
from tests.plan.sheets import planned
from tests.screens.findings import false_grounds, findings
from tests.screens.sitting import Sitting

FINE = ("", False)
NO_SAMPLE = ("sample_temperature", "plan_pump_speed", "plan_adsorbent_mass")


def screen_of(kind):
    from fieldapp.screens.listing import ListScreen
    from fieldapp.screens.sheet.plan import PlanScreen

    made = {"plan": PlanScreen, "answer": ListScreen}[kind]()
    made.heard = []
    made.bind(on_touched=lambda _, *what: made.heard.append(what))
    return made


def planned_view(start=0, without=(), **stated):
    return plan_view(planned(without, **stated), start, "07:10", FINE)


SHOWN = {
    "plan": ("plan", planned_view),
    "plan second page": ("plan", lambda: planned_view(4)),
    "plan last page": ("plan", lambda: planned_view(5)),
    "plan without sample": ("plan", lambda: planned_view(0, NO_SAMPLE)),
    "plan with free water": ("plan", lambda: planned_view(0, (), sample_water="190 mg/kg")),
    "plan of dry oil": ("plan", lambda: planned_view(0, (), sample_water="8 mg/kg")),
    "answer refused": ("answer", lambda: answer_view(planned(NO_SAMPLE), "vacuum", 0, FINE)),
    "answer outside": ("answer", lambda: answer_view(planned(coldest_oil="-15 degC"), "oil", 0,
                                                     FINE)),
}  # fmt: skip
ANSWERS = [answer.id for answer in planned().answers]


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


@pytest.mark.parametrize("name", ANSWERS)
def test_every_answer_can_be_read(driver, name):
    screen = driver.show(screen_of("answer"))
    start, seen = 0, []
    while start < len(answer_view(planned(), name, 0, FINE).rows):
        screen.show(answer_view(planned(), name, start, FINE))
        driver.frames(3)
        assert findings(screen) == []
        seen += driver.texts()
        start += int(screen.ids.rows.shown)
    assert [text for text in seen if "…" in text] == []


@pytest.mark.parametrize("name", ["plan", "plan without sample"])
def test_all_can_be_read_upright(driver, name):
    from kivy.core.window import Window

    kind, view = SHOWN[name]
    screen = screen_of(kind)
    Window.add_widget(screen)
    screen.size_hint, screen.size = (None, None), (800, 1280)
    screen.pos = (0, 0)
    screen.show(view())
    driver.frames(3)
    wrong = [found for found in findings(screen) if "off the window" not in found]
    assert wrong == []


def test_answer_is_touched_by_its_row(driver):
    screen = driver.show(screen_of("plan"))
    screen.show(planned_view())
    driver.frames(3)
    driver.tap("answer water")
    assert screen.heard == [("answer", "water")]


def test_pages_are_turned(driver):
    screen = driver.show(screen_of("plan"))
    screen.show(planned_view())
    driver.frames(3)
    assert next(row.tid for row in driver.all(kind="Row")) != "answer oil"
    driver.tap("down")
    assert screen.heard[-1] == ("page", screen.ids.rows.start)
    assert screen.ids.rows.start > 0


@pytest.fixture
def sitting(tmp_path):
    made = Sitting(tmp_path, {"kestrel.toml": sheet_text()}, checklist_text())
    yield made
    made.desk.close()


def test_plan_is_one_touch_from_the_sheet_of_a_job(sitting):
    sitting.begin("Maren Holtby")
    sitting.touch("people")
    view = sitting.touch("sheet")
    assert view.rows[0].touch == "plan"
    plan = sitting.touch(view.rows[0].touch)
    assert next(row.first for row in plan.rows) == "How wet?"
    figures = sitting.touch("answer", "time")
    assert any("91" in row.right for row in figures.rows)
    sitting.touch("back")
    sitting.touch("back")
    assert sitting.place.screen == "sheet"


def test_plan_of_a_sheet_is_there_before_the_job_begins(sitting):
    sitting.touch("new")
    people = sitting.touch("sheet", "kestrel.toml")
    assert people.rows[-1].touch == "plan"
    assert sitting.touch("plan").title == "Plan"
    sitting.touch("back")
    assert sitting.place.screen == "people"
    assert sitting.state.kept is None


def test_typed_sheet_has_its_plan_once_it_is_sound(sitting):
    sitting.touch("new")
    view = sitting.touch("type sheet")
    assert (view.rows[0].first, view.rows[0].touch) == ("The plan", "")
    sitting.touch("plan")
    assert sitting.place.screen == "sheet"
    assert "not sound yet" in sitting.state.refused
    sitting.touch("back")
    sitting.touch("sheet", "kestrel.toml")
    sitting.touch("back")
    sitting.desk.touched("change", "kestrel.toml")
    assert sitting.view().rows[0].touch == "plan"
    assert sitting.touch("plan").chart is not None


def test_figures_of_the_plan_can_be_typed(driver, sitting):
    from fieldapp.screens.shell import Shell

    sitting.touch("new")
    sitting.desk.touched("change", "kestrel.toml")
    sitting.touch("section", "plan")
    shell = driver.show(Shell(sitting.desk))
    for start in (0, 6, 12, 40):  # the last lies past the end: the list stops at its last page
        sitting.touch("page", start)
        shell.show()
        driver.frames(3)
        assert findings(shell) == []
    sitting.touch("field", "plan_away_days")
    shell.show()
    driver.frames(3)
    assert findings(shell) == []
    sitting.touch("typed", "10")
    sitting.touch("keep")
    for _ in range(2):
        sitting.touch("back")
    plan = sitting.touch("plan")
    away = next(row for row in plan.rows if row.details == ("away",))
    assert "12 days without the unit" in away.second


def test_refusal_and_figure_outside_carry_their_marks():
    rows = {row.details[0]: row for row in planned_view(0, NO_SAMPLE).rows}
    assert (rows["time"].mark, rows["time"].word) == ("notyet", "no figure")
    assert (rows["vacuum"].mark, rows["vacuum"].word) == ("notyet", "not all")
    cold = {row.details[0]: row for row in planned_view(0, (), coldest_oil="-15 degC").rows}
    assert (cold["oil"].mark, cold["oil"].word) == ("failed", "outside")


def test_what_was_put_in_is_typed_by_a_touch_and_the_way_back_leads_through_the_sheet(sitting):
    sitting.touch("new")
    sitting.desk.touched("change", "kestrel.toml")
    sitting.touch("plan")
    away = sitting.touch("answer", "away")
    (stand,) = [row for row in away.rows if row.details == ("plan_stand_time",)]
    assert stand.touch == "input"
    assert stand.second == "Put in: common practice, no source. Touch to change it."
    sitting.touch("input", "plan_stand_time")
    sitting.touch("typed", "24")
    sitting.touch("keep")
    sitting.touch("back")
    sitting.touch("back")
    assert sitting.place.screen == "sheet"
    sitting.touch("plan")
    away = sitting.touch("answer", "away")
    (stand,) = [row for row in away.rows if row.details == ("plan_stand_time",)]
    assert (stand.second, stand.right) == ("Put in: job sheet. Touch to change it.", "24\xa0h")


def test_figure_out_of_bounds_leads_to_the_sheet_and_not_to_a_plan_that_is_none(sitting):
    sitting.touch("new")
    sitting.desk.touched("change", "kestrel.toml")
    sitting.touch("plan")
    sitting.touch("answer", "away")
    sitting.touch("input", "plan_shift_length")
    sitting.touch("typed", "99")
    sitting.touch("keep")  # the last field: back to its section
    sitting.touch("back")
    sitting.touch("plan")
    assert sitting.place.screen == "sheet"
    assert "not sound yet" in sitting.state.refused


def test_what_was_put_in_is_only_read_on_the_sheet_of_a_job():
    rows = answer_view(planned(), "away", 0, FINE).rows
    assert [row.touch for row in rows if row.details and row.details[0].startswith("plan_")] == (
        [""] * 8
    )
