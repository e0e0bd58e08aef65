"""Where a formula stops: outside it refuses and says which input and between what."""

from fieldapp.errors import FieldAppError


class OutsideValidity(FieldAppError):  # noqa: N818 - reads as the sentence it is
    """An input lies where the formula does not hold; SI units."""

    def __init__(self, name: str, value: float, low: float, high: float) -> None:
        words = name.replace("_", " ")
        super().__init__(f"{words} {value:g} lies outside {low:g} to {high:g}, where this holds")
        self.name = name
        self.value = value
        self.low = low
        self.high = high


def require(name: str, value: float, low: float, high: float) -> None:
    """Refuse a `value` outside `low` to `high`, and anything that is no number."""
    if not low <= value <= high:
        raise OutsideValidity(name, value, low, high)
