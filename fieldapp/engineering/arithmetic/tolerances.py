"""How far a figure may be off: a fixed tolerance or a share of it, whichever is larger."""

from typing import Annotated

from fieldapp.engineering.validity import require

PascalAboveAir = Annotated[float, "pressure above air"]
CubicMetre = Annotated[float, "volume"]
WaterContent = Annotated[float, "water content"]
Share = Annotated[float, "share"]

HIGHEST_PRESSURE = 50_000_000.0
WETTEST_OIL = 0.003


def water_tolerance(*, water: WaterContent, least: WaterContent, share: Share) -> WaterContent:
    """Return how far a water content may be off: a fixed figure or a share of it, the larger.

    Parameters
    ----------
    water : what was measured or set [kg/kg]
    least : fixed tolerance [kg/kg]
    share : tolerance as a share of it [-]

    Returns
    -------
    the larger of the two [kg/kg]

    Valid for
    ---------
    water 0 to 0.003 kg/kg, least 0 to 0.001 kg/kg, share 0 to 1

    Source
    ------
    The larger of two. Both are the laboratory's, the maker's or the owner's figures: common
    practice, no source.

    Examples
    --------
    >>> round(water_tolerance(water=13e-6, least=2e-6, share=0.1) * 1e6, 6)
    2.0
    """
    require("water", water, 0, WETTEST_OIL)
    require("least", least, 0, 0.001)
    require("share", share, 0, 1)
    return max(least, share * water)


def volume_tolerance(*, volume: CubicMetre, least: CubicMetre, share: Share) -> CubicMetre:
    """Return how far a volume may be off: a fixed figure or a share of it, the larger.

    Parameters
    ----------
    volume : what was measured or set [m³]
    least : fixed tolerance [m³]
    share : tolerance as a share of it [-]

    Returns
    -------
    the larger of the two [m³]

    Valid for
    ---------
    volume 0 to 100 000 m³, least 0 to 100 m³, share 0 to 1

    Source
    ------
    The larger of two. Both are the laboratory's, the maker's or the owner's figures: common
    practice, no source.

    Examples
    --------
    >>> round(volume_tolerance(volume=0.114, least=0.005, share=0.1), 6)
    0.0114
    """
    require("volume", volume, 0, 100_000)
    require("least", least, 0, 100)
    require("share", share, 0, 1)
    return max(least, share * volume)


def pressure_tolerance(
    *, pressure: PascalAboveAir, least: PascalAboveAir, share: Share
) -> PascalAboveAir:
    """Return how far a pressure may be off: a fixed figure or a share of it, the larger.

    Parameters
    ----------
    pressure : what was measured or set [Pa]
    least : fixed tolerance [Pa]
    share : tolerance as a share of it [-]

    Returns
    -------
    the larger of the two [Pa]

    Valid for
    ---------
    pressure 0 to 50 000 000 Pa, least 0 to 1 000 000 Pa, share 0 to 1

    Source
    ------
    The larger of two. Both are the laboratory's, the maker's or the owner's figures: common
    practice, no source.

    Examples
    --------
    >>> round(pressure_tolerance(pressure=350_000, least=5000, share=0.05), 6)
    17500.0
    """
    require("pressure", pressure, 0, HIGHEST_PRESSURE)
    require("least", least, 0, 1_000_000)
    require("share", share, 0, 1)
    return max(least, share * pressure)
