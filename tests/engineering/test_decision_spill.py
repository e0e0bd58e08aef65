"""Which containers the American spill rule counts, and from how much oil on."""

import pytest
from scipy import constants

from fieldapp.engineering.decision.spill import SMALLEST, THRESHOLD, US_GALLON, spill_rule_of
from fieldapp.engineering.validity import OutsideValidity

GALLON = constants.gallon


def test_gallon_is_that_of_the_united_states():
    # 231 cubic inches, NIST Handbook 44, appendix C
    assert pytest.approx(GALLON) == US_GALLON


def test_thresholds_are_those_of_the_rule():
    # 40 CFR 112.1: 1320 US gal above ground (4997 L), containers from 55 US gal (208.2 L), as seen
    # in EPA's guidance for inspectors, chapter 4
    assert pytest.approx(1320 * GALLON) == THRESHOLD
    assert (round(THRESHOLD * 1000), round(SMALLEST * 1000, 1)) == (4997, 208.2)


@pytest.mark.parametrize(
    ("gallons", "applies"),
    [([1320], False), ([1320.1], True), ([660, 660], False), ([660, 661], True)],
)
def test_rule_counts_more_than_the_threshold(gallons, applies):
    assert spill_rule_of([each * GALLON for each in gallons]).applies is applies


@pytest.mark.parametrize(("gallons", "count"), [(54.9, 0), (55, 1), (55.1, 1)])
def test_container_below_fifty_five_gallons_does_not_count(gallons, count):
    assert spill_rule_of([gallons * GALLON]).containers == count


def test_thirty_small_drums_do_not_count_and_thirty_of_full_size_do():
    # 30 x 54 = 1620 US gal, none counted; 30 x 55 = 1650 (arithmetic)
    assert not spill_rule_of([54 * GALLON] * 30).applies
    assert spill_rule_of([55 * GALLON] * 30).applies


@pytest.mark.parametrize("capacities", [[], [-0.001], [1000.1], [float("nan")], [1.0] * 1001])
def test_what_is_no_container_is_refused(capacities):
    with pytest.raises(OutsideValidity):
        spill_rule_of(capacities)
