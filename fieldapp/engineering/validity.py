"""Where a formula stops: outside it refuses and says which input and between what."""

from collections.abc import Callable, Mapping

from fieldapp.errors import FieldAppError
from fieldapp.units import from_si


class OutsideValidity(FieldAppError):  # noqa: N818 - reads as the sentence it is
    """An input lies where the formula does not hold; SI units."""

    def __init__(self, name: str, value: float, low: float, high: float) -> None:
        words = name.replace("_", " ")
        super().__init__(f"{words} {value:g} lies outside {low:g} to {high:g}, where this holds")
        self.name = name
        self.value = value
        self.low = low
        self.high = high


def said_in(
    refusal: OutsideValidity,
    units: Mapping[str, str],
    sign: Callable[[str], str] = " {}".format,
) -> str:
    """Return a refusal in the unit in which its input was given; in SI where none is known.

    `sign` gives a unit as it is to be read, with the space before it.

    >>> said_in(OutsideValidity("bore", 0.9, 0.005, 0.2), {"bore": "mm"})
    'bore 900 mm lies outside 5 to 200 mm, where this holds'
    """
    unit = units.get(refusal.name, "")
    if not unit:
        return str(refusal)
    value, low, high = (
        f"{from_si(number, unit):.6g}" for number in (refusal.value, refusal.low, refusal.high)
    )
    words = refusal.name.replace("_", " ")
    read = sign(unit)
    return f"{words} {value}{read} lies outside {low} to {high}{read}, where this holds"


def require(name: str, value: float, low: float, high: float) -> None:
    """Refuse a `value` outside `low` to `high`, and anything that is no number."""
    if not low <= value <= high:
        raise OutsideValidity(name, value, low, high)
