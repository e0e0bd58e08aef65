"""How well a pump-down is known and what it says, against scipy and traces worked out by hand."""

from math import exp, inf

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import curve_fit
from scipy.stats import t as student

from fieldapp.engineering.air.curve_uncertainty import curve_uncertainty
from fieldapp.engineering.air.outlook import Blanked, Outlook, pump_down_verdict
from fieldapp.engineering.pump_down import fitted_pump_down
from fieldapp.engineering.validity import OutsideValidity

# 120 L, 60 L/min: P = Pu + (843.2 - Pu) exp(-t/120 s), rounded to 1 hPa (evacuation equation)
STALLS = {0: 843, 30: 708, 60: 602, 90: 520, 120: 456, 180: 368, 240: 314, 300: 281, 360: 261,
          420: 249, 480: 242}  # fmt: skip
GOES = {0: 843, 30: 658, 60: 515, 90: 403, 120: 315, 150: 247, 180: 195, 210: 153, 240: 121,
        300: 77, 360: 50}  # fmt: skip
TARGET = 16_665.0
ALONE = Blanked(800.0, 200.0)


def verdict(trace, count, **more):
    times, pressures = list(trace)[:count], [100.0 * p for p in trace.values()][:count]
    return pump_down_verdict(times, pressures, target=TARGET, **more)


def made(ultimate, constant, count, noise, seed=7, start=84_300.0):
    spread = np.random.default_rng(seed).normal(0, noise, count)
    times = [20.0 * n for n in range(count)]
    fall = start - ultimate
    return times, [ultimate + fall * exp(-t / constant) + n
                   for t, n in zip(times, spread, strict=True)]  # fmt: skip


@pytest.mark.parametrize("count", [6, 9, 14, 33])
def test_uncertainty_agrees_with_the_covariance_of_scipy(count):
    times, pressures = made(9_000, 110, count, 200)
    fit = fitted_pump_down(times, pressures)
    assert fit is not None
    _, covariance = curve_fit(
        lambda t, s, u, tau: u + (s - u) * np.exp(-t / tau), times, pressures,
        p0=(fit.start, fit.ultimate, fit.time_constant),
    )  # fmt: skip
    known = curve_uncertainty(times, fit)
    deviations = np.sqrt(np.diag(covariance)) * known.coverage
    assert known.ultimate == pytest.approx(deviations[1], rel=1e-3)
    assert known.time_constant == pytest.approx(deviations[2], rel=1e-3)
    assert known.speed(0.12) / fit.speed(0.12) == pytest.approx(
        deviations[2] / fit.time_constant, rel=1e-3
    )


@pytest.mark.parametrize("spare", [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 15, 18, 20, 30, 50, 100])
def test_coverage_is_that_of_student_and_never_less(spare):
    # t for 95.45 % two-sided; JCGM 100:2008, table G.2
    times, pressures = made(9_000, 110, spare + 3, 200)
    fit = fitted_pump_down(times, pressures) if spare > 1 else None
    fit = fit or fitted_pump_down(*made(9_000, 110, 30, 200))
    assert fit is not None
    coverage, exact = curve_uncertainty(times, fit).coverage, student.ppf(0.5 + 0.9545 / 2, spare)
    assert exact - 0.006 <= coverage <= exact * 1.03


def test_true_curve_lies_within_the_uncertainty_as_often_as_it_says():
    inside = {"ultimate": 0, "constant": 0, "time": 0}
    for seed in range(200):
        times, pressures = made(9_000, 110, 14, 300, seed)
        fit = fitted_pump_down(times, pressures)
        assert fit is not None
        known = curve_uncertainty(times, fit)
        reached, within = fit.time_to(TARGET), known.time_to(TARGET)
        assert reached is not None
        assert within is not None
        true_time = 110 * np.log((84_300 - 9_000) / (TARGET - 9_000))
        inside["ultimate"] += abs(fit.ultimate - 9_000) <= known.ultimate
        inside["constant"] += abs(fit.time_constant - 110) <= known.time_constant
        inside["time"] += abs(reached - true_time) <= within
    assert all(180 <= hits <= 199 for hits in inside.values()), inside


def test_coarse_gauge_is_not_made_finer_by_a_lucky_fit():
    times, pressures = made(9_000, 110, 14, 0)
    fit = fitted_pump_down(times, pressures)
    assert fit is not None
    assert curve_uncertainty(times, fit).ultimate < 1
    assert curve_uncertainty(times, fit, repeatability=200).ultimate > 100


def test_three_readings_say_nothing_of_the_uncertainty():
    fit = fitted_pump_down(*made(9_000, 110, 14, 0))
    assert fit is not None
    known = curve_uncertainty([0, 20, 40], fit)
    assert known.ultimate == inf
    assert known.time_to(TARGET) is None


def test_pump_down_that_goes_is_on_its_way_long_before_it_is_there():
    found = verdict(GOES, 6)
    assert found.outlook is Outlook.ON_ITS_WAY
    # 120 s ln((843.2 - 8.2)/(166.65 - 8.2)) = 199 s = 3.3 min (evacuation equation)
    assert found.reached_after == pytest.approx(199.4, abs=4)
    assert found.reached_within is not None
    assert 0 < found.reached_within < 30
    assert found.sentence.startswith("On its way: at the target after 3.3 min")


def test_pump_down_at_its_target_is_there():
    assert verdict(GOES, 8).outlook is Outlook.REACHED


@pytest.mark.parametrize("count", [0, 1, 4])
def test_few_readings_are_too_early_to_tell(count):
    assert verdict(STALLS, count).outlook is Outlook.TOO_EARLY


def test_straight_beginning_is_too_early_to_tell():
    times, pressures = made(2_000, 600, 8, 200)
    assert pump_down_verdict(times, pressures, target=TARGET).outlook is Outlook.TOO_EARLY


def test_levelling_out_on_the_target_is_not_told_yet():
    times, pressures = made(TARGET - 50, 110, 14, 200)
    assert pump_down_verdict(times, pressures, target=TARGET).outlook is Outlook.TOO_EARLY


def test_without_the_pump_alone_it_only_will_not_get_there():
    # neither "leak" nor "weak pump" may be said (common practice, no source)
    found = verdict(STALLS, 11)
    assert found.outlook is Outlook.WILL_NOT
    assert found.inflow is None
    assert found.reached_after is None


def test_pump_that_reaches_it_alone_means_a_leak():
    # Q = S (231 - 8) = 223 hPa L/s (arithmetic)
    found = verdict(STALLS, 11, blanked=ALONE, volume=0.12)
    assert found.outlook is Outlook.LEAK
    assert found.inflow is not None
    assert found.inflow * 10 == pytest.approx(223, abs=3)


@pytest.mark.parametrize("alone", [23_100, 16_600])
def test_pump_that_does_not_reach_it_alone_is_weak(alone):
    assert verdict(STALLS, 11, blanked=Blanked(alone, 200)).outlook is Outlook.WEAK_PUMP


def test_weak_pump_with_a_leak_says_both():
    found = verdict(STALLS, 11, blanked=Blanked(18_000, 200), volume=0.12)
    assert found.outlook is Outlook.WEAK_PUMP
    assert found.inflow is not None
    assert "Beyond that, air comes in" in found.sentence
    assert "Beyond" not in verdict(STALLS, 11, blanked=Blanked(23_100, 200)).sentence


@given(st.integers(0, 300), st.integers(6, 14))
def test_noise_of_two_hectopascal_never_turns_the_verdict_round(seed, count):
    goes = pump_down_verdict(*made(820, 120, count, 100, seed), target=4_000, repeatability=100)
    stalls = pump_down_verdict(*made(23_100, 120, 14, 100, seed), target=TARGET, repeatability=100)
    assert goes.outlook in {Outlook.ON_ITS_WAY, Outlook.TOO_EARLY}
    assert stalls.outlook is Outlook.WILL_NOT


def test_target_of_nothing_is_refused():
    with pytest.raises(OutsideValidity, match="target 0"):
        pump_down_verdict([0, 1], [1, 2], target=0)


def test_readings_that_tell_nothing_apart_leave_everything_unknown():
    fit = fitted_pump_down(*made(9_000, 110, 14, 0))
    assert fit is not None
    assert curve_uncertainty([60] * 6, fit, repeatability=1).ultimate == inf
