"""The one way to write a document as bytes, and what may stand in a document."""

from collections.abc import Callable
from typing import Any, NoReturn, TypeAlias, TypeVar
from unicodedata import is_normalized

from msgspec import MsgspecError
from msgspec.json import Decoder, Encoder

from fieldapp.journal.errors import DocumentRefusedError

LARGEST_WHOLE_NUMBER = 2**53 - 1
DEEPEST = 64

Place: TypeAlias = tuple[object, ...]
_Whole = TypeVar("_Whole")


def canonical(value: object) -> bytes:
    """Canonical JSON (RFC 8785) of a document that holds only what a journal keeps.

    >>> canonical({"b": "0.50", "a": [1, True, None]})
    b'{"a":[1,true,null],"b":"0.50"}'
    >>> canonical({"pressure": 0.5})
    Traceback (most recent call last):
    fieldapp.journal.errors.DocumentRefusedError: NOT SAVED, pressure: 0.5 is a float; ...
    """
    return there_and_back(value)[0]


def there_and_back(value: object, *place: object) -> tuple[bytes, Any]:
    """The canonical bytes of a document, and the document that is read from them."""
    return written_and_read(value, value, _READER.decode, *place)


def written_and_read(
    whole: _Whole, document: object, read: Callable[[bytes], _Whole], *place: object
) -> tuple[bytes, _Whole]:
    """The canonical bytes of what carries a document, and what is read from them.

    What comes back equal in plain ASCII is suitable, which costs a fraction of looking at each
    part. All others are looked at part by part; `place` is where the document stands.
    """
    try:
        written = _WRITER.encode(whole)
        back = read(written)
    except (TypeError, ValueError, OverflowError, RecursionError, MsgspecError):
        _examine(document, place)
        raise
    if back != whole or not written.isascii() or _may_be_unfit(written):
        _examine(document, place)
    return written, back


def no_float(text: str) -> NoReturn:
    """For a reader of what may hold no float."""
    raise ValueError(text)


_WRITER = Encoder(order="sorted")
_READER: Decoder[Any] = Decoder(float_hook=no_float)
_OUTLINE = bytes.maketrans(b"123456789{", b"000000000[")
"""Bytes with every digit as nought and every opening as the same one."""
_LONG_NUMBER = 16 * b"0"


def _may_be_unfit(written: bytes) -> bool:
    """Whether there may be a number too large, or parts too deep."""
    outline = written.translate(_OUTLINE)
    return outline.count(b"[") > DEEPEST or _LONG_NUMBER in outline


def _examine(value: object, place: Place) -> None:
    match value:
        case str():
            _examine_text(value, place)
        case None | bool():
            pass
        case int():
            _examine_whole_number(value, place)
        case dict():
            _examine_named_parts(value, place)
        case list():
            _examine_listed_parts(value, place)
        case float():
            _refuse(place, f"{value!r} is a float; keep it as text, as it was typed")
        case _:
            _refuse(place, f"a {type(value).__name__} cannot be kept; keep it as text")


def _examine_text(text: str, place: Place) -> None:
    if text.isascii():
        return
    if any("\ud800" <= sign <= "\udfff" for sign in text):
        _refuse(place, f"{text!a} holds half a character; type the text again")
    if not is_normalized("NFC", text):
        _refuse(place, f"{text!a} is not in Unicode form NFC; normalise it before it is kept")


def _examine_whole_number(number: int, place: Place) -> None:
    if abs(number) > LARGEST_WHOLE_NUMBER:
        _refuse(place, f"{number} is beyond ±{LARGEST_WHOLE_NUMBER}; keep it as text")


def _examine_named_parts(document: dict[object, object], place: Place) -> None:
    _examine_depth(place)
    for name, part in document.items():
        if not (isinstance(name, str) and name.isascii()):
            _refuse(place, f"the key {name!a} is not plain ASCII text; rename it")
        _examine(part, (*place, name))


def _examine_listed_parts(parts: list[object], place: Place) -> None:
    _examine_depth(place)
    for number, part in enumerate(parts):
        _examine(part, (*place, number))


def _examine_depth(place: Place) -> None:
    if len(place) >= DEEPEST:
        _refuse(place[:3], f"nested more than {DEEPEST} deep; make it flatter")


def _refuse(place: Place, why: str) -> NoReturn:
    raise DocumentRefusedError(".".join(str(part) for part in place), why)
