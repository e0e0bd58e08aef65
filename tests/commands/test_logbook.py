"""`fieldapp logbook` prints what the weeks add up to, and answers for any list of the course."""

import json

import pytest

from fieldapp.demo.player import play
from fieldapp.logbook.figures import moment
from tests.logbook.weeks import HOOKUP, Weeks, kept


@pytest.fixture
def weeks(fieldapp):
    """Four weeks of the demo on the tablet, the cartridges changed once."""
    jobs = play(fieldapp.home, lambda _: None)
    hookup = jobs.open(HOOKUP).job
    made = Weeks(hookup, moment(hookup, "started"))
    made.visit(7, "121110", "18.8", "2.8")
    made.follow("cartridge_change", 24.5)
    made.visit(28, "480000", "18.0", "2.7", upcoming="2026-07-20")
    kept(jobs, made)
    jobs.close()
    return made


def test_answers_come_first_then_a_line_for_each_list(fieldapp, weeks):
    code, output, complaints = fieldapp("logbook", HOOKUP)
    assert (code, complaints) == (0, "")
    lines = output.splitlines()
    assert lines[0] == "Logbook of SP-T2-2026-01: T2, Sorrel Pass"
    assert lines[2].startswith("Water removed  6.")
    assert "To come out    17 kg by the plan" in output
    assert "Next           Visit due 20 Jul 23:59: fixed at SP-T2-2026-01.visit-2." in output
    assert "Dry?           Not known." in output
    assert sum("  Visit  " in line for line in lines) == 2
    assert "5.5 kg on the scale" in output
    assert max(map(len, lines)) <= 105


def test_any_list_of_the_course_may_be_named(fieldapp, weeks):
    assert fieldapp("logbook", f"{HOOKUP}.visit-1") == fieldapp("logbook", HOOKUP)


def test_data_carries_what_the_page_says(fieldapp, weeks):
    code, output, _ = fieldapp("logbook", HOOKUP, "--json")
    found = json.loads(output)
    assert code == 0
    assert [line["title"] for line in found["lines"]] == [
        "Hookup, start", "Visit", "Cartridge change", "Visit"]  # fmt: skip
    assert found["removed"]["water"] == pytest.approx(found["lines"][-1]["total"]["water"])
    assert found["dryness"]["state"] == "not known"
    assert found["due"]["latest"] == "2026-07-20T23:59:00+02:00"


def test_job_that_is_not_here_is_one_line(fieldapp):
    code, output, complaints = fieldapp("logbook", "NO-1")
    assert (code, output) == (2, "")
    assert complaints.startswith("fieldapp: job NO-1: not found")
