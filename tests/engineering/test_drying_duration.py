"""How long drying lasts: closed form, steps and scipy must agree."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp

from fieldapp.engineering.drying.course import DAY, LONGEST, Plan, Season, drying_course
from fieldapp.engineering.drying.duration import drying_time, forecast_band
from fieldapp.engineering.moisture.solubility import GRIFFIN, OOMMEN
from fieldapp.engineering.moisture.sorption import FESSLER
from fieldapp.engineering.oil import oil_density
from fieldapp.engineering.validity import OutsideValidity


def plan(dry_paper=5000.0, target=0.02, litres=10.0, celsius=60.0, efficiency=0.9):
    return Plan(
        dry_paper, 0.03, target, litres / 60_000, 895.0, efficiency, 0.0, GRIFFIN,
        (Season(0, celsius + 273.15),),
    )  # fmt: skip


def closed(of):
    temperature = of.seasons[0].temperature
    return drying_time(
        dry_paper=of.dry_paper, now=of.now, target=of.target, flow=of.flow,
        density=oil_density(density_at_20=of.density_at_20, temperature=temperature),
        efficiency=of.efficiency, temperature=temperature,
        constant_a=of.solubility.constant_a, constant_b=of.solubility.constant_b,
    )  # fmt: skip


# dW/dt = -Q ρ e C(W)/M with inverse Fessler, set Griffin (from memory), ρ20 0.895; arithmetic 1 %
PUBLISHED = {
    "163 days at 60 °C": (plan(), 162.8),
    "351 days at 45 °C": (plan(celsius=45), 350.5),
    "81 days with twice the flow": (plan(litres=20), 81.4),
    "300 days to 1.5 %": (plan(target=0.015), 299.5),
    "419 days with 7 t": (plan(dry_paper=7000, target=0.015), 419.2),
}


@pytest.mark.parametrize(("of", "days"), PUBLISHED.values(), ids=PUBLISHED)
def test_closed_form_and_steps_agree_with_the_reference_and_each_other(of, days):
    stepped = drying_course(of, DAY / 4)
    assert closed(of) / DAY == pytest.approx(days, rel=0.01)
    assert stepped.duration / DAY == pytest.approx(closed(of) / DAY, abs=0.2)
    assert stepped.arrives


@pytest.mark.parametrize(("celsius", "kilograms"), [(60, 0.414), (45, 0.192)])
def test_first_day(celsius, kilograms):
    first = drying_course(plan(celsius=celsius), DAY).points[0]
    assert first.rate * DAY == pytest.approx(kilograms, abs=1e-3)


@given(
    st.floats(0.021, 0.029), st.floats(0.006, 0.02), st.floats(2, 30), st.floats(41, 60),
    st.floats(0.1, 1),
)  # fmt: skip
def test_closed_form_is_the_integral(now, target, litres, celsius, efficiency):
    of = replace(plan(litres=litres, celsius=celsius, efficiency=efficiency), now=now,
                 target=target, solubility=OOMMEN)  # fmt: skip
    temperature = of.seasons[0].temperature
    integral, _ = quad(lambda water: of.dry_paper / of.removal(water, temperature), target, now)
    assert closed(of) == pytest.approx(integral, rel=1e-6)


@settings(max_examples=25, deadline=None)
@given(st.floats(0.022, 0.029), st.floats(0.010, 0.02), st.floats(42, 60))
def test_steps_agree_with_the_closed_form_wherever_both_hold(now, target, celsius):
    of = replace(plan(celsius=celsius, litres=20), now=now, target=target)
    assert drying_course(of, DAY).duration == pytest.approx(closed(of), rel=1e-3)


SEASONS = (Season(30 * DAY, 333.15), Season(60 * DAY, 318.15), Season(0, 328.15))


def test_seasons_and_ingress_agree_with_scipy():
    of = replace(plan(dry_paper=1700), seasons=SEASONS, ingress=0.1 / (30 * DAY))
    course = drying_course(of, DAY / 4)

    def slope(time, water):
        return (of.ingress - of.removal(float(water[0]), of.temperature_at(time))) / of.dry_paper

    run = solve_ivp(slope, (0, course.duration), [of.now], rtol=1e-9, max_step=DAY / 4)
    assert run.y[0, -1] == pytest.approx(of.target, rel=2e-4)


@pytest.mark.parametrize("ingress", [0.0, 0.2 / (30 * DAY)])
def test_water_taken_is_what_left_the_paper_and_what_came_in(ingress):
    of = replace(plan(), ingress=ingress)
    end = drying_course(of, DAY).points[-1]
    left = of.dry_paper * (of.now - of.target)
    assert end.removed == pytest.approx(left + ingress * end.time)
    assert end.water_in_paper == pytest.approx(of.target)


def test_ingress_lengthens_drying():
    wet = replace(plan(), ingress=0.2 / (30 * DAY))
    assert drying_course(wet, DAY).duration > drying_course(plan(), DAY).duration


def test_leak_that_brings_more_than_is_taken_never_arrives_and_says_so():
    of = replace(plan(litres=1), ingress=5e-7)
    course = drying_course(of, 10 * DAY)
    assert not course.arrives
    assert course.duration >= LONGEST
    assert course.points[-1].water_in_paper > of.target


@given(st.floats(41, 60), st.floats(0.5, 10))
def test_warmer_oil_dries_sooner(celsius, warmer):
    if celsius + warmer <= 60:
        assert closed(plan(celsius=celsius + warmer)) < closed(plan(celsius=celsius))


def test_forecast_is_printed_from_half_to_double():
    assert forecast_band(closed(plan())) == pytest.approx((81.4 * DAY, 325.6 * DAY), rel=0.01)


REFUSED = {
    "cold": (plan(celsius=39), "temperature"),
    "hot and wet": (plan(celsius=80), "saturation"),
    "target above now": (plan(target=0.031), "target"),
    "too dry a target": (plan(target=0.004), "target"),
    "no flow": (plan(litres=0), "flow"),
}


@pytest.mark.parametrize(("of", "name"), REFUSED.values(), ids=REFUSED)
def test_both_ways_refuse_what_the_line_cannot_carry(of, name):
    with pytest.raises(OutsideValidity, match=name):
        closed(of)
    with pytest.raises(OutsideValidity, match=name):
        drying_course(of, DAY)


def test_power_of_the_balance_is_that_of_fessler():
    assert 1 / FESSLER.power == pytest.approx(1.4959, abs=1e-4)
