"""Hold test, filling and pump-down, against the gas laws and scipy."""

from math import exp

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.constants import R
from scipy.optimize import curve_fit

from fieldapp.engineering.pump_down import PumpDown, fitted_pump_down, pump_down_time
from fieldapp.engineering.vacuum import (
    expected_litres,
    leak_rate,
    pressure_at_first_temperature,
)
from fieldapp.engineering.validity import OutsideValidity

ROOM = 293.15


def hold(volume=0.06, start=2000.0, end=2500.0, duration=1200.0, warm=ROOM):
    return leak_rate(
        volume=volume, start_pressure=start, end_pressure=end, start_temperature=ROOM,
        end_temperature=warm, duration=duration,
    )  # fmt: skip


def test_five_kelvin_alone_lift_166_hpa_by_2_84():
    # ideal gas at constant volume: 166.65 hPa, 20 to 25 °C gives +2.84 hPa (arithmetic)
    assert pressure_at_first_temperature(
        pressure=16_665 + 284.2, temperature=298.15, first_temperature=ROOM
    ) == pytest.approx(16_665, abs=0.5)


@given(st.floats(0.1, 3), st.floats(260, 340), st.floats(260, 340))
def test_correction_agrees_with_the_ideal_gas_of_codata(moles, first, second):
    # p = nRT/V with the molar gas constant of CODATA 2018 as scipy carries it; V = 1 m³
    found = pressure_at_first_temperature(
        pressure=moles * R * second, temperature=second, first_temperature=first
    )
    assert found == pytest.approx(moles * R * first, rel=1e-12)


def test_leak_rate_of_a_rate_of_rise():
    # Q = V dP/dt: 60 L, 5 hPa in 900 s is 0.3333 hPa L/s; the same rate over the 1200 s allowed
    assert hold(end=2000 + 500 * 1200 / 900) * 10 == pytest.approx(0.3333, rel=2e-4)
    # and 0.1 inHg, 3.386 hPa, in 900 s is 0.2257 hPa L/s
    assert hold(end=2000 + 338.6 * 1200 / 900) * 10 == pytest.approx(0.2257, rel=2e-4)


def test_warming_alone_is_no_leak():
    warm = ROOM + 5
    assert hold(end=2000 * warm / ROOM, warm=warm) == pytest.approx(0, abs=1e-12)


def test_hold_shorter_than_twenty_minutes_is_refused():
    with pytest.raises(OutsideValidity, match="duration 1199"):
        hold(duration=1199)


@given(st.floats(1, 10_000))
def test_more_pressure_at_the_end_is_more_leak(rise):
    assert hold(end=2000 + rise) > hold(end=2000)


def test_gas_left_under_oil_follows_boyle():
    # Boyle: 120 L at 62 hPa is 6.44 L at 843.2 + 313 hPa (arithmetic)
    litres = 1000 * expected_litres(
        loop_volume=0.120, hold_pressure=6_200, station_pressure=84_320, vessel_pressure=31_300
    )
    assert 120 - litres == pytest.approx(120 * 6_200 / 115_620, rel=1e-9)


def readings(ultimate, time_constant, count=16, start=84_300.0, noise=0.0):
    times = [30.0 * place for place in range(count)]
    spread = np.random.default_rng(7).normal(0, noise, count) if noise else np.zeros(count)
    fall = start - ultimate
    return times, [ultimate + fall * exp(-t / time_constant) + n
                   for t, n in zip(times, spread, strict=True)]  # fmt: skip


def fitted(times, pressures):
    fit = fitted_pump_down(times, pressures)
    assert fit is not None
    return fit


def test_pump_down_fit_agrees_with_scipy():
    times, pressures = readings(23_100, 120, noise=200)
    fit = fitted(times, pressures)
    (ultimate, start, time_constant), _ = curve_fit(
        lambda t, u, s, tau: u + (s - u) * np.exp(-t / tau), times, pressures,
        p0=(20_000, 84_000, 100),
    )  # fmt: skip
    assert fit.ultimate == pytest.approx(ultimate, rel=1e-4)
    assert fit.start == pytest.approx(start, rel=1e-4)
    assert fit.time_constant == pytest.approx(time_constant, rel=1e-4)


@pytest.mark.parametrize(
    ("volume", "speed", "start", "ultimate", "target", "minutes"),
    [
        # t = (V/S) ln((P0 - Pu)/(P - Pu)); hPa, L, L/min (arithmetic of the evacuation equation)
        (60, 100, 845.56, 20, 139.1, 1.162),
        (120, 60, 1013.25, 10, 132.8, 4.201),
    ],
)
def test_time_to_a_target(volume, speed, start, ultimate, target, minutes):
    times, pressures = readings(ultimate * 100, volume / speed * 60, start=start * 100)
    fit = fitted(times, pressures)
    reached = fit.time_to(target * 100)
    assert reached is not None
    assert reached / 60 == pytest.approx(minutes, rel=5e-3)
    assert fit.speed(volume / 1000) * 60_000 == pytest.approx(speed, rel=5e-3)


def test_target_below_where_it_levels_out_is_never_reached():
    times, pressures = readings(23_100, 120)
    assert fitted(times, pressures).time_to(16_665) is None


@pytest.mark.parametrize("count", [0, 1, 4])
def test_too_early_to_tell_gives_no_fit(count):
    times, pressures = readings(23_100, 120)
    assert fitted_pump_down(times[:count], pressures[:count]) is None


def test_pressure_that_does_not_fall_or_time_that_stands_gives_no_fit():
    assert fitted_pump_down([0, 30, 60, 90, 120], [84_000] * 5) is None
    assert fitted_pump_down([0, 30, 30, 90, 120], [84_000, 7e4, 6e4, 5e4, 4e4]) is None


@pytest.mark.parametrize(
    ("litres", "speed", "start", "alone", "target", "minutes"),
    [(60, 100, 1013.25, 20, 166.65, 1.148), (60, 100, 845.56, 20, 139.1, 1.162),
     (120, 60, 1013.25, 10, 132.8, 4.201)],
)  # fmt: skip
def test_time_of_a_pump_down(litres, speed, start, alone, target, minutes):
    # Evacuation equation, O'Hanlon 2003 (value from memory); arithmetic recomputed, to 0.5 %
    found = pump_down_time(
        volume=litres / 1000, speed=speed / 60_000, start_pressure=start * 100,
        blank_off=alone * 100, target=target * 100,
    )  # fmt: skip
    assert found / 60 == pytest.approx(minutes, rel=5e-3)


@given(
    st.floats(10_000, 110_000), st.floats(0, 5_000), st.floats(5_010, 10_000), st.floats(0.01, 10)
)
def test_time_of_a_pump_down_leads_to_its_target(start, alone, target, volume):
    time = pump_down_time(
        volume=volume, speed=0.001, start_pressure=start, blank_off=alone, target=target
    )
    course = PumpDown(start, alone, volume / 0.001, 0.0)
    assert course.pressure_at(time) == pytest.approx(target, rel=1e-9)
