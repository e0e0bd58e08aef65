"""Air pressure from a figure for sea level, against the standard atmosphere and fluids."""

import pytest
from fluids.atmosphere import ATMOSPHERE_1976
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.engineering.air.station import station_from_altimeter, station_from_weather_report
from fieldapp.engineering.atmosphere import standard_pressure
from fieldapp.engineering.validity import OutsideValidity

STANDARD = 101_325


@pytest.mark.parametrize(
    ("elevation", "pressure"),
    [(0, 101325), (500, 95461), (1500, 84556), (2000, 79495), (2500, 74683), (3000, 70109)],
)
def test_standard_altimeter_setting_gives_the_standard_atmosphere(elevation, pressure):
    # U.S. Standard Atmosphere 1976, geopotential altitude (same as ISO 2533:1975)
    found = station_from_altimeter(altimeter_setting=STANDARD, elevation=elevation)
    assert found == pytest.approx(pressure, abs=2)


@pytest.mark.parametrize(
    ("feet", "pascal"),
    [(1000, 97733.2), (2000, 94209.9), (3000, 90824.6), (5000, 84322.9), (6000, 81206.4),
     (7000, 78193.4), (9000, 72436.3), (10000, 69692.2)],
)  # fmt: skip
def test_standard_pressure_is_that_of_a_public_table_in_feet(feet, pascal):
    # a public engineering table of the standard atmosphere, psia turned into Pa, to 30 Pa
    assert standard_pressure(elevation=feet * 0.3048) == pytest.approx(pascal, abs=30)


def test_misprinted_row_of_that_table_is_not_ours():
    # its 4000 ft row prints 12.682 psia (87 439 Pa) for 12.692 psia (87 511 Pa)
    ours = standard_pressure(elevation=4000 * 0.3048)
    assert ours == pytest.approx(87_511, abs=30)
    assert abs(ours - 87_439) > 30


@pytest.mark.parametrize("setting", [98_000, 99_500, 101_325, 103_000])
@pytest.mark.parametrize("elevation", [0, 200, 1500, 3000])
def test_altimeter_setting_agrees_with_the_formula_of_the_american_weather_service(
    setting, elevation
):
    # AS = (Ps - 0.3) (1 + (1013.25^n 0.0065/288) h/(Ps - 0.3)^n)^(1/n), n = 0.190284, hPa and m
    # (value from memory); its 0.3 hPa is the height of the instrument
    station = station_from_altimeter(altimeter_setting=setting, elevation=elevation) / 100
    power = 0.190284
    factor = 1013.25**power * 0.0065 / 288
    above = (station - 0.3) * (1 + factor * elevation / (station - 0.3) ** power) ** (1 / power)
    assert above * 100 == pytest.approx(setting, abs=50)


@pytest.mark.parametrize("elevation", [-400, 0, 137, 500, 750])
def test_weather_report_agrees_with_the_library_fluids_in_standard_air(elevation):
    # fluids takes geometric altitude: 6356.766 km radius, U.S. Standard Atmosphere 1976, eq. 18
    air = ATMOSPHERE_1976(6_356_766 * elevation / (6_356_766 - elevation))
    found = station_from_weather_report(
        sea_level_pressure=STANDARD, elevation=elevation, outside_temperature=air.T
    )
    assert found == pytest.approx(air.P, rel=2e-5)


def test_cold_air_is_heavier_and_leaves_less_pressure_above():
    cold, warm = (
        station_from_weather_report(
            sea_level_pressure=STANDARD, elevation=700, outside_temperature=kelvin
        )
        for kelvin in (253.15, 303.15)
    )
    assert warm - cold > 1000


def test_weather_report_is_not_taken_up_a_mountain():
    with pytest.raises(OutsideValidity, match="elevation 1500"):
        station_from_weather_report(
            sea_level_pressure=STANDARD, elevation=1500, outside_temperature=280
        )


@given(st.floats(87_000, 108_000), st.floats(-430, 4999), st.floats(1, 500))
def test_station_pressure_follows_the_setting_and_falls_with_height(setting, elevation, more):
    here = station_from_altimeter(altimeter_setting=setting, elevation=elevation)
    higher = station_from_altimeter(altimeter_setting=setting, elevation=elevation + 1)
    better = station_from_altimeter(altimeter_setting=setting + more, elevation=elevation)
    assert higher < here < better
