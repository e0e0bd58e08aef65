"""Tests of the keys for timed readings."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.screens.kit.chart.two_touch_keys import GROUPS, MOST_READINGS, keys_for

DIVISIONS = ["0.05", "0.1", "0.2", "0.25", "0.5", "1", "2", "5", "10", "20"]
divisions = st.sampled_from(DIVISIONS).map(Decimal)
expecteds = st.decimals(0, 1100, places=2)


def labels(keys):
    return [keys.first_label(group) for group in range(len(keys.starts))]


def test_a_dial_in_inches_of_mercury_shows_wholes_and_tenths():
    keys = keys_for(Decimal("18.3"), Decimal("0.2"))
    assert labels(keys) == [("17", ""), ("18", ""), ("19", "")]
    assert [keys.second_label(None, at) for at in range(5)] == [".0", ".2", ".4", ".6", ".8"]


def test_a_digital_gauge_in_hpa_shows_groups_of_five():
    keys = keys_for(Decimal(247), Decimal(1))
    assert labels(keys) == [("240", "to 244"), ("245", "to 249"), ("250", "to 254")]
    assert [keys.second_label(1, at) for at in range(5)] == ["245", "246", "247", "248", "249"]
    assert keys.second_label(None, 0) == ""


def test_a_digital_gauge_with_one_decimal_shows_groups_of_half_a_unit():
    keys = keys_for(Decimal("24.7"), Decimal("0.1"))
    assert labels(keys) == [("24.0", "to 24.4"), ("24.5", "to 24.9"), ("25.0", "to 25.4")]


def test_a_gauge_with_divisions_of_two_shows_tens():
    keys = keys_for(Decimal(247), Decimal(2))
    assert labels(keys) == [("230", "to 238"), ("240", "to 248"), ("250", "to 258")]


def test_the_decimal_mark_of_the_language_is_on_the_keys_and_in_the_reading():
    keys = keys_for(Decimal("18.3"), Decimal("0.2"))
    assert keys.second_label(None, 1, ",") == ",2"
    assert keys.text_of(1, 1, ",") == "18,2"


def test_no_key_lies_below_the_lowest_reading():
    assert keys_for(Decimal("0.1"), Decimal("0.2")).starts == tuple(map(Decimal, (0, 1, 2)))


def test_no_key_lies_above_the_highest_reading():
    keys = keys_for(Decimal(40), Decimal("0.2"), high=Decimal("24.9"))
    assert keys.starts == tuple(map(Decimal, (23, 24)))


def test_readings_below_zero_have_a_true_minus():
    keys = keys_for(Decimal(-7), Decimal(1), low=Decimal(-20))
    assert keys.text_of(0, 0) == "−15"


@given(expecteds, divisions)
def test_there_are_never_more_keys_than_the_strip_holds(expected, division):
    keys = keys_for(expected, division)
    assert len(keys.starts) == GROUPS
    assert 2 <= keys.per_group <= MOST_READINGS


@given(expecteds, divisions, st.integers(0, 14))
def test_any_reading_between_the_first_and_last_key_takes_two_touches(expected, division, at):
    keys = keys_for(expected, division)
    reading = keys.starts[0] + (at % (GROUPS * keys.per_group)) * division
    ways = [
        (group, second)
        for group in range(GROUPS)
        for second in range(keys.per_group)
        if Decimal(keys.text_of(group, second)) == reading
    ]
    assert len(ways) == 1


@given(expecteds, divisions)
def test_the_expected_value_lies_among_the_keys(expected, division):
    keys = keys_for(expected, division)
    span = division * keys.per_group
    assert keys.starts[0] <= expected < keys.starts[-1] + span


@given(expecteds, divisions, st.integers(0, 2), st.integers(0, 4))
def test_the_two_labels_touched_say_the_reading_that_is_kept(expected, division, group, second):
    keys = keys_for(expected, division)
    second %= keys.per_group
    first, _ = keys.first_label(group)
    label = keys.second_label(group, second)
    said = first + label if keys.wholes and "." in label else label
    assert said == keys.text_of(group, second)


@pytest.mark.parametrize("division", DIVISIONS)
def test_a_reading_has_the_decimals_of_the_gauge(division):
    keys = keys_for(Decimal(18), Decimal(division))
    assert len(keys.text_of(0, 1).partition(".")[2]) == len(division.partition(".")[2])
