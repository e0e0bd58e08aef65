"""What an oil sample lets one say of the paper: a figure with its band, or why there is none."""

from dataclasses import dataclass
from enum import Enum

from fieldapp.engineering.moisture.paper import (
    BAND,
    COLDEST,
    DRIEST_PAPER,
    HOTTEST,
    WETTEST_OIL,
    WETTEST_PAPER,
)
from fieldapp.engineering.moisture.saturation import (
    COLDEST_CORRECTED,
    HOTTEST_CORRECTED,
    MOST_WATER,
    water_corrected_to_20,
)
from fieldapp.engineering.moisture.solubility import GRIFFIN, OOMMEN, Solubility
from fieldapp.engineering.moisture.sorption import FESSLER, OOMMEN_MCNUTT
from fieldapp.engineering.validity import require

REST = 72 * 3600.0

NO_TEMPERATURE = (
    "the sample has no oil temperature: without it the figure says nothing; sample again"
)
NOT_AT_REST = (
    "the dryer ran within the last 72 hours: oil and paper are not in balance; "
    "sample at the tank's own cock after 72 hours of rest"
)
ESTER = "the liquid is an ester: no figure without solubility constants fitted to this liquid"
NO_WATER = "the sample has neither water content nor relative saturation: sample again"
TOO_COLD = "the oil is too cold for this method: sample again with oil at 40 °C or more"
TOO_HOT = "the oil is too hot for this method: sample again with oil at 90 °C or less"
TOO_WET = "wetter than this method can say: at least {:.1f} % water in paper"
TOO_DRY = "drier than this method can say: at most {:.1f} % water in paper"
NO_CONTENT = "the correction to 20 °C needs the water content in mg/kg: a probe's share will not do"
NOT_CORRECTED = "the correction to 20 °C holds from 35 to 70 °C: sample again with the oil in there"
ESTER_CORRECTED = "the correction to 20 °C was made for mineral oil: it does not hold for esters"


class Liquid(Enum):
    """What the transformer is filled with."""

    MINERAL_OIL = "mineral oil"
    NATURAL_ESTER = "natural ester"
    SYNTHETIC_ESTER = "synthetic ester"


@dataclass(frozen=True, slots=True)
class OilSample:
    """One sample: K, kg/kg, shares, seconds; None where nothing was measured.

    `saturation` is a water-activity probe's and wins over `water`. `since_drying` is the time
    since a dryer last ran: 0 while it runs, None if none ever did. `site` are constants fitted to
    this unit's liquid.
    """

    temperature: float | None
    water: float | None
    saturation: float | None
    since_drying: float | None
    liquid: Liquid
    site: Solubility | None


@dataclass(frozen=True, slots=True)
class PaperWater:
    """Water in paper [kg/kg dry] by two lines, its band, and what it came from.

    Without a probe or constants of the site each line takes its own solubility, so that the two
    stay independent; `saturation` is then Griffin's.
    """

    first: float
    second: float
    low: float
    high: float
    saturation: float
    temperature: float
    solubility: str


@dataclass(frozen=True, slots=True)
class NoFigure:
    """Why there is no figure, and what to do; a bound [kg/kg dry] where one can be given."""

    reason: str
    at_least: float | None = None
    at_most: float | None = None


def paper_estimate(sample: OilSample) -> PaperWater | NoFigure:
    """Return the water in paper with its band, or why the sample does not tell it.

    >>> sample = OilSample(325.15, 24e-6, None, None, Liquid.MINERAL_OIL, None)
    >>> found = paper_estimate(sample)
    >>> [round(100 * share, 2) for share in (found.first, found.second, found.low, found.high)]
    [2.96, 3.04, 2.22, 3.8]
    """
    temperature = sample.temperature
    if temperature is None:
        return NoFigure(NO_TEMPERATURE)
    reason = _obstacle(sample, temperature)
    if reason:
        return NoFigure(reason)
    saturation, own, solubility = _saturations(sample, temperature)
    lines = FESSLER.water(saturation, temperature), OOMMEN_MCNUTT.water(own, temperature)
    if saturation > WETTEST_OIL or max(lines) > WETTEST_PAPER:
        return _too_wet(temperature)
    if min(lines) < DRIEST_PAPER:
        at_most = DRIEST_PAPER * (1 + BAND)
        return NoFigure(TOO_DRY.format(_up(at_most)), at_most=at_most)
    return PaperWater(
        *lines, (1 - BAND) * min(lines), (1 + BAND) * max(lines),
        saturation, temperature, solubility,
    )  # fmt: skip


def trend_at_20(sample: OilSample) -> float | NoFigure:
    """Return the water content [kg/kg] on the 20 °C basis, or why there is none.

    >>> sample = OilSample(325.15, 24e-6, None, None, Liquid.MINERAL_OIL, None)
    >>> round(trend_at_20(sample) * 1e6, 1)
    6.7
    """
    if sample.temperature is None:
        return NoFigure(NO_TEMPERATURE)
    if _stirred(sample):
        return NoFigure(NOT_AT_REST)
    if sample.liquid is not Liquid.MINERAL_OIL:
        return NoFigure(ESTER_CORRECTED)
    if sample.water is None:
        return NoFigure(NO_CONTENT)
    if not COLDEST_CORRECTED <= sample.temperature <= HOTTEST_CORRECTED:
        return NoFigure(NOT_CORRECTED)
    return water_corrected_to_20(water=sample.water, temperature=sample.temperature)


def _stirred(sample: OilSample) -> bool:
    return sample.since_drying is not None and not sample.since_drying >= REST


def _obstacle(sample: OilSample, temperature: float) -> str:
    """Return why the sample tells nothing of the paper; "" if it may."""
    obstacles = (
        (_stirred(sample), NOT_AT_REST),
        (sample.liquid is not Liquid.MINERAL_OIL and sample.site is None, ESTER),
        (sample.water is None and sample.saturation is None, NO_WATER),
        (not temperature >= COLDEST, TOO_COLD),
        (not temperature <= HOTTEST, TOO_HOT),
    )
    return next((reason for stops, reason in obstacles if stops), "")


def _saturations(sample: OilSample, temperature: float) -> tuple[float, float, str]:
    """Return the relative saturation for the first line, for the second, and its origin."""
    if sample.saturation is not None:
        require("saturation", sample.saturation, 0, 1)
        return sample.saturation, sample.saturation, "water-activity probe"
    water = sample.water or 0.0
    require("water", water, 0, MOST_WATER)
    first, second = (sample.site, sample.site) if sample.site else (GRIFFIN, OOMMEN)
    name = first.name if first is second else f"{first.name} and {second.name}"
    return water / first.at(temperature), water / second.at(temperature), name


def _too_wet(temperature: float) -> NoFigure:
    """Return the lower edge of the band where the method ends at this temperature."""
    end = min(FESSLER.water(WETTEST_OIL, temperature), WETTEST_PAPER)
    at_least = (1 - BAND) * end
    return NoFigure(TOO_WET.format(_down(at_least)), at_least=at_least)


def _up(share: float) -> float:
    return -(-share * 1000 // 1) / 10


def _down(share: float) -> float:
    return share * 1000 // 1 / 10
