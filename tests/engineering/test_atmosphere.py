"""Air pressure and gauges, against the standard atmosphere and published conversions."""

import pytest
from fluids.atmosphere import ATMOSPHERE_1976
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.engineering.atmosphere import (
    deepest_vacuum,
    gauge_vacuum,
    residual_pressure,
    standard_pressure,
)
from fieldapp.engineering.validity import OutsideValidity

INCH_OF_MERCURY = 3386.389  # NIST SP 811 (2008), appendix B.8, conventional inch of mercury


@pytest.mark.parametrize(
    ("elevation", "pressure"),
    [(0, 101325), (500, 95461), (1000, 89875), (1500, 84556), (2000, 79495), (2500, 74683),
     (3000, 70109)],
)  # fmt: skip
def test_standard_pressure_is_that_of_the_standard_atmosphere(elevation, pressure):
    # U.S. Standard Atmosphere 1976, geopotential altitude (same as ISO 2533:1975)
    assert standard_pressure(elevation=elevation) == pytest.approx(pressure, abs=2)


@pytest.mark.parametrize("elevation", [-400, 0, 137, 1500, 2743.2, 4999])
def test_standard_pressure_agrees_with_the_library_fluids(elevation):
    # fluids takes geometric altitude: 6356.766 km radius, U.S. Standard Atmosphere 1976, eq. 18
    geometric = 6_356_766 * elevation / (6_356_766 - elevation)
    assert standard_pressure(elevation=elevation) == pytest.approx(
        ATMOSPHERE_1976(geometric).P, rel=2e-5
    )


@pytest.mark.parametrize(("gauge", "left"), [(20, 33597), (25, 16665), (26, 13279), (27, 9892)])
def test_residual_pressure_of_a_gauge_at_sea_level(gauge, left):
    # P = barometer - 3386.389 V, inch of mercury at 0 °C: NIST SP 811, B.8 (arithmetic)
    found = residual_pressure(station_pressure=101_325, vacuum=gauge * INCH_OF_MERCURY)
    assert found == pytest.approx(left, abs=1)


@pytest.mark.parametrize(
    ("elevation", "gauge", "deepest"),
    [(0, 25.00, 29.92), (500, 23.27, 28.19), (1000, 21.62, 26.54), (1500, 20.05, 24.97),
     (2000, 18.55, 23.47),
     (2500, 17.13, 22.05), (3000, 15.78, 20.70)],
)  # fmt: skip
def test_target_that_leaves_what_25_inches_leave_at_sea_level(elevation, gauge, deepest):
    # same absolute residual 16 665 Pa at the standard pressure of the elevation (arithmetic)
    station = standard_pressure(elevation=elevation)
    reading = gauge_vacuum(station_pressure=station, residual_pressure=16_665)
    assert reading / INCH_OF_MERCURY == pytest.approx(gauge, abs=0.02)
    assert deepest_vacuum(station_pressure=station) / INCH_OF_MERCURY == pytest.approx(
        deepest, abs=0.02
    )


def test_more_vacuum_than_there_is_air_is_refused():
    # 25 inHg at 843.2 hPa would need -3.4 hPa absolute
    with pytest.raises(OutsideValidity, match="vacuum 84659"):
        residual_pressure(station_pressure=84_320, vacuum=25 * INCH_OF_MERCURY)


@given(st.floats(50_000, 108_500), st.floats(0, 1))
def test_gauge_and_residual_undo_each_other(station, share):
    left = share * station
    vacuum = gauge_vacuum(station_pressure=station, residual_pressure=left)
    assert residual_pressure(station_pressure=station, vacuum=vacuum) == pytest.approx(
        left, abs=1e-6
    )


@given(st.floats(-430, 4999), st.floats(0.1, 1))
def test_air_gets_thinner_upwards(elevation, step):
    above = standard_pressure(elevation=elevation + step)
    assert above < standard_pressure(elevation=elevation)
