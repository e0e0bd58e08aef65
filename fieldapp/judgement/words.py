"""Units as people read them."""


def people_unit(unit: str) -> str:
    r"""Return a unit as people read it, with a joining space before it.

    >>> people_unit("degC")
    '\xa0°C'
    """
    signs = {"degC": "°C", "degF": "°F", "ohm": "Ω", "mohm": "mΩ", "um": "µm", "mm2": "mm²",
             "m2": "m²", "m3": "m³", "deg": "°", "hPa L/s": "hPa·L/s", "mm2/s": "mm²/s",
             "um2/s": "µm²/s"}  # fmt: skip
    sign = signs.get(unit, unit)
    return "" if unit in ("pieces", "1") else f"\u00a0{sign}"
