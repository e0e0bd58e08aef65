"""What a sample tells of the paper, and the words for what it does not tell."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.engineering.moisture import estimate
from fieldapp.engineering.moisture.estimate import (
    Liquid,
    NoFigure,
    OilSample,
    PaperWater,
    paper_estimate,
    trend_at_20,
)
from fieldapp.engineering.moisture.solubility import Solubility
from fieldapp.engineering.validity import OutsideValidity

HOUR = 3600.0
SAMPLE = OilSample(325.15, 24e-6, None, None, Liquid.MINERAL_OIL, None)
SITE = Solubility("site", 7.2, 1570.0, "invented pairs")


def told(**changes):
    return paper_estimate(replace(SAMPLE, **changes))


REFUSED = {
    "no temperature": ({"temperature": None}, estimate.NO_TEMPERATURE),
    "dryer running": ({"since_drying": 0.0}, estimate.NOT_AT_REST),
    "dryer stopped yesterday": ({"since_drying": 24 * HOUR}, estimate.NOT_AT_REST),
    "no clock": ({"since_drying": float("nan")}, estimate.NOT_AT_REST),
    "natural ester": ({"liquid": Liquid.NATURAL_ESTER}, estimate.ESTER),
    "synthetic ester": ({"liquid": Liquid.SYNTHETIC_ESTER}, estimate.ESTER),
    "ester with a probe": (
        {"liquid": Liquid.NATURAL_ESTER, "saturation": 0.1, "water": None}, estimate.ESTER,
    ),
    "nothing measured": ({"water": None}, estimate.NO_WATER),
    "cold oil": ({"temperature": 303.15}, estimate.TOO_COLD),
    "cold and very wet oil": ({"temperature": 303.15, "water": 80e-6}, estimate.TOO_COLD),
    "hot oil": ({"temperature": 365.0}, estimate.TOO_HOT),
}  # fmt: skip


@pytest.mark.parametrize(("changes", "reason"), REFUSED.values(), ids=REFUSED)
def test_sample_that_tells_nothing_says_why_and_what_to_do(changes, reason):
    assert told(**changes) == NoFigure(reason)


def test_sample_after_three_days_of_rest_tells_again():
    assert isinstance(told(since_drying=72 * HOUR), PaperWater)


@pytest.mark.parametrize(
    ("celsius", "milligrams", "percent"), [(60, 60, 2.7), (45, 45, 3.0), (85, 140, 2.0)]
)
def test_wetter_than_the_method_gives_a_lower_bound_and_no_figure(celsius, milligrams, percent):
    # the lower edge of the band where the method ends: 20 % saturation or 4 % in paper
    found = told(temperature=celsius + 273.15, water=milligrams * 1e-6)
    assert isinstance(found, NoFigure)
    assert found.reason == estimate.TOO_WET.format(percent)
    assert found.at_least == pytest.approx(percent / 100, abs=1e-3)


def test_drier_than_the_method_gives_an_upper_bound():
    found = told(temperature=343.15, water=2e-6)
    assert isinstance(found, NoFigure)
    assert found.at_most == pytest.approx(0.00625)
    assert found.reason == "drier than this method can say: at most 0.7 % water in paper"


def test_figure_prints_the_set_it_came_from():
    assert told().solubility == "Griffin 1988 and Oommen 1983"
    assert told(site=SITE).solubility == "site"
    assert told(saturation=0.12).solubility == "water-activity probe"


def test_probe_wins_over_the_laboratory():
    probe = told(saturation=0.10)
    assert probe.saturation == 0.10
    assert probe == told(saturation=0.10, water=None)


def test_constants_of_aged_oil_mean_drier_paper():
    assert told(site=SITE).high < told().high


def test_ester_with_constants_of_its_own_is_judged():
    own = Solubility("site", 5.3, 690.0, "invented pairs")
    found = told(liquid=Liquid.NATURAL_ESTER, water=150e-6, site=own)
    assert isinstance(found, PaperWater)


@pytest.mark.parametrize("changes", [{"water": -1e-6}, {"saturation": 1.2}, {"water": 1.0}])
def test_figures_that_cannot_be_are_refused(changes):
    with pytest.raises(OutsideValidity):
        told(**changes)


@given(st.floats(270, 380), st.floats(0, 400e-6))
def test_any_sample_gives_a_figure_with_its_band_or_one_reason(temperature, water):
    if not 273.15 <= temperature <= 373.15:
        temperature = None
    found = told(temperature=temperature, water=water)
    if isinstance(found, NoFigure):
        assert found.reason
        return
    assert 0.005 <= min(found.first, found.second) <= max(found.first, found.second) <= 0.04
    assert found.low == pytest.approx(0.75 * min(found.first, found.second))
    assert found.high == pytest.approx(1.25 * max(found.first, found.second))


TREND_REFUSED = {
    "no temperature": ({"temperature": None}, estimate.NO_TEMPERATURE),
    "dryer running": ({"since_drying": 0.0}, estimate.NOT_AT_REST),
    "ester": ({"liquid": Liquid.NATURAL_ESTER, "site": SITE}, estimate.ESTER_CORRECTED),
    "probe only": ({"water": None, "saturation": 0.1}, estimate.NO_CONTENT),
    "cold": ({"temperature": 305.0}, estimate.NOT_CORRECTED),
    "hot": ({"temperature": 345.0}, estimate.NOT_CORRECTED),
}


@pytest.mark.parametrize(("changes", "reason"), TREND_REFUSED.values(), ids=TREND_REFUSED)
def test_sample_that_is_no_trend_says_why(changes, reason):
    assert trend_at_20(replace(SAMPLE, **changes)) == NoFigure(reason)
