"""The demo's job, worked out again: invented figures, consistency only."""

from math import sqrt

import pytest

from fieldapp.engineering.drying.balance import (
    dryer_efficiency,
    removal_rate,
    removal_rate_uncertainty,
)
from fieldapp.engineering.drying.cartridges import (
    cartridge_water_uncertainty,
    cartridges_needed,
)
from fieldapp.engineering.drying.course import DAY, Plan, Season, drying_course
from fieldapp.engineering.drying.duration import forecast_band
from fieldapp.engineering.drying.rest import rebound
from fieldapp.engineering.drying.stock import paper_mass
from fieldapp.engineering.moisture.estimate import (
    Liquid,
    OilSample,
    PaperWater,
    paper_estimate,
    trend_at_20,
)
from fieldapp.engineering.moisture.inception import bubble_inception
from fieldapp.engineering.moisture.saturation import free_water_temperature
from fieldapp.engineering.moisture.solubility import GRIFFIN

PPM = 1e-6


def sample(milligrams, celsius, rested=None):
    return OilSample(celsius + 273.15, milligrams * PPM, None, rested, Liquid.MINERAL_OIL, None)


@pytest.mark.parametrize(
    ("oil", "saturation", "first", "second", "band"),
    [
        (sample(24, 52), 12.9, 2.96, 3.04, (2.2, 3.8)),
        (sample(11.7, 49, 3 * DAY), 7.0, 2.04, 2.07, (1.5, 2.6)),
        (sample(12.4, 48.5, 28 * DAY), 7.5, 2.15, 2.20, (1.6, 2.7)),
    ],
)
def test_samples_before_and_after(oil, saturation, first, second, band):
    found = paper_estimate(oil)
    assert isinstance(found, PaperWater)
    assert found.saturation * 100 == pytest.approx(saturation, abs=0.06)
    assert found.first * 100 == pytest.approx(first, abs=0.006)
    assert found.second * 100 == pytest.approx(second, abs=0.006)
    assert (found.low * 100, found.high * 100) == pytest.approx(band, abs=0.06)


def test_trend_and_free_water():
    at_20 = trend_at_20(sample(24, 52))
    assert isinstance(at_20, float)
    assert at_20 / PPM == pytest.approx(6.7, abs=0.05)
    free = free_water_temperature(water=24 * PPM, constant_a=7.0895, constant_b=1567)
    assert free - 273.15 == pytest.approx(1.4, abs=0.5)


@pytest.mark.parametrize(
    ("pascals", "gas", "celsius"), [(101_325, 0, 128.8), (84_320, 0, 124.6), (84_320, 0.08, 120.9)]
)
def test_bubbles(pascals, gas, celsius):
    found = bubble_inception(water_in_paper=0.03, station_pressure=pascals, gas_content=gas)
    assert found - 273.15 == pytest.approx(celsius, abs=0.06)


PLAN = Plan(
    1700, 0.03, 0.02, 12 / 60_000, 880, 0.85, 0.0, GRIFFIN,
    (Season(28 * DAY, 321.15), Season(56 * DAY, 323.15), Season(90 * DAY, 322.15),
     Season(0, 320.15)),
)  # fmt: skip
WEEKS = [
    (0, 19.8, 3.0, 0.251, 0, 3.00), (7, 18.8, 2.8, 0.238, 1.71, 2.90),
    (14, 17.9, 2.7, 0.227, 3.34, 2.80), (28, 18.0, 2.7, 0.228, 6.37, 2.63),
    (42, 16.2, 2.4, 0.205, 9.40, 2.45), (63, 13.3, 2.0, 0.168, 13.34, 2.22),
    (77, 12.1, 1.8, 0.153, 15.59, 2.08), (87, 11.4, 1.7, 0.144, 17.0, 2.00),
]  # fmt: skip


@pytest.mark.parametrize(("day", "inlet", "outlet", "rate", "removed", "percent"), WEEKS)
def test_weeks(day, inlet, outlet, rate, removed, percent):
    points = drying_course(PLAN, DAY / 4).points
    point = min(points, key=lambda point: abs(point.time - day * DAY))
    assert point.inlet_water / PPM == pytest.approx(inlet, abs=0.1)
    assert point.outlet_water / PPM == pytest.approx(outlet, abs=0.06)
    assert point.rate * DAY == pytest.approx(rate, abs=0.002)
    assert point.removed == pytest.approx(removed, abs=0.06)
    assert point.water_in_paper * 100 == pytest.approx(percent, abs=0.01)


def test_forecast_of_day_nought():
    steady = Plan(1700, 0.03, 0.02, 12 / 60_000, 880, 0.85, 0.0, GRIFFIN, (Season(0, 321.15),))
    days = drying_course(steady, DAY / 4).duration / DAY
    assert days == pytest.approx(91, abs=0.5)
    assert forecast_band(days) == pytest.approx((45, 180), abs=3)


@pytest.mark.parametrize(("difference", "percent"), [(17, 17), (9, 32)])
def test_rate_is_known_to(difference, percent):
    found = removal_rate_uncertainty(
        difference=difference * PPM, probe_uncertainty=1 * PPM, scale_uncertainty=0,
        flow_uncertainty=0.02, density_uncertainty=0.003,
    )  # fmt: skip
    assert 200 * found == pytest.approx(percent, abs=0.6)


def test_weighed_sets():
    weighed = cartridge_water_uncertainty(
        drained_uncertainty=0.4, blank_uncertainty=0.4, cartridges=2
    )
    assert weighed == pytest.approx(0.8, abs=0.01)
    by_flow = 5.65 * 2 * sqrt((sqrt(2) / 14.1) ** 2 + 0.02**2)
    assert sqrt(weighed**2 + by_flow**2) == pytest.approx(1.4, abs=0.05)
    assert cartridges_needed(water=17, adsorbent_mass=25, working_capacity=0.12) == 6


def test_first_hour_rebound_and_paper():
    inlet, outlet = 19.8 * PPM, 3.0 * PPM
    assert dryer_efficiency(inlet_water=inlet, outlet_water=outlet) == pytest.approx(0.85, abs=0.01)
    rate = removal_rate(flow=12 / 60_000, density=862, inlet_water=inlet, outlet_water=outlet)
    assert rate * DAY == pytest.approx(0.251, abs=0.002)
    back = rebound(before=0.0296, at_72_hours=0.0204, now=0.0215)
    assert back * 100 == pytest.approx(12, abs=0.1)
    assert paper_mass(oil_mass=16_984, share_of_oil=0.10) == pytest.approx(1700, rel=0.002)
