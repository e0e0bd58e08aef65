"""A key's fingerprint as two people compare it, face to face: in short groups.

A fingerprint is the SHA-256 of the public key. Its first 32 digits are enough to tell two keys
apart: whoever wanted another key with the same ones would have to try about 2 to the 128.
"""

from fieldapp.errors import FieldAppError

SHOWN = 32
_GROUP = 4
_DIGITS = set("0123456789abcdef")


class FingerprintDiffersError(FieldAppError):
    """The fingerprint somebody read out is not that of the key in the file."""

    def __init__(self, whose: str, fingerprint: str) -> None:
        super().__init__(
            f"{whose} has the fingerprint {in_groups(fingerprint)}, not the one given: "
            "nothing was written; compare again, face to face, and ask where the file comes from"
        )
        self.fingerprint = fingerprint


def in_groups(fingerprint: str) -> str:
    """Return the digits that are compared, in groups of four.

    >>> in_groups("9f3c1e5a77b20d48" * 4)
    '9f3c 1e5a 77b2 0d48 9f3c 1e5a 77b2 0d48'
    """
    shown = fingerprint[:SHOWN]
    return " ".join(shown[at : at + _GROUP] for at in range(0, len(shown), _GROUP))


def is_same(said: str, fingerprint: str) -> bool:
    """Return whether what somebody read out is the fingerprint: 32 digits of it or more.

    >>> is_same("9F3C 1E5A 77B2 0D48 9F3C 1E5A 77B2 0D48", "9f3c1e5a77b20d48" * 4)
    True
    >>> is_same("9F3C 1E5A", "9f3c1e5a77b20d48" * 4)
    False
    """
    digits = "".join(letter for letter in said.lower() if letter not in " -:\u00a0")
    return len(digits) >= SHOWN and set(digits) <= _DIGITS and fingerprint.startswith(digits)


def demand_same(whose: str, said: str, fingerprint: str) -> None:
    """Refuse a key whose fingerprint is not the one that was said."""
    if not is_same(said, fingerprint):
        raise FingerprintDiffersError(whose, fingerprint)
