"""Water in paper from the oil around it, its band, and the oil that belongs to a target."""

from typing import Annotated

from fieldapp.engineering.moisture.solubility import water_solubility
from fieldapp.engineering.moisture.sorption import FESSLER, OOMMEN_MCNUTT, SorptionLine
from fieldapp.engineering.validity import require

Kelvin = Annotated[float, "temperature"]
KelvinDifference = Annotated[float, "temperature difference"]
WaterContent = Annotated[float, "water content"]
PlainNumber = Annotated[float, "plain number"]
Share = Annotated[float, "share"]

COLDEST, HOTTEST = 313.15, 363.15
WETTEST_OIL = 0.20
BAND = 0.25
DRIEST_PAPER, WETTEST_PAPER = 0.005, 0.04


def paper_water(*, saturation: Share, temperature: Kelvin) -> Share:
    """Return the water in paper by Fessler's line, known to 25 % of itself at best.

    Parameters
    ----------
    saturation : relative saturation of the oil, better from a water-activity probe [-]
    temperature : temperature of the paper that counts; bottom oil rather than top oil [K]

    Returns
    -------
    share of the dry mass [-]

    Valid for
    ---------
    temperature 313.15 to 363.15 K, saturation 0 to 0.20, found water 0.005 to 0.04; oil and paper
    near balance, never while a dryer runs; new mineral oil and new paper: aged paper holds less

    Source
    ------
    Fessler et al. 1989 (value from memory), form and units as in Martin, Perkasa, Lelekakis 2013,
    p. 1433; vapour pressure by IAPWS-IF97. Not for an inference from limits of oil in service:
    footnote b of IEEE C57.106.

    Examples
    --------
    >>> round(paper_water(saturation=0.0822, temperature=333.15) * 100, 2)
    2.0
    """
    return _water_by(FESSLER, saturation, temperature)


def paper_water_by_second_line(*, saturation: Share, temperature: Kelvin) -> Share:
    """Return the water in paper by the line of Oommen and McNutt, to set beside Fessler's.

    Parameters
    ----------
    saturation : relative saturation of the oil, better from a water-activity probe [-]
    temperature : temperature of the paper that counts; bottom oil rather than top oil [K]

    Returns
    -------
    share of the dry mass [-]

    Valid for
    ---------
    temperature 313.15 to 363.15 K, saturation 0 to 0.20, found water 0.005 to 0.04; oil and paper
    near balance, never while a dryer runs

    Source
    ------
    Oommen and McNutt, the sorption line inside the bubble formula of IEEE C57.91 (value from
    memory): ln P = 22.454 + 1.4495 ln W - 6996.7/T, P in Torr, W in %.

    Examples
    --------
    >>> round(paper_water_by_second_line(saturation=0.0783, temperature=333.15) * 100, 2)
    2.01
    """
    return _water_by(OOMMEN_MCNUTT, saturation, temperature)


def paper_water_at_least(*, saturation: Share, temperature: Kelvin) -> Share:
    """Return the lower end of the band of water in paper that two lines leave open.

    Parameters
    ----------
    saturation : relative saturation of the oil, better from a water-activity probe [-]
    temperature : temperature of the paper that counts; bottom oil rather than top oil [K]

    Returns
    -------
    share of the dry mass [-]

    Valid for
    ---------
    temperature 313.15 to 363.15 K, saturation 0 to 0.20, found water by both lines 0.005 to 0.04;
    oil and paper near balance, never while a dryer runs

    Source
    ------
    The lower of paper_water and paper_water_by_second_line less 25 % (common practice, value from
    memory).

    Examples
    --------
    >>> round(paper_water_at_least(saturation=0.129, temperature=325.15) * 100, 1)
    2.2
    """
    return (1 - BAND) * min(_by_both(saturation, temperature))


def paper_water_at_most(*, saturation: Share, temperature: Kelvin) -> Share:
    """Return the upper end of the band of water in paper that two lines leave open.

    Parameters
    ----------
    saturation : relative saturation of the oil, better from a water-activity probe [-]
    temperature : temperature of the paper that counts; bottom oil rather than top oil [K]

    Returns
    -------
    share of the dry mass [-]

    Valid for
    ---------
    temperature 313.15 to 363.15 K, saturation 0 to 0.20, found water by both lines 0.005 to 0.04;
    oil and paper near balance, never while a dryer runs

    Source
    ------
    The higher of paper_water and paper_water_by_second_line and 25 % more (common practice, value
    from memory).

    Examples
    --------
    >>> round(paper_water_at_most(saturation=0.129, temperature=325.15) * 100, 1)
    3.9
    """
    return (1 + BAND) * max(_by_both(saturation, temperature))


def saturation_over_paper(*, water_in_paper: Share, temperature: Kelvin) -> Share:
    """Return the relative saturation that oil comes to over paper of a known dryness.

    Parameters
    ----------
    water_in_paper : share of the dry mass, such as the target [-]
    temperature : temperature of the paper and its oil [K]

    Returns
    -------
    share [-]

    Valid for
    ---------
    water_in_paper 0.005 to 0.04, temperature 313.15 to 363.15 K, found saturation 0 to 0.20

    Source
    ------
    Inverse of Fessler's line (value from memory), see paper_water.

    Examples
    --------
    >>> round(saturation_over_paper(water_in_paper=0.02, temperature=323.15) * 100, 1)
    6.9
    """
    require("water_in_paper", water_in_paper, DRIEST_PAPER, WETTEST_PAPER)
    require("temperature", temperature, COLDEST, HOTTEST)
    saturation = FESSLER.saturation(water_in_paper, temperature)
    require("saturation", saturation, 0, WETTEST_OIL)
    return saturation


def oil_water_over_paper(
    *,
    water_in_paper: Share,
    temperature: Kelvin,
    constant_a: PlainNumber,
    constant_b: KelvinDifference,
) -> WaterContent:
    """Return the water content that oil comes to over paper of a known dryness.

    Parameters
    ----------
    water_in_paper : share of the dry mass [-]
    temperature : temperature of the paper and its oil [K]
    constant_a : A of log10 S = A - B/T, S in mg/kg [-]; new mineral oil 7.0895 (Griffin)
    constant_b : B of the same [K]; new mineral oil 1567 (Griffin)

    Returns
    -------
    water content [kg/kg]

    Valid for
    ---------
    water_in_paper 0.005 to 0.04, temperature 313.15 to 363.15 K, found saturation 0 to 0.20,
    constant_a 4 to 10, constant_b 300 to 3000 K

    Source
    ------
    Inverse of Fessler's line (value from memory) times the solubility.

    Examples
    --------
    >>> found = oil_water_over_paper(water_in_paper=0.02, temperature=333.15, constant_a=7.0895,
    ...                              constant_b=1567)
    >>> round(found * 1e6, 1)
    20.1
    """
    saturation = saturation_over_paper(water_in_paper=water_in_paper, temperature=temperature)
    return saturation * water_solubility(
        temperature=temperature, constant_a=constant_a, constant_b=constant_b
    )


def _by_both(saturation: float, temperature: float) -> tuple[float, float]:
    return (
        _water_by(FESSLER, saturation, temperature),
        _water_by(OOMMEN_MCNUTT, saturation, temperature),
    )


def _water_by(line: SorptionLine, saturation: float, temperature: float) -> float:
    require("saturation", saturation, 0, WETTEST_OIL)
    require("temperature", temperature, COLDEST, HOTTEST)
    water = line.water(saturation, temperature)
    require("water_in_paper", water, DRIEST_PAPER, WETTEST_PAPER)
    return water
