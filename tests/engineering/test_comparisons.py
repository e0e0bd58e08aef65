"""Differences, sums, means and tolerances that the lists work with: arithmetic, by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.engineering.arithmetic.comparisons import (
    absolute_pressure_plus,
    mean_mass,
    mean_share,
    mean_water,
    pressure_difference,
    pressure_plus,
    temperature_difference,
)
from fieldapp.engineering.arithmetic.tolerances import (
    pressure_tolerance,
    volume_tolerance,
    water_tolerance,
)
from fieldapp.engineering.hydraulics import volume_passed

PPM = 1e-6
PRESSURES = st.floats(-100_000, 50_000_000)


def test_litres_are_flow_times_time():
    # 12 L/min through a day are 17 280 L; 19 300 L pass in 1.12 days (arithmetic)
    assert volume_passed(flow=12 / 60_000, duration=86_400) == pytest.approx(17.28)
    assert volume_passed(flow=12 / 60_000, duration=1.117 * 86_400) == pytest.approx(19.3, rel=1e-3)


def test_filter_s_pressure_drop_is_the_difference_and_turns_its_sign_with_the_flow():
    assert pressure_difference(first=142_000, second=118_000) == 24_000
    assert pressure_difference(first=118_000, second=142_000) == -24_000


@given(PRESSURES, st.floats(-1_000_000, 1_000_000))
def test_allowance_put_on_comes_off_again(pressure, allowance):
    raised = pressure_plus(pressure=pressure, allowance=allowance)
    assert raised - allowance == pytest.approx(pressure, abs=1e-6)


def test_vacuum_may_rise_by_its_allowance():
    # target 1 hPa and 1 hPa more (arithmetic)
    assert absolute_pressure_plus(pressure=100, allowance=100) == 200


def test_warmer_and_colder_have_their_sign():
    assert temperature_difference(first=321.15, second=325.15) == pytest.approx(-4)


@pytest.mark.parametrize(("mean", "low", "high"), [
    (mean_water, 11 * PPM, 13 * PPM), (mean_share, 0.59, 0.61), (mean_mass, 45.0, 45.1),
])  # fmt: skip
def test_mean_lies_in_the_middle_whichever_comes_first(mean, low, high):
    middle = (low + high) / 2
    assert mean(first=low, second=high) == pytest.approx(middle)
    assert mean(first=high, second=low) == pytest.approx(middle)


@pytest.mark.parametrize(("water", "expected"), [(13, 2.0), (20, 2.0), (35, 3.5)])
def test_water_may_be_off_by_two_milligrams_or_a_tenth(water, expected):
    # max(2 mg/kg, 10 %): assumed for a laboratory without a figure of its own, no source
    found = water_tolerance(water=water * PPM, least=2 * PPM, share=0.1)
    assert found == pytest.approx(expected * PPM)


def test_larger_of_fixed_and_relative_counts():
    assert volume_tolerance(volume=0.114, least=0.005, share=0.1) == pytest.approx(0.0114)
    assert volume_tolerance(volume=0.03, least=0.005, share=0.1) == 0.005
    assert pressure_tolerance(pressure=350_000, least=5000, share=0.05) == pytest.approx(17_500)
    assert pressure_tolerance(pressure=50_000, least=5000, share=0.05) == 5000
