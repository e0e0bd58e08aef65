"""Oil, head, level and hoses, against published figures and plain geometry."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.engineering.hydraulics import hose_volume, velocity
from fieldapp.engineering.level import margin_cold
from fieldapp.engineering.oil import cushion_after_fill, head, oil_density


@pytest.mark.parametrize(
    ("celsius", "density"), [(0, 908.0), (20, 895.0), (40, 882.0), (80, 856.0)]
)
def test_density_of_mineral_oil(celsius, density):
    # slope 0.65 kg/m³ a kelvin (value from memory); 0.895 kg/L is the limit of IEC 60296
    found = oil_density(density_at_20=895, temperature=celsius + 273.15)
    assert found == pytest.approx(density, abs=0.5)


def test_head_of_a_metre_of_oil():
    # 870 kg/m³: 8.532 kPa a metre, 0.377 psi a foot (value from memory)
    metre = head(
        density_at_20=870, temperature=293.15, oil_height=1, port_height=0, cushion_pressure=0
    )
    assert metre == pytest.approx(8532, rel=1e-3)


@pytest.mark.parametrize(
    ("flow", "bore", "expected"),
    [(10, 25.4, 0.329), (20, 25.4, 0.658), (20, 12.7, 2.631), (20, 38.1, 0.292)],
)
def test_velocity_in_a_hose(flow, bore, expected):
    # v = Q/A (arithmetic of continuity)
    assert velocity(flow=flow / 60_000, bore=bore / 1000) == pytest.approx(expected, rel=2e-3)


@given(st.floats(0.005, 0.2), st.floats(0.1, 200), st.floats(1e-6, 0.02))
def test_velocity_times_time_fills_the_hose(bore, length, flow):
    seconds = hose_volume(bore=bore, length=length) / flow
    assert velocity(flow=flow, bore=bore) * seconds == pytest.approx(length)


@pytest.mark.parametrize(("litres", "left"), [(600, -1.6), (900, 3.3)])
def test_gas_cushion_after_the_skid_took_its_oil(litres, left):
    # Boyle, 15 kPa g at 843.2 hPa, 120 L taken (arithmetic); below zero refuses the job
    found = cushion_after_fill(
        station_pressure=84_320, cushion_pressure=15_000, cushion_volume=litres / 1000, taken=0.12
    )
    assert found / 1000 == pytest.approx(left, abs=0.1)


@pytest.mark.parametrize(("coldest", "points"), [(5, 14.0), (-5, 5.9), (-15, -2.1)])
def test_margin_is_judged_at_the_coldest_oil(coldest, points):
    # linear expansion 0.00075 1/K (common practice, value from memory): arithmetic by hand
    margin = margin_cold(
        level=1203 / 1800, mean_oil_temperature=323.15, coldest_oil=coldest + 273.15,
        alarm_level=0.1, still_to_take=0.12, oil_volume=19.3, expansion=0.00075,
        conservator_volume=1.8,
    )  # fmt: skip
    assert margin * 100 == pytest.approx(points, abs=0.1)
