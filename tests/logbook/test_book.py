"""The logbook brings ledger, scale, what is enough and what is due together."""

import pytest

from fieldapp.logbook.book import logbook_of
from fieldapp.logbook.course import courses_of
from fieldapp.logbook.weighing import NO_BLANK, NO_SPREAD
from tests.logbook.weeks import NO_ZERO, known

BLANKS = {"c_blank_spread": "0.14", "c_blank_count": "10"}


def test_what_is_enough_comes_from_the_plan(weeks):
    # invented demo: 17 kg, from 2 to 37
    enough = logbook_of(weeks.course).enough
    assert enough.likely == pytest.approx(17.0, abs=0.1)
    assert enough.low == pytest.approx(2.3, abs=0.1)
    assert enough.high == pytest.approx(36.6, abs=0.1)


def test_scale_and_oil_stand_side_by_side(weeks):
    weeks.follow("cartridge_change", 24.5, changed=BLANKS)
    (weighing,) = logbook_of(weeks.course).weighings
    assert known(weighing.scale).water == pytest.approx(5.5)
    # Student's t of 9 degrees of freedom (JCGM 100:2008, Table G.2) 2.32 x 0.14 kg x √1.1
    assert known(weighing.scale).uncertainty == pytest.approx(0.36, abs=0.02)
    assert weighing.by_oil.water == pytest.approx(5.4, abs=0.2)
    assert "agree" in weighing.sentence


def test_probe_that_drifted_shows_on_the_scale(weeks):
    changed = BLANKS | {"c_last_in": "33.0"}
    weeks.follow("cartridge_change", 24.5, changed=changed)
    (weighing,) = logbook_of(weeks.course).weighings
    assert "further apart than their uncertainty" in weighing.sentence


def test_without_blanks_the_scale_is_not_believed(weeks):
    weeks.follow("cartridge_change", 24.5)
    assert NO_SPREAD in logbook_of(weeks.course).weighings[0].sentence
    weeks.follow("cartridge_change", 50,
                 swapped=(*NO_ZERO, ('blank_mass = "84.6 kg"\n', "")))  # fmt: skip
    second = logbook_of(weeks.course).weighings[1]
    assert second.scale is None
    assert NO_BLANK in second.sentence


def test_laboratory_pairs_are_held_against_the_probe(weeks):
    weeks.visit(7, "121110", "18.8", "2.8", v_pair_lab="16.5", v_pair_probe="19.2")
    (note,) = logbook_of(weeks.course).notes
    assert note == (
        "SP-T2-2026-01.visit-1: laboratory 16.5 mg/kg, probe 19.2: the probe shows 116 % of it"
    )


def test_when_the_cartridges_are_full_is_worked_out(weeks):
    weeks.visit(14, "242070", "17.9", "2.7")
    # 2 x 25 kg x 12 % = 6.0 kg; 3.2 kg in 14 days, so 2.8 kg take 12 more
    words = logbook_of(weeks.course).change
    assert words == "3.2 of about 6.0 kg; full about 13 Jul at the present rate."
    weeks.follow("cartridge_change", 24.5)
    assert logbook_of(weeks.course).change.startswith("0.0 of about 6.0 kg")


def test_courses_hold_what_follows_together_the_last_worked_on_first(weeks, hookup):
    weeks.visit(7, "121110", "18.8", "2.8")
    visit = weeks.jobs[-1]
    (course,) = courses_of([visit, hookup])
    assert (course.number, course.hookup, course.followers) == (hookup.number, hookup, (visit,))
    (orphan,) = courses_of([visit])
    assert (orphan.number, orphan.hookup, orphan.followers) == (hookup.number, None, (visit,))


def test_cartridges_that_hardly_take_water_are_not_given_a_day(weeks):
    weeks.visit(14, "151", "17.9", "2.7")
    assert logbook_of(weeks.course).change == "0.0 of about 6.0 kg; not full within a year."


def test_cartridges_of_which_not_all_was_counted_are_not_given_a_day(weeks):
    weeks.visit(7, "121110", "18.8", "2.8")
    weeks.visit(14, "1000", "17.9", "2.7")
    weeks.visit(21, "121960", "17.0", "2.6")
    words = logbook_of(weeks.course).change
    assert words.startswith("at least 3.1 of about 6.0 kg; not all was counted")
