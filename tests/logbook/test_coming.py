"""When to come back: what was fixed, what fresh cartridges need, what a rest test waits for."""

from datetime import timedelta

from fieldapp.logbook.coming import FRESH, NOT_FIXED, change_expected, due_of
from tests.logbook.weeks import known


def test_first_visit_is_due_when_it_was_fixed_and_within_a_day_of_the_start(weeks):
    due = due_of(weeks.course)
    assert due.what == "Visit"
    assert known(due.latest) <= weeks.started + timedelta(hours=24)
    assert due.why == "fixed at SP-T2-2026-01"
    assert due.late(known(due.latest) + timedelta(minutes=1))
    assert not due.late(known(due.latest))


def test_first_visit_is_due_within_a_day_of_the_start_even_if_nobody_fixed_it(
    weeks, hookup_without
):
    weeks.jobs[0] = hookup_without("next_visit")
    due = due_of(weeks.course)
    assert (due.latest, due.why) == (weeks.started + timedelta(hours=24), FRESH)


def test_visit_that_was_fixed_for_a_day_is_late_only_after_it(weeks):
    weeks.visit(1, "17430", "19.0", "3.0", upcoming="2026-06-25")
    due = due_of(weeks.course)
    assert f"{known(due.latest):%d %H:%M}" == "25 23:59"
    assert due.why == "fixed at SP-T2-2026-01.visit-1"


def test_visit_that_fixed_no_other_leaves_none_fixed(weeks):
    weeks.follow("visit", 1, last="v_moist")
    assert due_of(weeks.course) == NOT_FIXED


def test_fresh_cartridges_are_looked_at_within_a_day(weeks):
    weeks.visit(1, "17430", "19.0", "3.0", upcoming="2026-07-20")
    change = weeks.follow("cartridge_change", 24)
    due = due_of(weeks.course)
    assert due.why == FRESH
    assert timedelta() < known(due.latest) - change.now < timedelta(hours=24)


def test_list_that_stopped_the_skid_and_is_open_comes_first(weeks):
    weeks.follow("alarm_response", 3, last="r_shut")
    due = due_of(weeks.course)
    assert due.latest is None
    assert due.why == "SP-T2-2026-01.alarm-response-1 is not signed off yet."


def test_rest_test_says_when_each_sample_is_drawn(weeks):
    test = weeks.follow("rest_test", 87, last="t_relief")
    stopped = known(test.job.state.latest("t_stop_pump")).done_at
    due = due_of(weeks.course)
    assert (due.earliest, due.latest) == (
        stopped + timedelta(days=3),
        stopped + timedelta(days=4),
    )
    test.through("t_draw1", after="t_relief")
    weeks.jobs[-1] = test.job
    due = due_of(weeks.course)
    assert due.latest == stopped + timedelta(days=8)
    assert "7 days, at the tank" in due.why


def test_after_the_disconnection_nothing_is_due(weeks):
    weeks.follow("disconnection", 120)
    due = due_of(weeks.course)
    assert (due.what, due.latest) == ("", None)
    assert "disconnected" in due.why


def test_skid_that_runs_again_is_visited_even_if_nobody_signed_the_alarm_response(weeks):
    weeks.visit(1, "17430", "19.0", "3.0", upcoming="2026-06-25")
    weeks.follow("alarm_response", 3, last="r_start")
    due = due_of(weeks.course)
    assert due.what == "Visit"
    assert due.late(known(due.latest) + timedelta(minutes=1))


def test_unsigned_change_of_cartridges_does_not_hide_the_visit_within_a_day(weeks):
    weeks.visit(1, "17430", "19.0", "3.0", upcoming="2026-07-20")
    change = weeks.follow("cartridge_change", 24, last="c_start")
    due = due_of(weeks.course)
    assert due.why == FRESH
    assert known(due.latest) - change.now < timedelta(hours=24)


def test_blanks_are_looked_at_again_a_day_after_the_skid_is_off(weeks):
    weeks.follow("disconnection", 120, last="d_perm")
    due = due_of(weeks.course)
    job = weeks.jobs[-1]
    assert due.what == "Second look"
    assert due.latest == known(job.state.latest("d_leak1_is")).done_at + timedelta(hours=24)


def test_forecast_of_cartridges_that_were_changed_is_gone(weeks):
    weeks.visit(1, "17430", "19.0", "3.0", v_next_change="2026-07-05")
    assert f"{known(change_expected(weeks.course)):%d %m}" == "05 07"
    weeks.follow("cartridge_change", 24)
    assert change_expected(weeks.course) is None
