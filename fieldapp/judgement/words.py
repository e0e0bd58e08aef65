"""Units and what was given, as people read them."""

from fieldapp.job.events import Fields


def people_unit(unit: str) -> str:
    r"""Return a unit as people read it, with a joining space before it.

    >>> people_unit("degC")
    '\xa0°C'
    """
    signs = {"degC": "°C", "degF": "°F", "ohm": "Ω", "mohm": "mΩ", "um": "µm", "mm2": "mm²",
             "m2": "m²", "m3": "m³", "deg": "°", "hPa L/s": "hPa·L/s", "mm2/s": "mm²/s",
             "um2/s": "µm²/s", "uL/L": "µL/L"}  # fmt: skip
    sign = signs.get(unit, unit)
    return "" if unit in ("pieces", "1") else f"\u00a0{sign}"


def said(fields: Fields) -> str:
    """Return what was given, on one line: the value, the picture, or why there is none.

    >>> said({"value": " MX-4471 "}), said({"photo": "bond.jpg", "sha256": "3f"})
    ('MX-4471', 'bond.jpg')
    """
    if fields.get("missing"):
        return f"not taken: {' '.join(fields['missing'].split())}"
    return " ".join((fields.get("value") or fields.get("photo", "")).split())
