"""Viscosity and mass of oil, against a data sheet, Walther's constants and scipy."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.interpolate import interp1d

from fieldapp.engineering.flow.viscosity import oil_mass, oil_viscosity
from fieldapp.engineering.validity import OutsideValidity

MILLIMETRE = 1e-6


def of(celsius, cold=(-30, 1162), warm=(40, 9.9)):
    return oil_viscosity(
        temperature=celsius + 273.15,
        cold_temperature=cold[0] + 273.15, cold_viscosity=cold[1] * MILLIMETRE,
        warm_temperature=warm[0] + 273.15, warm_viscosity=warm[1] * MILLIMETRE,
    ) / MILLIMETRE  # fmt: skip


@pytest.mark.parametrize(
    ("celsius", "viscosity"),
    [(-30, 1162), (-20, 374.9), (-10, 149.7), (0, 70.51), (10, 37.81), (20, 22.44), (40, 9.9),
     (50, 7.15), (60, 5.385), (80, 3.368)],
)  # fmt: skip
def test_viscosity_between_the_points_of_a_data_sheet(celsius, viscosity):
    # uninhibited oil of a data sheet, 9.9 mm²/s at 40 °C and 1162 at -30; ASTM D341 with
    # A = 10.81453, B = 4.32883 (values from memory)
    assert of(celsius) == pytest.approx(viscosity, rel=2e-3)


def test_two_figures_of_a_data_sheet_give_the_constants_of_walther():
    # 9.9 mm²/s at 40 °C and 1162 at -30: A = 10.81453, B = 4.32883 (ASTM D341, values from memory)
    heights = [np.log10(np.log10(of(celsius) + 0.7)) for celsius in (-20, 60)]
    slope, height = np.polyfit(np.log10([253.15, 333.15]), heights, 1)
    assert height == pytest.approx(10.81453, abs=1e-4)
    assert -slope == pytest.approx(4.32883, abs=1e-4)


@pytest.mark.parametrize(("celsius", "viscosity"), [(0, 94.8), (20, 28.4), (60, 6.33)])
def test_viscosity_of_oil_at_the_limits_of_iec_60296(celsius, viscosity):
    # IEC 60296: at most 12 mm²/s at 40 °C and 1800 at -30 °C (seen on a data sheet)
    assert of(celsius, cold=(-30, 1800), warm=(40, 12)) == pytest.approx(viscosity, rel=2e-3)


@pytest.mark.parametrize("celsius", [-25, -3, 12, 33, 71])
def test_viscosity_is_a_straight_line_in_the_coordinates_of_astm_d341(celsius):
    # log log (ν + 0.7) against log T, drawn by scipy
    temperatures = np.log10([243.15, 313.15])
    heights = np.log10(np.log10(np.array([1162, 9.9]) + 0.7))
    line = interp1d(temperatures, heights, fill_value="extrapolate")
    drawn = 10**10 ** float(line(np.log10(celsius + 273.15))) - 0.7
    assert of(celsius) == pytest.approx(drawn, rel=1e-9)


def test_oil_too_thin_for_the_equation_is_refused():
    # the term 0.7 holds above about 2 mm²/s (ASTM D341, value from memory)
    with pytest.raises(OutsideValidity, match=r"^viscosity"):
        of(105, cold=(-30, 400), warm=(40, 6.5))


def test_points_too_close_together_are_refused():
    with pytest.raises(OutsideValidity, match="warm temperature"):
        of(30, cold=(25, 18), warm=(40, 9.9))


def test_oil_that_thickens_as_it_warms_is_refused():
    with pytest.raises(OutsideValidity, match="warm viscosity"):
        of(0, cold=(-30, 9.9), warm=(40, 1162))


@given(st.floats(-39, 80), st.floats(0.1, 10))
def test_warmer_oil_is_thinner(celsius, more):
    assume(of_or_none(celsius) and of_or_none(celsius + more))
    assert of(celsius + more) < of(celsius)


def of_or_none(celsius):
    try:
        return of(celsius)
    except OutsideValidity:
        return None


@given(st.floats(-20, 30), st.floats(30, 70))
def test_any_two_points_of_a_curve_give_the_same_curve(cold, more):
    warm = min(cold + more, 80)
    again = of(15, cold=(cold, of(cold)), warm=(warm, of(warm)))
    assert again == pytest.approx(of(15), rel=1e-9)


@pytest.mark.parametrize(
    ("litres", "density", "celsius", "kilogram"),
    [(19_300, 880, 20, 16_984), (1000, 895, 0, 908), (1000, 895, 40, 882), (1000, 895, 80, 856)],
)
def test_mass_of_a_volume(litres, density, celsius, kilogram):
    # slope 0.65 kg/m³ a kelvin (value from memory); 0.895 kg/L is the limit of IEC 60296
    found = oil_mass(volume=litres / 1000, density_at_20=density, temperature=celsius + 273.15)
    assert found == pytest.approx(kilogram, abs=0.5)
