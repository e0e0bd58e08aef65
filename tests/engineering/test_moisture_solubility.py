"""Solubility, saturation and vapour pressure, against published tables and other libraries."""

from math import exp, log10

import pytest
from hypothesis import given
from hypothesis import strategies as st
from iapws import IAPWS95, IAPWS97
from scipy.stats import linregress

from fieldapp.engineering.moisture import solubility
from fieldapp.engineering.moisture.saturation import (
    factor_to_20,
    free_water_temperature,
    relative_saturation,
    saturation_at_20,
    water_at_saturation,
    water_corrected_to_20,
)
from fieldapp.engineering.moisture.solubility import (
    DU,
    GRIFFIN,
    MINERAL_SETS,
    NATURAL_ESTER,
    OOMMEN,
    Pair,
    fitted_solubility,
    water_solubility,
)
from fieldapp.engineering.moisture.vapour import vapour_pressure_of_water
from fieldapp.engineering.validity import OutsideValidity

NEW_OIL = {"constant_a": 7.0895, "constant_b": 1567.0}


def kelvin(celsius):
    return celsius + 273.15


# Table of water saturation of mineral oil, 0 to 100 °C, in general circulation. Set Griffin
# reproduces it to 1.5 mg/kg with T = t + 273; with 273.15, used here, it lies up to 0.6 % higher.
SEEN_TABLE = {0: 22, 10: 36, 20: 55, 30: 83, 40: 121, 50: 173, 60: 242, 70: 331, 80: 446, 90: 592,
              100: 772}  # fmt: skip


@pytest.mark.parametrize(("celsius", "milligrams"), SEEN_TABLE.items())
def test_griffin_reproduces_the_table_with_273(celsius, milligrams):
    found = GRIFFIN.at(max(celsius + 273.0, 273.15))
    assert found * 1e6 == pytest.approx(milligrams, abs=1.5)


WITH_273_15 = {0: 22.5, 10: 35.9, 30: 83.3, 40: 121.8, 50: 173.9, 70: 333.4, 80: 449.0, 90: 594.9,
               100: 776.5}  # fmt: skip


@pytest.mark.parametrize(("celsius", "milligrams"), WITH_273_15.items())
def test_griffin_with_273_15_lies_a_little_above_the_table(celsius, milligrams):
    # arithmetic of the same coefficients with the exact zero, which is ours
    assert GRIFFIN.at(kelvin(celsius)) * 1e6 == pytest.approx(milligrams, abs=0.06)
    assert milligrams == pytest.approx(SEEN_TABLE[celsius], rel=0.008, abs=0.6)


# coefficients: values from memory of Griffin 1988 (IEEE C57.106), Oommen 1983, Du et al. 1999 and
# a natural-ester set of low confidence; T = t + 273.15; arithmetic to 0.1 %
SETS = [
    (GRIFFIN, 0, 22.53), (GRIFFIN, 20, 55.48), (GRIFFIN, 40, 121.8), (GRIFFIN, 60, 243.2),
    (GRIFFIN, 80, 449.0), (OOMMEN, 0, 20.24), (OOMMEN, 20, 52.88), (OOMMEN, 40, 122.2),
    (OOMMEN, 60, 255.4), (OOMMEN, 80, 491.1), (DU, 0, 21.51), (DU, 20, 54.9), (DU, 40, 124.4),
    (DU, 60, 255.5), (DU, 80, 483.5), (NATURAL_ESTER, 40, 1405), (NATURAL_ESTER, 60, 1900),
]  # fmt: skip


@pytest.mark.parametrize(("named", "celsius", "milligrams"), SETS)
def test_named_set(named, celsius, milligrams):
    assert named.at(kelvin(celsius)) * 1e6 == pytest.approx(milligrams, rel=1e-3)


@pytest.mark.parametrize(("celsius", "spread"), [(20, 0.05), (60, 0.055), (80, 0.095), (100, 0.14)])
def test_mineral_sets_part_no_further_than_stated(celsius, spread):
    found = [named.at(kelvin(celsius)) for named in MINERAL_SETS]
    assert max(found) / min(found) - 1 < spread


def test_synthetic_ester_has_no_set():
    # one typical value only, about 2700 mg/kg at 20 °C (CIGRE TB 436 / IEC 61203, from memory):
    # no equation, so none is offered, and no set gives it
    named = [value for value in vars(solubility).values() if isinstance(value, type(GRIFFIN))]
    assert len(named) == 4
    assert all(abs(one.at(kelvin(20)) * 1e6 - 2700) > 270 for one in named)
    assert all("from memory" in one.source for one in named)


@pytest.mark.parametrize(
    ("milligrams", "celsius", "percent"),
    [(20, 60, 8.22), (10, 40, 8.213), (35, 70, 10.50), (30, 20, 54.08)],
)
def test_relative_saturation(milligrams, celsius, percent):
    # RS = C/S, set Griffin (coefficients from memory)
    found = relative_saturation(water=milligrams * 1e-6, temperature=kelvin(celsius), **NEW_OIL)
    assert found * 100 == pytest.approx(percent, rel=1e-3)


@pytest.mark.parametrize(
    ("milligrams", "celsius"), [(10, -15.82), (20, -2.44), (35, 9.42), (50, 17.5)]
)
def test_free_water(milligrams, celsius):
    # inverse of set Griffin (coefficients from memory)
    found = free_water_temperature(water=milligrams * 1e-6, **NEW_OIL)
    assert found - 273.15 == pytest.approx(celsius, abs=0.05)


@pytest.mark.parametrize(
    ("celsius", "factor", "kept"),
    [(20, 1.0065, 1.0), (25, 0.8240, 0.8135), (35, 0.5524, 0.5493), (40, 0.4522, 0.4556),
     (50, 0.3032, 0.3190), (60, 0.2032, 0.2281), (70, 0.1362, 0.1664)],
)  # fmt: skip
def test_factor_to_20_and_the_one_that_keeps_saturation(celsius, factor, kept):
    # IEC 60422:2005/2013 Annex A (value from memory); the other is S(20)/S(t) of set Griffin
    assert factor_to_20(kelvin(celsius)) == pytest.approx(factor, abs=5e-4)
    assert GRIFFIN.at(kelvin(20)) / GRIFFIN.at(kelvin(celsius)) == pytest.approx(kept, abs=5e-4)


@pytest.mark.parametrize(("milligrams", "celsius", "at_20"), [(20, 50, 6.06), (30, 60, 6.10)])
def test_water_corrected_to_20(milligrams, celsius, at_20):
    # IEC 60422 Annex A (value from memory)
    found = water_corrected_to_20(water=milligrams * 1e-6, temperature=kelvin(celsius))
    assert found * 1e6 == pytest.approx(at_20, abs=0.02)


@pytest.mark.parametrize("celsius", [20, 25, 34.9, 70.1])
def test_correction_to_20_is_refused_where_it_loses_its_meaning(celsius):
    with pytest.raises(OutsideValidity, match="temperature"):
        water_corrected_to_20(water=20e-6, temperature=kelvin(celsius))
    with pytest.raises(OutsideValidity, match="temperature"):
        saturation_at_20(water=20e-6, temperature=kelvin(celsius), **NEW_OIL)


# IAPWS R7-97(2012), Table 35: temperature in K, pressure in MPa, all figures printed
IF97_TABLE_35 = [(300, 0.353658941e-2), (500, 0.263889776e1), (600, 0.123443146e2)]


@pytest.mark.parametrize(("temperature", "megapascals"), IF97_TABLE_35)
def test_vapour_pressure_gives_the_check_values_of_the_release(temperature, megapascals):
    found = vapour_pressure_of_water(temperature=temperature)
    assert found == pytest.approx(megapascals * 1e6, rel=2e-9)


@pytest.mark.parametrize(
    ("celsius", "pascals"),
    [(0.01, 611.7), (10, 1228.2), (20, 2339.2), (25, 3169.7), (40, 7384.4), (60, 19945.8),
     (80, 47414.7), (100, 101418.0)],
)  # fmt: skip
def test_vapour_pressure_agrees_with_iapws_95(celsius, pascals):
    # figures computed with IAPWS-95 (CoolProp 8.0.0); triple point 611.657 Pa in Wexler 1976
    found = vapour_pressure_of_water(temperature=kelvin(celsius))
    assert found == pytest.approx(pascals, rel=5e-4)
    assert found == pytest.approx(IAPWS95(T=max(kelvin(celsius), 273.16), x=0).P * 1e6, rel=5e-4)


@pytest.mark.parametrize("temperature", [273.15, *range(275, 624, 12)])
def test_vapour_pressure_is_that_of_the_iapws_library(temperature):
    found = vapour_pressure_of_water(temperature=temperature)
    assert found == pytest.approx(IAPWS97(T=temperature, x=0).P * 1e6, rel=1e-9)


MAGNUS = [(20, 2333.4, -0.0025), (60, 20023.0, 0.0039)]
DRYING_PAPERS = [(20, 2336.4, -0.0012), (60, 20014.2, 0.0034), (100, 103578.3, 0.0213)]


@pytest.mark.parametrize(("celsius", "pascals", "off"), MAGNUS)
def test_magnus_form_lies_off_by_what_is_said_of_it(celsius, pascals, off):
    # Alduchov and Eskridge 1996 (value from memory)
    magnus = 610.94 * exp(17.625 * celsius / (243.04 + celsius))
    assert magnus == pytest.approx(pascals, abs=0.1)
    ours = vapour_pressure_of_water(temperature=kelvin(celsius))
    assert magnus / ours - 1 == pytest.approx(off, abs=1e-4)


@pytest.mark.parametrize(("celsius", "pascals", "off"), DRYING_PAPERS)
def test_form_of_drying_papers_lies_off_by_what_is_said_of_it(celsius, pascals, off):
    # Buck 1981 form, quoted in papers on transformer drying (value from memory)
    form = 0.00603 * 101_325 * exp(17.502 * celsius / (240.97 + celsius))
    assert form == pytest.approx(pascals, abs=0.1)
    ours = vapour_pressure_of_water(temperature=kelvin(celsius))
    assert form / ours - 1 == pytest.approx(off, abs=1e-4)


TEMPERATURES = st.floats(273.15, 373.15)


@given(st.floats(1e-6, 700e-6))
def test_oil_is_just_full_at_its_free_water_temperature(water):
    temperature = free_water_temperature(water=max(water, 8e-6), **NEW_OIL)
    if temperature >= 273.15:
        full = relative_saturation(water=max(water, 8e-6), temperature=temperature, **NEW_OIL)
        assert full == pytest.approx(1)


@given(st.floats(0, 1), TEMPERATURES)
def test_saturation_and_water_content_turn_back_into_each_other(saturation, temperature):
    water = water_at_saturation(saturation=saturation, temperature=temperature, **NEW_OIL)
    back = relative_saturation(water=water, temperature=temperature, **NEW_OIL)
    assert back == pytest.approx(saturation)


@given(TEMPERATURES, st.floats(0.1, 20))
def test_warmer_oil_holds_more(temperature, warmer):
    if temperature + warmer <= 373.15:
        assert GRIFFIN.at(temperature + warmer) > GRIFFIN.at(temperature)
        assert vapour_pressure_of_water(
            temperature=temperature + warmer
        ) > vapour_pressure_of_water(temperature=temperature)


@pytest.mark.parametrize("temperature", [273.0, 373.3, float("nan")])
def test_solubility_is_refused_beyond_its_fit(temperature):
    with pytest.raises(OutsideValidity):
        water_solubility(temperature=temperature, **NEW_OIL)


def test_constants_of_no_oil_are_refused():
    with pytest.raises(OutsideValidity, match="solubility"):
        water_solubility(temperature=300, constant_a=9.9, constant_b=300)


# ---- constants fitted to the oil of a site

POINTS = [(28, 27e-6, 0.30), (41, 29e-6, 0.19), (49, 30e-6, 0.142), (60, 33e-6, 0.108)]
PAIRS = [Pair(kelvin(celsius), water, share) for celsius, water, share in POINTS]


def test_site_constants_are_the_least_squares_of_scipy():
    fit = linregress(
        [1 / kelvin(celsius) for celsius, _, _ in POINTS],
        [log10(water * 1e6 / share) for _, water, share in POINTS],
    )
    found = fitted_solubility(PAIRS, "invented pairs")
    assert found is not None
    assert found.constant_a == pytest.approx(fit.intercept)
    assert found.constant_b == pytest.approx(-fit.slope)


@given(st.sampled_from(MINERAL_SETS), st.floats(1.0, 2.0))
def test_fit_finds_the_constants_that_pairs_were_made_with(named, aged):
    pairs = [Pair(t, 20e-6, 20e-6 / (aged * named.at(t))) for t in (300.0, 315.0, 330.0)]
    found = fitted_solubility(pairs, "made for this test")
    assert found is not None
    assert found.constant_b == pytest.approx(named.constant_b)
    assert found.at(320) == pytest.approx(aged * named.at(320))


@pytest.mark.parametrize(
    "pairs",
    [PAIRS[:2], [Pair(kelvin(t), 30e-6, 0.15) for t in (48, 50, 52)],
     [Pair(kelvin(t), 30e-6, share) for t, share in ((30, 0.1), (45, 0.1), (60, 0.1))]],
    ids=["too few", "too near each other", "no slope"],
)  # fmt: skip
def test_pairs_that_carry_no_fit(pairs):
    assert fitted_solubility(pairs, "") is None
