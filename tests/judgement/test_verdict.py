"""Verdicts: inside, too near, outside, by how much, and never kinder than the truth."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.checklist.model import Bound, Limits, Measure, Rule, Waive
from fieldapp.judgement.values import Value
from fieldapp.judgement.verdict import Place, Range, judged, limit_sentence, range_of
from fieldapp.units import to_si

OHM = Measure("ohm", 2, Limits(high=Bound(Decimal("0.50"))))
HPA = Measure("hPa", 1)


def verdict(number, measure=OHM, **limits):
    return judged(Decimal(number), measure, Range(**limits), Waive.LEAD)


@pytest.mark.parametrize(
    ("number", "place", "sentence"),
    [
        # upper limit 0.50, U 0.06: the acceptance limit is 0.44 (ILAC-G8:09/2019, 4.2.2)
        ("0.08", Place.INSIDE, "Inside by 0.36\u00a0Ω."),
        ("0.44", Place.INSIDE, "Inside by 0.00\u00a0Ω."),
        (
            "0.46",
            Place.TOO_NEAR,
            "Too near the limit for this instrument: it could be 0.52\u00a0Ω.",
        ),
        (
            "0.50",
            Place.TOO_NEAR,
            "Too near the limit for this instrument: it could be 0.56\u00a0Ω.",
        ),
        ("0.51", Place.OUTSIDE, "Outside by 0.01\u00a0Ω."),
        ("0.5001", Place.OUTSIDE, "Outside by 0.0001\u00a0Ω."),
        ("9", Place.OUTSIDE, "Outside by 8.50\u00a0Ω."),
    ],
)
def test_guarded_upper_limit(number, place, sentence):
    found = verdict(number, high=Decimal("0.50"), guard=Decimal("0.06"))
    assert (found.place, found.sentence) == (place, sentence)


def test_lower_limit_is_raised_by_the_guard():
    # 25 inHg asked for, gauge ± 0.5: 25.5 is needed (ILAC-G8:09/2019, lower limit)
    near = judged(Decimal("25.4"), Measure("inHg", 1), Range(Decimal(25), None, Decimal("0.5")),
                  Waive.LEAD)  # fmt: skip
    assert near.place is Place.TOO_NEAR
    assert "it could be 24.9" in near.sentence


def test_number_on_the_limit_without_a_guard_is_inside_and_said_so():
    assert verdict("0.50", high=Decimal("0.50")).sentence == "Inside, on the limit."


def test_no_limit_is_noted_and_a_missing_one_is_not_taken_for_inside():
    assert verdict("1").place is Place.NOTED
    missing = verdict("1", missing="station_p")
    assert missing.place is Place.OUTSIDE
    assert "station p is missing" in missing.sentence


@given(
    st.decimals(-100, 100, places=3),
    st.decimals(0, 50, places=2),
    st.decimals(0, 5, places=2),
)
def test_inside_always_means_inside_by_the_uncertainty(number, high, guard):
    found = verdict(str(number), high=high, guard=guard)
    if found.place is Place.INSIDE:
        assert number + guard <= high
    elif found.place is Place.TOO_NEAR:
        assert number <= high < number + guard
    else:
        assert number > high
        assert "by 0.00\u00a0Ω" not in found.sentence


def test_limit_that_is_worked_out_is_rounded_to_the_safe_side_and_a_stated_one_stays():
    numbers = {
        "worked_out": Value(to_si(166.651, "hPa")),
        "stated": Value(to_si(166.65, "hPa"), 0.0, Decimal("166.65"), "hPa"),
    }

    def limits(low, high):
        return range_of(
            Measure("hPa", 1, Limits(low=Bound(name=low), high=Bound(name=high))), numbers
        )

    assert limits("worked_out", "worked_out") == Range(Decimal("166.7"), Decimal("166.6"))
    assert limits("stated", "stated") == Range(Decimal("166.65"), Decimal("166.65"))


def test_limits_about_a_value_and_a_floor_hold_together():
    # head 32.5 kPa g: within 20 % is 26.0 to 39.0, and at least 10 in any case
    measure = Measure("kPa g", 1, Limits(
        low=Bound(Decimal(10)), about=Bound(name="head"), within_percent=Decimal(20)
    ))  # fmt: skip
    assert range_of(measure, {"head": Value(32_500.0)}) == Range(Decimal("26.0"), Decimal("39.0"))
    assert range_of(measure, {"head": Value(6_000.0)}) == Range(Decimal(10), Decimal("7.2"))


@pytest.mark.parametrize(
    ("limits", "sentence"),
    [
        (Range(), "No limit: noted."),
        (Range(high=Decimal("0.50")), "At most 0.50\u00a0Ω."),
        (Range(low=Decimal("0.10")), "At least 0.10\u00a0Ω."),
        (Range(Decimal("0.10"), Decimal("0.50")), "0.10 to 0.50\u00a0Ω."),
        (Range(high=Decimal("0.50"), guard=Decimal("0.06")),
         "At most 0.50\u00a0Ω. With this instrument, 0.44 or less."),
        (Range(low=Decimal("0.10"), guard=Decimal("0.06")),
         "At least 0.10\u00a0Ω. With this instrument, 0.16 or more."),
        (Range(Decimal("0.40"), Decimal("0.50"), Decimal("0.06")),
         "0.40 to 0.50\u00a0Ω. This instrument cannot decide here: take a finer one."),
        (Range(missing="station_p"), "The limit waits for station p."),
    ],
)  # fmt: skip
def test_limits_are_said_before_anything_is_typed(limits, sentence):
    assert limit_sentence(limits, Measure("ohm", 2, Limits(rule=Rule.GUARDED))) == sentence
