"""A secret on its way from the hand to the key: it is never shown by mistake."""

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Secret:
    """What a person typed.

    >>> Secret("kettle on the hill")
    Secret()
    """

    text: str = field(repr=False)
