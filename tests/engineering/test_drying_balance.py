"""Water taken, weighed and left, against hand arithmetic, the GUM and scipy."""

from math import sqrt

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import curve_fit
from scipy.stats import t as student

from fieldapp.engineering.drying import rest
from fieldapp.engineering.drying.balance import (
    difference_after_zero,
    dryer_efficiency,
    removal_rate,
    removal_rate_uncertainty,
)
from fieldapp.engineering.drying.cartridges import (
    STUDENT,
    STUDENT_BEYOND,
    Blank,
    TooFewBlanks,
    adsorbent_loading,
    blank_of,
    cartridge_water,
    cartridge_water_uncertainty,
    cartridges_needed,
    water_in_cartridges,
)
from fieldapp.engineering.drying.rest import DAY, obstacles_to_rest, rebound
from fieldapp.engineering.drying.stock import (
    dry_basis,
    paper_mass,
    water_held_by_oil,
    water_held_by_paper,
    water_to_remove,
)
from fieldapp.engineering.oil import oil_density
from fieldapp.engineering.validity import OutsideValidity

PPM = 1e-6


@pytest.mark.parametrize(
    ("litres", "density", "inlet", "outlet", "grams", "kilograms"),
    [(10, 870, 20, 5, 7.83, 0.188), (20, 869, 30, 3, 28.156, 0.676), (5, 876, 12, 4, 2.102, 0.050)],
)
def test_removal_rate(litres, density, inlet, outlet, grams, kilograms):
    # m = 60 Q ρ (cin - cout)/1000 in g/h, kg/d beside it (arithmetic of a mass balance)
    rate = removal_rate(
        flow=litres / 60_000, density=density, inlet_water=inlet * PPM, outlet_water=outlet * PPM
    )
    assert rate * 3.6e6 == pytest.approx(grams, rel=1e-3)
    assert rate * DAY == pytest.approx(kilograms, abs=5e-4)


@pytest.mark.parametrize(
    ("celsius", "density"), [(0, 0.908), (20, 0.895), (40, 0.882), (60, 0.869), (80, 0.856)]
)
def test_density_at_the_meter(celsius, density):
    # rho20 - 0.00065 (t - 20) (value from memory); 0.895 is the limit of IEC 60296
    found = oil_density(density_at_20=895, temperature=celsius + 273.15)
    assert found / 1000 == pytest.approx(density, abs=5e-4)


@given(st.floats(1, 100), st.floats(1, 100))
def test_cartridges_that_give_water_back_have_a_negative_rate(inlet, outlet):
    rate = removal_rate(flow=1e-4, density=870, inlet_water=inlet * PPM, outlet_water=outlet * PPM)
    efficiency = dryer_efficiency(inlet_water=inlet * PPM, outlet_water=outlet * PPM)
    assert (rate < 0) == (efficiency < 0) == (outlet > inlet)


def known(difference, scale=0.0, probe=1.0):
    return removal_rate_uncertainty(
        difference=difference * PPM,
        probe_uncertainty=probe * PPM,
        scale_uncertainty=scale,
        flow_uncertainty=0.02,
        density_uncertainty=0.003,
    )


@pytest.mark.parametrize(("difference", "percent"), [(20, 7.4), (10, 14.3), (3, 47.2)])
def test_uncertainty_of_the_rate(difference, percent):
    # JCGM 100:2008, 5.1.2, u(c) 1 mg/kg, u(Q) 2 %, u(ρ) 0.3 %, k = 1
    assert known(difference) * 100 == pytest.approx(percent, abs=0.1)


def test_three_milligrams_are_known_to_94_percent_with_two_sigma():
    assert 2 * known(3) * 100 == pytest.approx(94, abs=0.5)


@given(st.floats(0.5, 50), st.floats(0.01, 0.5))
def test_shared_scale_stays_in_the_ledger_however_large_the_difference(difference, scale):
    assert known(difference, scale) >= scale
    assert known(difference, scale) == pytest.approx(sqrt(known(difference) ** 2 + scale**2))


@given(st.floats(5, 40), st.floats(0, 4), st.floats(0, 4))
def test_probe_zero_removes_what_the_probes_differ(outlet, off_inlet, off_outlet):
    truth = 9.0
    found = difference_after_zero(
        inlet_water=(outlet + truth + off_inlet) * PPM,
        outlet_water=(outlet + off_outlet) * PPM,
        inlet_in_bypass=(outlet + off_inlet) * PPM,
        outlet_in_bypass=(outlet + off_outlet) * PPM,
    )
    assert found / PPM == pytest.approx(truth)


def test_probe_zero_does_not_show_a_scale_that_both_probes_share():
    scale = 0.8
    found = difference_after_zero(
        inlet_water=20 * scale * PPM, outlet_water=5 * scale * PPM,
        inlet_in_bypass=7 * scale * PPM, outlet_in_bypass=7 * scale * PPM,
    )  # fmt: skip
    assert found / PPM == pytest.approx(15 * scale)


# ---- weighing


@pytest.mark.parametrize("freedom", [*STUDENT, 11, 30])
def test_coverage_is_students(freedom):
    # JCGM 100:2008 Table G.2, 95.45 %, two decimals; beyond the table the next row
    exact = student.ppf(1 - 0.0455 / 2, freedom)
    stated = Blank(42.0, 0.1, freedom + 1).coverage
    assert stated == pytest.approx(exact, abs=0.006) or stated == STUDENT_BEYOND > exact


def test_dry_in_to_wet_out_is_mostly_oil_and_not_what_is_given():
    # 34.2 kg dry, 42.3 kg soaked and drained, 45.1 kg used: invented figures, consistency only
    found = cartridge_water(drained_mass=45.1, blank_mass=42.3)
    assert found == pytest.approx(2.8)
    assert found < (45.1 - 34.2) / 3


@pytest.mark.parametrize("masses", [[], [42.3], [42.1, 42.5]])
def test_fewer_than_three_blanks_give_no_blank_and_say_what_to_do(masses):
    found = blank_of(masses)
    assert isinstance(found, TooFewBlanks)
    assert "at least 3" in found.reason


def test_blank_that_drips_alike_makes_water_surer():
    close, wide = blank_of([42.2, 42.3, 42.4]), blank_of([41.9, 42.3, 42.7])
    assert isinstance(close, Blank)
    assert isinstance(wide, Blank)
    pair = [45.1, 45.0]
    assert water_in_cartridges(pair, close).uncertainty * 3.9 < (
        water_in_cartridges(pair, wide).uncertainty
    )
    assert water_in_cartridges(pair, close).water == pytest.approx(5.5)


@given(
    st.lists(st.floats(41, 43), min_size=3, max_size=8),
    st.lists(st.floats(43, 46), min_size=1, max_size=6),
)
def test_uncertainty_counts_the_blanks_mean_once_for_all_cartridges(blanks, drained):
    # JCGM 100:2008, 5.1.2 written out: n single cartridges, and n times one mean of N blanks
    blank = blank_of(blanks)
    assert isinstance(blank, Blank)
    count = len(drained)
    own = count * blank.spread**2
    shared = (count * blank.spread / sqrt(blank.count)) ** 2
    found = water_in_cartridges(drained, blank)
    assert found.uncertainty == pytest.approx(blank.coverage * sqrt(own + shared))
    assert found.water == pytest.approx(sum(mass - blank.mass for mass in drained))


def test_weighing_nothing_is_refused():
    with pytest.raises(OutsideValidity, match="cartridges"):
        water_in_cartridges([], Blank(42.3, 0.1, 3))


@given(st.integers(1, 20), st.floats(0, 2), st.floats(0, 2))
def test_uncertainty_of_a_set_grows_with_its_root(count, drained, blank):
    one = cartridge_water_uncertainty(
        drained_uncertainty=drained, blank_uncertainty=blank, cartridges=1
    )
    many = cartridge_water_uncertainty(
        drained_uncertainty=drained, blank_uncertainty=blank, cartridges=count
    )
    assert many == pytest.approx(one * sqrt(count))


@pytest.mark.parametrize(
    ("water", "adsorbent", "capacity", "needed"),
    [
        (50, 25, 0.15, 14),
        (3, 25, 0.12, 1),
        (3.001, 25, 0.12, 2),
        (0, 25, 0.12, 0),
        (9, 25, 0.12, 3),
    ],
)
def test_cartridges_needed(water, adsorbent, capacity, needed):
    found = cartridges_needed(water=water, adsorbent_mass=adsorbent, working_capacity=capacity)
    assert found == needed


# ---- what an adsorbent takes up


def test_loading_has_the_shape_of_langmuir():
    # Langmuir: θ = K c/(1 + K c) (value from memory). Przybylek, Energies 14(6):1719, 2021,
    # abstract: water in insulating liquids on 3A at 35 °C follows it; its constants were not seen
    full, half = 0.18, 5 * PPM
    waters = np.array([1, 5, 20, 80, 200]) * PPM
    ours = [adsorbent_loading(oil_water=w, full_loading=full, half_loaded_at=half) for w in waters]
    (fitted_full, fitted_k), _ = curve_fit(
        lambda c, q, k: q * k * c / (1 + k * c), waters / PPM, ours, p0=(0.1, 0.1)
    )
    assert (fitted_full, 1 / fitted_k) == pytest.approx((full, half / PPM))
    assert ours[1] == pytest.approx(full / 2)


@given(st.floats(0, 190), st.floats(0.1, 10), st.floats(0.03, 0.2), st.floats(0.5, 150))
def test_wetter_oil_loads_more_and_never_beyond_full(water, more, full, half):
    less, most = (
        adsorbent_loading(oil_water=w * PPM, full_loading=full, half_loaded_at=half * PPM)
        for w in (water, water + more)
    )
    assert less < most < full


def test_no_sieve_holds_more_than_handbooks_say():
    # 3A molecular sieve 20 to 21 % near saturation (zeolite handbooks, value from memory)
    with pytest.raises(OutsideValidity, match="working capacity"):
        cartridges_needed(water=50, adsorbent_mass=25, working_capacity=0.22)


# ---- what there is


def test_paper_and_oil_of_a_new_unit():
    # 25 kg and 0.2 kg: printed in an article on the moisture specification of paper insulation
    assert water_held_by_paper(dry_paper=5000, water_in_paper=0.005) == pytest.approx(25)
    assert water_held_by_oil(oil_mass=20_000, water=10 * PPM) == pytest.approx(0.2)


def test_paper_holds_over_99_percent_of_the_water():
    # worked: 7 t at 3 % = 210 kg beside 80 t of oil at 20 mg/kg = 1.6 kg (value from memory);
    # Oommen, Moisture equilibrium curves - use and misuse: over 99 %
    paper = water_held_by_paper(dry_paper=7000, water_in_paper=0.03)
    oil = water_held_by_oil(oil_mass=80_000, water=20 * PPM)
    assert (paper, oil) == pytest.approx((210, 1.6))
    assert paper / (paper + oil) > 0.99


def test_water_to_remove():
    # M (w0 - w1), dry basis (arithmetic)
    assert water_to_remove(dry_paper=5000, now=0.03, target=0.015) == pytest.approx(75)


def test_dry_basis():
    # 3 % of the whole is 3.093 % of the dry mass: arithmetic of the definition
    assert dry_basis(wet_basis=0.03) * 100 == pytest.approx(3.093, abs=1e-3)


@pytest.mark.parametrize("share", [0.05, 0.25])
def test_share_of_paper_outside_the_rule_of_the_trade_is_refused(share):
    # 6 to 12 % of the oil (common practice, value from memory); an article's 25 % is unusual
    with pytest.raises(OutsideValidity, match="share of oil"):
        paper_mass(oil_mass=17_000, share_of_oil=share)


# ---- rest


@given(st.floats(0.02, 0.05), st.floats(0.006, 0.018), st.floats(0, 1))
def test_rebound_runs_from_nothing_to_all(before, settled, back):
    now = settled + back * (before - settled)
    assume(0.005 <= now <= 0.05)
    assert rebound(before=before, at_72_hours=settled, now=now) == pytest.approx(back, abs=1e-9)


@pytest.mark.parametrize("before", [0.0204, 0.0205, 0.015])
def test_rebound_needs_something_dried(before):
    with pytest.raises(OutsideValidity, match="before"):
        rebound(before=before, at_72_hours=0.0204, now=0.0215)


@pytest.mark.parametrize(
    ("days", "temperature", "reasons"),
    [
        (3, 322.15, ()), (7, 322.15, ()), (21, 320.2, ()), (28, 327, ()),
        (2.9, 322.15, (rest.OFF_TIME.format(2.9),)),
        (14, 322.15, (rest.OFF_TIME.format(14),)),
        (29, 322.15, (rest.OFF_TIME.format(29),)),
        (7, 328.15, (rest.OTHER_TEMPERATURE.format(6),)),
        (7, 310.15, (rest.COLD, rest.OTHER_TEMPERATURE.format(-12))),
    ],
)  # fmt: skip
def test_sample_of_the_rest_test_counts_only_in_time_and_warm(days, temperature, reasons):
    # 72 h, 7 days, 21 to 28 days, oil at least 40 °C and as before ± 5 K (common practice)
    found = obstacles_to_rest(
        since_drying=days * DAY, temperature=temperature, temperature_before=322.15
    )
    assert found == reasons
