"""Static charge, bursts, first crack and bends, against Torricelli and published practice."""

import fluids
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.constants import epsilon_0
from scipy.integrate import quad

from fieldapp.engineering.flow.bend import SMALLEST_BENDS, smallest_bend
from fieldapp.engineering.flow.charge import charge_relaxation, resting_time, resting_volume
from fieldapp.engineering.flow.escape import (
    burst_flow,
    first_crack_velocity,
    level_drop,
    time_before_alarm,
)
from fieldapp.engineering.hydraulics import tray_needed
from fieldapp.engineering.validity import OutsideValidity

LITRE_A_MINUTE = 1 / 60_000
GRAVITY = 9.80665


@pytest.mark.parametrize(("picosiemens", "seconds"), [(0.1, 194.79), (1, 19.48), (10, 1.95)])
def test_charge_relaxation(picosiemens, seconds):
    # ε0 εr/σ with εr 2.2 (arithmetic, value from memory); ε0 of CODATA as scipy carries it
    found = charge_relaxation(conductivity=picosiemens * 1e-12, relative_permittivity=2.2)
    assert found == pytest.approx(seconds, rel=2e-3)
    assert found == pytest.approx(epsilon_0 * 2.2 / (picosiemens * 1e-12), rel=1e-8)


def test_thirty_seconds_at_twenty_litres_a_minute_are_ten_litres():
    # 30 s behind a fine filter: NFPA 77 / API RP 2003 practice (value from memory)
    volume = resting_volume(flow=20 * LITRE_A_MINUTE, resting_time=30)
    assert volume * 1000 == pytest.approx(10)


@given(st.floats(1e-6, 0.02), st.floats(0, 3600))
def test_resting_time_and_volume_undo_each_other(flow, seconds):
    volume = resting_volume(flow=flow, resting_time=seconds)
    assert resting_time(volume=volume, flow=flow) == pytest.approx(seconds)


def test_first_crack_wide_open():
    # 111 kPa driving pressure, 862 kg/m³: 16 m/s, 487 L/min in 25.4 mm (arithmetic by hand)
    found = first_crack_velocity(
        head=32_500, station_pressure=84_320, hold_pressure=6_200, density=862
    )
    assert found == pytest.approx(16, abs=0.1)
    through = burst_flow(head=32_500 + 84_320 - 6_200, bore=0.0254, density=862, discharge=1)
    assert through * 60_000 == pytest.approx(487, abs=1)


def test_hose_torn_off_at_the_drain():
    # 3.85 m of oil, 25.4 mm, coefficient 0.6 (from memory): 159 L/min, 904 L gone in 5.7 min
    flow = burst_flow(head=862 * 9.81 * 3.85, bore=0.0254, density=862, discharge=0.6)
    assert flow * 60_000 == pytest.approx(159, abs=0.5)
    assert time_before_alarm(oil_lost=0.904, flow=flow) / 60 == pytest.approx(5.7, abs=0.05)


@given(st.floats(100, 400_000), st.floats(0.005, 0.2), st.floats(0.4, 1))
def test_burst_agrees_with_the_head_of_the_library_fluids(head, bore, discharge):
    # K of a velocity head is one: dP = ρ v²/2
    flow = burst_flow(head=head, bore=bore, density=870, discharge=discharge)
    speed = flow / discharge / (3.141592653589793 * bore**2 / 4)
    assert fluids.dP_from_K(1, rho=870, V=speed) == pytest.approx(head)


def test_time_before_the_alarm_is_never_longer_than_with_a_falling_level():
    # 904 L out of a conservator 1 m high, 3.85 m of oil at the start, integrated by scipy
    def seconds_a_litre(litres):
        height = 3.85 - litres / 1800
        return 0.001 / burst_flow(head=862 * GRAVITY * height, bore=0.0254, density=862,
                                  discharge=0.6)  # fmt: skip

    falling, _ = quad(seconds_a_litre, 0, 904)
    flow = burst_flow(head=862 * GRAVITY * 3.85, bore=0.0254, density=862, discharge=0.6)
    steady = time_before_alarm(oil_lost=0.904, flow=flow)
    assert steady < falling < steady * 1.1


def test_level_falls_by_what_the_skid_takes():
    # 1203 L to 1083 L of 1800 L: 66.8 to 60.2 % (arithmetic by hand)
    assert level_drop(taken=0.12, conservator_volume=1.8) * 100 == pytest.approx(6.67, abs=0.01)


def test_tray_that_holds_the_oil_but_not_the_rain_is_too_small():
    # 2.0 x 1.5 x 0.20 m = 600 L; 250 L of oil and 150 mm of rain on 3 m² = 700 L: fails. Largest
    # container and rain in the manner of 40 CFR 112.8(c)(2) (value from memory)
    needed = tray_needed(loop_volume=0.25, rain=0.15, tray_area=3)
    assert needed * 1000 == pytest.approx(700)
    assert needed > 2.0 * 1.5 * 0.20


@pytest.mark.parametrize(
    ("bore", "radius"), [(19, 125), (25, 150), (38, 250), (51, 300), (25.4, 150), (20, 150)]
)
def test_smallest_bend(bore, radius):
    # SAE J517, 100R4 (values from memory); the marking of the hose governs
    found = smallest_bend(bore / 1000)
    assert found.radius * 1000 == pytest.approx(radius)
    assert "marking" in found.warning
    assert "memory" in found.source


@pytest.mark.parametrize("bore", [0.0049, 0.052, 0.1])
def test_bend_of_a_hose_outside_the_table_is_refused(bore):
    with pytest.raises(OutsideValidity, match="bore"):
        smallest_bend(bore)


def test_wider_hoses_bend_less():
    assert list(SMALLEST_BENDS) == sorted(SMALLEST_BENDS)
    assert [radius for _, radius in SMALLEST_BENDS] == sorted(r for _, r in SMALLEST_BENDS)
