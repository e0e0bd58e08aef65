"""The weeks in the window: what follows a hookup is begun there, grouped, and added up."""

import pytest

from fieldapp.actions.following import SIGN_FIRST
from fieldapp.actions.rules import LEAD as CREW_LEAD
from fieldapp.screens.app import checklists_here
from tests.checklists.playing import checklist_text
from tests.logbook.weeks import HOOKUP
from tests.screens.course import (
    FOLLOWING,
    LEAD,
    TECHNICIAN,
    copied,
    hooked_up,
    keep_weeks,
    sitting_after,
    weeks_in,
)
from tests.screens.sitting import NUMBER, SHEET, Sitting


@pytest.fixture(scope="module")
def signed_home(tmp_path_factory):
    return hooked_up(tmp_path_factory.mktemp("signed"))


@pytest.fixture
def home(signed_home, tmp_path):
    return copied(signed_home, tmp_path)


@pytest.fixture
def sitting(home):
    made = sitting_after(home, 1)
    yield made
    made.desk.close()


def begun(sitting, checklist, who=TECHNICIAN):
    sitting.touch("course", HOOKUP)
    sitting.touch("follow")
    sitting.touch("begin list", checklist)
    sitting.touch("person", who)
    return sitting


def test_hookup_that_is_signed_says_when_to_come_back(home):
    sitting = sitting_after(home, 0)
    row = sitting.view().rows[0]
    assert (row.touch, row.word, row.right) == ("course", "waiting", "Visit")
    assert row.below.startswith("by 18 Jun")
    sitting.desk.close()
    late = sitting_after(home, 3)
    assert late.view().rows[0].word == "late"
    late.desk.close()


@pytest.mark.parametrize("checklist", FOLLOWING)
def test_every_list_is_begun_on_the_hookup_with_its_sheet(sitting, checklist):
    begun(sitting, checklist)
    job = sitting.job
    assert job.number == f"{HOOKUP}.{checklist.replace('_', '-')}-1"
    assert (job.follows, job.checklist.id) == (HOOKUP, checklist)
    hookup = sitting.state.jobs.open(HOOKUP)
    assert job.sheet.text == hookup.job.sheet.text
    assert job.begun.head == hookup.job.state.signature(CREW_LEAD).what.head
    assert sitting.place.screen == "steps"


def test_several_visits_are_rows_of_one_course_the_newest_first(sitting):
    for _ in range(2):
        begun(sitting, "visit")
        sitting.to_jobs()
    (row,) = sitting.view().rows
    assert row.details == (HOOKUP,)
    view = sitting.touch("course", HOOKUP)
    numbers = [row.details[0] for row in view.rows if row.touch == "open job"]
    assert numbers == [f"{HOOKUP}.visit-2", f"{HOOKUP}.visit-1", HOOKUP]
    states = [row.second for row in view.rows if row.touch == "open job"]
    assert "steps open, next: Tell the control room" in states[0]
    assert "Signed off 17 Jun" in states[2]
    sitting.touch("open job", f"{HOOKUP}.visit-1")
    assert sitting.job.number == f"{HOOKUP}.visit-1"


def test_list_that_is_open_says_so_before_another_is_begun(sitting):
    begun(sitting, "visit")
    sitting.touch("people")
    sitting.touch("course here")
    view = sitting.touch("follow")
    visit = next(row for row in view.rows if row.details == ("visit",))
    assert "visit-1 is open: go on with it first" in visit.second


def test_before_the_signatures_only_what_makes_safe_follows(tmp_path):
    sitting = Sitting(tmp_path, checklists={"small": checklist_text_small(), **checklists_here()})
    sitting.begin()
    sitting.touch("people")
    sitting.touch("course here")
    view = sitting.touch("follow")
    rows = {row.first: row for row in view.rows}
    assert (rows["Visit to a running skid"].touch, rows["Rest test"].touch) == ("", "")
    assert rows["Visit to a running skid"].second == SIGN_FIRST
    assert rows["Alarm response"].touch == rows["Disconnection"].touch == "begin list"
    sitting.touch("begin list", "visit")
    assert sitting.place.screen == "follow"
    assert sitting.state.refused == SIGN_FIRST
    sitting.desk.close()


def checklist_text_small():
    from tests.actions.play import CHECKLIST

    return CHECKLIST


def test_after_the_disconnection_only_samples_follow(home):
    weeks = weeks_in(home)
    weeks.follow("disconnection", 100)
    keep_weeks(home, weeks)
    sitting = sitting_after(home, 103)
    assert sitting.view().rows[0].word == "done"
    sitting.touch("course", HOOKUP)
    rows = sitting.touch("follow").rows
    assert [row.first for row in rows if row.touch] == ["Oil sampling"]
    sitting.desk.close()


def test_newer_revision_is_offered_and_never_swapped_in(home):
    text = checklists_here()["visit"]
    assert "revision = 1\n" in text or "revision = 2\n" in text
    old = text.replace("revision = 2\n", "revision = 1\n", 1)
    new = old.replace("revision = 1\n", "revision = 9\n", 1)
    first = begun(sitting_after(home, 1, {**checklists_here(), "visit": old}), "visit")
    first.desk.close()
    later = sitting_after(home, 8, {**checklists_here(), "visit": new})
    later.touch("course", HOOKUP)
    later.touch("open job", f"{HOOKUP}.visit-1")
    later.touch("person", TECHNICIAN)
    assert later.job.checklist.revision == 1
    later.to_jobs()
    later.touch("course", HOOKUP)
    row = next(row for row in later.touch("follow").rows if row.details == ("visit",))
    assert "revision 9 now; the last one was revision 1" in row.second.lower()
    later.touch("begin list", "visit")
    later.touch("person", TECHNICIAN)
    assert later.job.checklist.revision == 9
    assert later.state.jobs.open(f"{HOOKUP}.visit-1").job.checklist.revision == 1
    later.desk.close()


def test_sheet_with_newer_instruments_can_be_taken_for_the_next_list(sitting, home):
    text = sitting.state.jobs.open(HOOKUP).job.sheet.text
    (home / "sheets" / "newer.toml").write_text(
        text.replace("due = 2026-06-07", "due = 2027-06-07"), encoding="utf-8"
    )
    sitting.touch("course", HOOKUP)
    view = sitting.touch("follow")
    assert view.under[1] == "as the hookup"
    assert sitting.touch("another sheet").under[1] == "newer.toml"
    sitting.touch("begin list", "visit")
    sitting.touch("person", TECHNICIAN)
    assert "due = 2027-06-07" in sitting.job.sheet.text


def test_answers_of_the_owner_for_other_lists_may_stand_on_the_sheet(tmp_path):
    asked = SHEET + "\n[owner]\nstop_turn = false\n" if "[owner]" not in SHEET else (
        SHEET.replace("[owner]\n", "[owner]\nstop_turn = false\n", 1)
    )  # fmt: skip
    lists = {"small": checklist_text_small(), "visit": checklist_text("visit")}
    sitting = Sitting(tmp_path, {"kestrel.toml": asked}, checklists=lists)
    sitting.begin()
    assert sitting.job.number == NUMBER
    sitting.desk.close()
    alone = Sitting(tmp_path / "alone", {"kestrel.toml": asked})
    alone.begin()
    assert alone.place.screen == "newjob"
    assert "stop_turn is nothing that" in alone.state.problems[0]
    alone.desk.close()


def test_vacuum_treatment_stands_alone_and_nothing_follows_it(tmp_path):
    from tests.checklists.playing import sheet

    sitting = Sitting(tmp_path, {"demo.toml": sheet()}, checklists=checklists_here())
    view = sitting.touch("new")
    assert view.under[0] == "Hookup to an energised unit"
    view = sitting.touch("lists")
    assert [row.details[0] for row in view.rows] == ["hookup", "vacuum_treatment"]
    assert sitting.touch("list", "vacuum_treatment").under[0].startswith("Heat and vacuum")
    sitting.touch("sheet", "demo.toml")
    sitting.touch("person", TECHNICIAN)
    assert (sitting.job.checklist.id, sitting.job.follows) == ("vacuum_treatment", "")
    sitting.touch("people")
    sitting.touch("course here")
    assert not any(row.touch for row in sitting.touch("follow").rows)
    sitting.desk.close()


def test_people_of_the_sheet_are_asked_for_each_list(sitting):
    sitting.touch("course", HOOKUP)
    sitting.touch("follow")
    view = sitting.touch("begin list", "visit")
    assert TECHNICIAN in [row.first for row in view.rows]
    assert all(row.touch == "person" for row in view.rows)
    sitting.touch("person", LEAD)
    assert sitting.state.who == LEAD
    assert sitting.job.state.log[0].by == LEAD


def test_logbook_adds_up_and_leads_on(home):
    weeks = weeks_in(home)
    weeks.visit(1, "17430", "19.2", "3.0")
    weeks.follow("cartridge_change", 24.5)
    weeks.visit(28, "480000", "18.0", "2.7", upcoming="2026-07-20")
    keep_weeks(home, weeks)
    sitting = sitting_after(home, 30)
    sitting.touch("course", HOOKUP)
    view = sitting.touch("logbook")
    assert [answer.large for answer in view.answers] == ["6.0 kg", "20 Jul", "not known"]
    assert [row[2] for row in view.rows] == ["Visit", "Cartridge change", "Visit", "Hookup"]
    assert view.chart.points[-1][1] == pytest.approx(6.0, abs=0.1)
    assert [phase.state for phase in view.frame.phases] == ["done", "now", "todo", "todo"]
    sitting.touch("follow")
    sitting.touch("back")
    assert sitting.touch("course here").title == "T2"
    sitting.desk.close()


def test_course_without_its_hookup_begins_nothing(home):
    sitting = begun(sitting_after(home, 1), "visit")
    sitting.desk.close()
    hookup = home / "jobs" / HOOKUP
    hookup.rename(home / "elsewhere")
    alone = sitting_after_without(home)
    alone.touch("course", HOOKUP)
    alone.touch("follow")
    assert alone.place.screen == "course"
    assert "hookup is not on this tablet" in alone.state.refused
    assert alone.touch("logbook").answers[0].large == "0.0 kg"
    alone.desk.close()


def sitting_after_without(home):
    sitting = Sitting(home, {}, checklists=checklists_here())
    sitting.minute = 24 * 60 * 200
    return sitting
