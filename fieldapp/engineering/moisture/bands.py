"""Bands of dryness that relative saturation on the 20 °C basis falls into."""

from dataclasses import dataclass

from fieldapp.engineering.validity import require


@dataclass(frozen=True, slots=True)
class Band:
    """A band of relative saturation at 20 °C, up to and with `highest`."""

    name: str
    highest: float


BANDS = (
    Band("dry", 0.05),
    Band("moderate to wet", 0.20),
    Band("wet", 0.30),
    Band("extremely wet", float("inf")),
)
SOURCE = "IEC 60422 Annex A; IEEE Std 62-1995 prints 0-5, 6-20, 21-30 and over 30 % (from memory)"
HIGHEST_SATURATION = 50.0


def band_of(saturation: float) -> Band:
    """Return the band of a relative saturation on the 20 °C basis; above 1 there is free water.

    >>> band_of(0.121).name
    'moderate to wet'
    """
    require("saturation", saturation, 0, HIGHEST_SATURATION)
    return next(band for band in BANDS if saturation <= band.highest)
