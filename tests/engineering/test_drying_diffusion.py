"""Water moving through paper, against Crank's series, quadrature and an integrator of scipy."""

from math import erfc, exp, pi, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from fieldapp.engineering.drying.duration import drying_time
from fieldapp.engineering.drying.insulation.diffusion import (
    FOSS,
    GUIDI_FULLERTON,
    SOAKED_SETS,
    DiffusionSet,
    diffusion_coefficient,
    drying_time_constant,
)
from fieldapp.engineering.drying.insulation.layers import dried_insulation
from fieldapp.engineering.drying.insulation.mix import Dryer, Layer, Oil
from fieldapp.engineering.drying.insulation.sheet import share_dried
from fieldapp.engineering.drying.insulation.stepping import StepsSpentError, states_at
from fieldapp.engineering.moisture.solubility import GRIFFIN
from fieldapp.engineering.moisture.sorption import FESSLER
from fieldapp.engineering.validity import OutsideValidity
from tests.engineering.insulation_by_scipy import DAY, DRYER, LAYERS, OIL, by_scipy, kelvin

HOUR = 3600.0
STEADY = DiffusionSet("steady, for this test", 6.44e-14, 7700.0, 0.0, "")


# coefficients from memory; compared in García et al. 2013; arithmetic to 0.2 %
COEFFICIENTS = [
    (GUIDI_FULLERTON, 3, 60, 4.409e-12), (GUIDI_FULLERTON, 2, 60, 2.674e-12),
    (GUIDI_FULLERTON, 3, 40, 1.007e-12), (GUIDI_FULLERTON, 3, 80, 1.632e-11),
    (FOSS, 3, 60, 1.047e-11), (FOSS, 1, 60, 3.852e-12), (FOSS, 2, 60, 6.35e-12),
    (FOSS, 3, 40, 2.227e-12), (FOSS, 3, 80, 4.132e-11),
]  # fmt: skip


@pytest.mark.parametrize(("named", "percent", "celsius", "expected"), COEFFICIENTS)
def test_diffusion_coefficient(named, percent, celsius, expected):
    assert named.at(percent / 100, kelvin(celsius)) == pytest.approx(expected, rel=2e-3)
    found = diffusion_coefficient(
        reference=named.reference, activation=named.activation,
        water_in_paper=percent / 100, temperature=kelvin(celsius),
    )  # fmt: skip
    assert found == pytest.approx(expected, rel=2e-3)


@pytest.mark.parametrize(
    ("percent", "celsius", "dry"), [(2, 60, 1.271e-9), (1, 60, 7.711e-10), (3, 40, 4.402e-10)]
)
def test_unsoaked_paper_is_not_what_we_give(percent, celsius, dry):
    # Foss, not impregnated: D0 2.62e-11, Ea 8140 K (from memory): over 200 times too fast
    warmth = 8140 * (1 / 298 - 1 / kelvin(celsius))
    assert 2.62e-11 * exp(0.5 * percent + warmth) == pytest.approx(dry, rel=2e-3)
    assert all(named.at(percent / 100, kelvin(celsius)) < dry / 100 for named in SOAKED_SETS)
    with pytest.raises(OutsideValidity, match="reference"):
        diffusion_coefficient(
            reference=2.62e-11, activation=8140,
            water_in_paper=percent / 100, temperature=kelvin(celsius),
        )  # fmt: skip
    with pytest.raises(OutsideValidity, match="diffusion"):
        drying_time_constant(thickness=0.002, wetted_faces=2, diffusion=dry)


# Crank, plane sheet from both faces, 2 % water; arithmetic to 0.5 %
TIME_CONSTANTS = [
    (GUIDI_FULLERTON, 1, 60, 10.53), (GUIDI_FULLERTON, 2, 60, 42.10),
    (GUIDI_FULLERTON, 3, 60, 94.73), (GUIDI_FULLERTON, 2, 80, 11.37),
    (GUIDI_FULLERTON, 5, 40, 1151.49), (GUIDI_FULLERTON, 2, 40, 184), (FOSS, 1, 60, 4.43),
    (FOSS, 2, 60, 17.7), (FOSS, 3, 60, 39.88), (FOSS, 2, 40, 83.33), (FOSS, 2, 80, 4.49),
]  # fmt: skip


@pytest.mark.parametrize(("named", "millimetres", "celsius", "hours"), TIME_CONSTANTS)
def test_time_constant_of_a_sheet(named, millimetres, celsius, hours):
    diffusion = named.at(0.02, kelvin(celsius))
    found = drying_time_constant(thickness=millimetres / 1000, wetted_faces=2, diffusion=diffusion)
    assert found / HOUR == pytest.approx(hours, rel=5e-3)


@given(st.floats(1e-4, 0.1), st.floats(1e-14, 1e-10))
def test_conductor_paper_that_dries_from_one_face_takes_four_times_as_long(thickness, diffusion):
    one, two = (
        drying_time_constant(thickness=thickness, wetted_faces=faces, diffusion=diffusion)
        for faces in (1, 2)
    )
    assert one == pytest.approx(4 * two)


@pytest.mark.parametrize("faces", [0, 1.5, 3])
def test_a_sheet_dries_from_one_face_or_from_two(faces):
    with pytest.raises(OutsideValidity, match="wetted faces"):
        drying_time_constant(thickness=0.002, wetted_faces=faces, diffusion=2e-12)


# ---- one sheet


@pytest.mark.parametrize(
    ("constants", "share"), [(0.5, 0.5074), (1, 0.7018), (2, 0.8903), (3, 0.960)]
)
def test_share_dried(constants, share):
    # Crank series, uniform at first, dry surface (arithmetic)
    found = share_dried(time=constants * DAY, time_constant=DAY)
    assert found == pytest.approx(share, abs=1e-3)


@given(st.floats(0, 20))
def test_share_dried_is_the_profile_added_up(constants):
    # profile of Crank equation 4.17 from images of erfc, integrated by scipy over half a sheet of
    # thickness 1 with D = 1: time = constants/π²
    time = max(constants, 1e-3) / pi**2

    def dry(depth):
        ways = ((-1) ** n * (erfc((n + depth) / (2 * sqrt(time)))
                + erfc((n + 1 - depth) / (2 * sqrt(time)))) for n in range(12))  # fmt: skip
        return sum(ways)

    if constants < 6:
        expected = 2 * quad(dry, 0, 0.5, limit=200)[0]
        found = share_dried(time=max(constants, 1e-3) * DAY, time_constant=DAY)
        assert found == pytest.approx(expected, abs=2e-6)


@given(st.floats(0, 10), st.floats(1e-6, 1))
def test_drying_goes_on_to_the_end(constants, more):
    now = share_dried(time=constants * DAY, time_constant=DAY)
    later = share_dried(time=(constants + more) * DAY, time_constant=DAY)
    assert 0 <= now <= later + 1e-9
    assert later <= 1


# ---- cells


@pytest.mark.parametrize(("thickness", "faces"), [(0.002, 2), (0.001, 1), (0.02, 2)])
def test_cells_agree_with_the_series(thickness, faces):
    # one little sheet in so much steady oil that its face stays as it is
    temperature, wet = kelvin(60), 0.03
    oil = Oil(300_000, 20e-6, 0.0, GRIFFIN)
    tau = drying_time_constant(
        thickness=thickness, wetted_faces=faces, diffusion=STEADY.dry(temperature)
    )
    layer = Layer("sheet", 0.1, thickness, faces, temperature, wet)
    times = [tau * constants for constants in (0.02, 0.1, 0.5, 1, 2, 3)]
    face = FESSLER.water(20e-6 / GRIFFIN.at(temperature), temperature)
    for moment in dried_insulation([layer], oil, Dryer(0, 0, 0), STEADY, times):
        found = (wet - moment.layers[0]) / (wet - face)
        series = share_dried(time=moment.time, time_constant=tau)
        assert found == pytest.approx(series, abs=1.5e-3)


TIMES = [1 * DAY, 7 * DAY, 28 * DAY, 90 * DAY, 93 * DAY, 118 * DAY]


def test_mix_in_one_oil_agrees_with_scipy_while_it_dries_and_while_it_rests():
    ours = dried_insulation(LAYERS, OIL, DRYER, FOSS, TIMES)
    theirs = by_scipy(LAYERS, OIL, DRYER, FOSS, TIMES)
    for moment, (oil_water, means, removed) in zip(ours, theirs, strict=True):
        assert moment.oil_water == pytest.approx(oil_water, rel=3e-3)
        assert moment.layers == pytest.approx(means, rel=2e-3)
        assert moment.removed == pytest.approx(removed, rel=3e-3)


@pytest.mark.parametrize("diffusion", SOAKED_SETS, ids=lambda named: named.name)
def test_no_water_is_lost_or_made(diffusion):
    for moment in dried_insulation(LAYERS, OIL, DRYER, diffusion, TIMES):
        left = sum(
            layer.dry_mass * (layer.water - now)
            for layer, now in zip(LAYERS, moment.layers, strict=True)
        )
        to_oil = OIL.mass * (moment.oil_water - OIL.water)
        came = OIL.ingress * moment.time
        assert moment.removed == pytest.approx(left + came - to_oil, abs=1e-6)


def test_thick_cold_insulation_gives_the_tail_and_the_rebound():
    *_, stopped, _, rested = dried_insulation(LAYERS, OIL, DRYER, FOSS, TIMES)
    thin, _, thick = stopped.layers
    assert thick > thin
    assert rested.layers[0] > thin  # comes back
    assert rested.layers[2] < thick  # and this is where it came from
    assert rested.removed == pytest.approx(stopped.removed)


def test_thin_warm_insulation_keeps_pace_so_that_the_closed_form_holds():
    temperature = kelvin(60)
    layer = Layer("thin", 5000, 0.0001, 2, temperature, 0.03)
    flow, density, efficiency = 10 / 60_000, 869.0, 0.9
    wet = FESSLER.saturation(0.03, temperature) * GRIFFIN.at(temperature)
    time = drying_time(
        dry_paper=5000, now=0.03, target=0.02, flow=flow, density=density, efficiency=efficiency,
        temperature=temperature, constant_a=7.0895, constant_b=1567,
    )  # fmt: skip
    (end,) = dried_insulation(
        [layer], Oil(1000, wet, 0, GRIFFIN), Dryer(flow * density, efficiency, 1e9), FOSS, [time]
    )
    assert end.layers[0] == pytest.approx(0.02, rel=2e-3)


def test_published_sets_for_soaked_paper_stay_apart_and_bound_the_answer():
    (slow,), (fast,) = (
        dried_insulation(LAYERS[2:], OIL, DRYER, named, [28 * DAY]) for named in SOAKED_SETS
    )
    assert slow.layers[0] > fast.layers[0]


WRONG = {
    "cold": ({"temperature": 310.0}, "temperature"),
    "wet": ({"water": 0.05}, "water"),
    "thick as a wall": ({"thickness": 0.5}, "thickness"),
    "three faces": ({"wetted_faces": 3}, "wetted faces"),
}


@pytest.mark.parametrize(("changes", "name"), WRONG.values(), ids=WRONG)
def test_insulation_outside_the_method_is_refused(changes, name):
    fields = {name: getattr(LAYERS[0], name) for name in Layer.__slots__}
    with pytest.raises(OutsideValidity, match=name):
        dried_insulation([Layer(**{**fields, **changes})], OIL, DRYER, FOSS, [DAY])


def test_times_that_run_backwards_are_refused():
    with pytest.raises(OutsideValidity, match="time"):
        dried_insulation(LAYERS, OIL, DRYER, FOSS, [2 * DAY, DAY])


def test_no_time_gives_no_moment():
    assert dried_insulation(LAYERS, OIL, DRYER, FOSS, []) == ()


def test_stepping_is_of_second_order_on_a_stiff_pair():
    # y' = -1000 (y - z), z' = -z: after the fast part both follow exp(-t)
    def rates(state):
        return np.array([-1000 * (state[0] - state[1]), -state[1]])

    def slopes(_):
        return np.array([[-1000.0, 1000.0], [0.0, -1.0]])

    off = []
    for tolerance in (1e-3, 1e-5):
        (end,) = states_at([3.0], np.array([1.0, 1.0]), rates, slopes, np.full(2, tolerance))
        off.append(abs(float(end[1]) - exp(-3)))
        assert float(end[0]) == pytest.approx(exp(-3) * 1000 / 999, rel=0.02)
    assert off[1] < off[0] / 30


def test_step_that_leads_nowhere_is_cut_and_not_told():
    # y' = -5 sqrt(y) from 1: y = (1 - 2.5 t)^2; the first step tried goes below nought
    def rates(state):
        return -5 * np.sqrt(state)

    (end,) = states_at([0.3], np.array([1.0]), rates, lambda _: np.zeros((1, 1)), np.full(1, 1e-5))
    assert float(end[0]) == pytest.approx(0.0625, abs=1e-3)


def test_equations_that_never_settle_are_told():
    def rates(state):
        return np.array([state[0] ** 3])

    def slopes(state):
        return np.array([[3 * state[0] ** 2]])

    with pytest.raises(StepsSpentError, match="stands still"):
        list(states_at([1e9], np.array([1.0]), rates, slopes, np.full(1, 1e-9)))


def test_steps_are_fine_enough_that_finer_ones_change_nothing(monkeypatch):
    usual = dried_insulation(LAYERS, OIL, DRYER, FOSS, TIMES)
    monkeypatch.setattr("fieldapp.engineering.drying.insulation.layers.STEP_TOLERANCE", 1e-6)
    fine = dried_insulation(LAYERS, OIL, DRYER, FOSS, TIMES)
    for ours, theirs in zip(usual, fine, strict=True):
        assert ours.oil_water == pytest.approx(theirs.oil_water, rel=1e-4)
        assert ours.layers == pytest.approx(theirs.layers, rel=1e-4)
        assert ours.removed == pytest.approx(theirs.removed, rel=1e-4)
