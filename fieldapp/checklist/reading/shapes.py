"""Tables of a file that a person wrote, asked key by key; what is wrong is noted, never raised."""

import re
from collections.abc import Collection, Mapping, Sequence
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from fieldapp.checklist.problems import described, unreadable
from fieldapp.checklist.reading.document import Document
from fieldapp.checklist.reading.locate import Path
from fieldapp.units import UNITS, NotANumberError, Quantity, UnknownUnitError, parse_quantity

IDENTIFIER = re.compile(r"[a-z][a-z0-9_]{0,59}")
LONGEST_LABEL = 200
MOST_MEMBERS = 500
LONGEST_TEXT = 3_000
LARGEST_NUMBER = Decimal("1e12")
FINEST_DECIMALS = -12


class Table:
    """One table of the file and where people look for it.

    Every question asks for one key, and returns a harmless value when the key is missing or of
    the wrong shape. `close` then names the keys that nobody asked for.
    """

    def __init__(
        self, document: Document, path: Path, where: str, values: Mapping[str, object]
    ) -> None:
        self.path = path
        self.where = where
        self._document = document
        self._values = values
        self._asked: set[str] = set()
        document.tables[path] = self

    def line(self, *keys: str | int) -> int:
        """Return the line on which the table, or what stands at the keys in it, begins."""
        return self._document.line_of((*self.path, *keys))

    def fault(self, what: str, *keys: str | int) -> None:
        """Note what is wrong, on the line of the key (or of the table, where none is named)."""
        self._document.note((*self.path, *keys), self.where, what)

    def nearest(self, name: str, known: Collection[str], otherwise: str = "") -> str:
        """Return what to add to “unknown name”: the known name most like it, or `otherwise`."""
        return self._document.nearest(name, known, otherwise)

    def has(self, key: str) -> bool:
        """Say whether the key is there, whatever it holds."""
        self._asked.add(key)
        return key in self._values

    def keys(self) -> tuple[str, ...]:
        """Return every key of the table, all of them asked for from now on."""
        self._asked.update(self._values)
        return tuple(self._values)

    def any(self, key: str) -> object:
        """Return what stands at the key, of whatever shape; None if nothing does."""
        return self._values[key] if self.has(key) else None

    def text(self, key: str, *, needed: bool = True, longest: int = LONGEST_LABEL) -> str:
        """Return a text that people read; "" if there is none."""
        value = self._of(str, key, "a text in quotes", needed=needed)
        return self.plain(value, key, longest=longest) if isinstance(value, str) else ""

    def plain(self, value: str, *keys: str | int, longest: int = LONGEST_LABEL) -> str:
        """Return `value` as shown, or "" where it is empty, too long, or holds hidden signs."""
        fault = unreadable(value, longest)
        if fault:
            self.fault(f"{keys[0]} {fault}", *keys)
        return "" if fault else value.strip()

    def identifier(self, key: str, *, needed: bool = True) -> str:
        """Return an id; "" if there is none."""
        value = self._of(str, key, "an id in quotes", needed=needed)
        return self.named(value, key) if isinstance(value, str) else ""

    def named(self, value: str, *keys: str | int) -> str:
        """Return `value` if it has the form of an id, else ""."""
        if IDENTIFIER.fullmatch(value):
            return value
        form = "an id is made of a–z, 0–9 and _, a letter first"
        self.fault(f"{keys[0]} “{value[:60]}”: {form}", *keys)
        return ""

    def identifiers(self, key: str) -> tuple[str, ...]:
        """Return a list of ids; members that are none are noted and left out."""
        members = self._members(str, key, "a list of ids in quotes", needed=False)
        return tuple(name for i, value in members if (name := self.named(value, key, i)))

    def texts(self, key: str) -> tuple[str, ...]:
        """Return a list of texts that people read."""
        members = self._members(str, key, "a list of texts in quotes", needed=True)
        return tuple(text for i, value in members if (text := self.plain(value, key, i)))

    def word(self, key: str, words: Collection[str], otherwise: str | None = None) -> str:
        """Return one of `words`; `otherwise` if the key is missing (None: it must be there)."""
        value = self._of(str, key, "a word in quotes", needed=otherwise is None)
        if not isinstance(value, str) or value in words:
            return str(value or otherwise or "")
        known = self.nearest(value, words, f": take one of {', '.join(words)}")
        self.fault(f"{key} “{value[:60]}” is not known{known}", key)
        return ""

    def whole(self, key: str, low: int, high: int, *, otherwise: int | None = None) -> int:
        """Return a whole number between `low` and `high`."""
        needed = otherwise is None
        value = self._of(int, key, "a whole number without quotes", needed=needed)
        return self._between(value, low, high, key) if isinstance(value, int) else otherwise or low

    def wholes(self, key: str, low: int, high: int) -> tuple[int, ...]:
        """Return a list of whole numbers between `low` and `high`."""
        members = self._members(int, key, "a list of whole numbers", needed=True)
        return tuple(self._between(value, low, high, key, i) for i, value in members)

    def number(self, key: str) -> Decimal | None:
        """Return a number of sensible size; None if there is none."""
        value = self._of((int, Decimal), key, "a number without quotes", needed=False)
        return self.sensible(value, key) if isinstance(value, (int, Decimal)) else None

    def sensible(self, value: int | Decimal, key: str) -> Decimal | None:
        """Return `value` if it is of sensible size, else None."""
        number = Decimal(value)
        if number.is_finite() and abs(number) <= LARGEST_NUMBER and _decimals(number) is not None:
            return number
        self.fault(f"{key} is beyond anything that can be measured: write the figure in full", key)
        return None

    def truth(self, key: str, *, otherwise: bool | None = False) -> bool:
        """Return true or false; `otherwise` if the key is missing (None: it must be there)."""
        value = self._of(bool, key, "true or false, without quotes", needed=otherwise is None)
        return value if isinstance(value, bool) else bool(otherwise)

    def quantity(self, key: str, measured: str = "", *, needed: bool = True) -> Quantity | None:
        """Return a number with its unit, of the quantity `measured` (any, if that is "")."""
        shape = "a number and its unit in quotes, such as “1500 m”"
        value = self._of(str, key, shape, needed=needed)
        return self.measured(value, measured, key) if isinstance(value, str) else None

    def measured(self, value: str, measured: str, *keys: str | int) -> Quantity | None:
        """Return the quantity that `value` means, or None where it is none or another one."""
        try:
            quantity = parse_quantity(value[:100])
        except NotANumberError as cause:
            self.fault(f"{keys[-1]}: {cause}", *keys)
            return None
        except UnknownUnitError as cause:
            units = [unit.name for unit in UNITS.values() if unit.quantity == measured] or UNITS
            known = self.nearest(cause.name, units, f": take one of {', '.join(units)}")
            self.fault(f"{keys[-1]}: “{cause.name}” is not a unit known here{known}", *keys)
            return None
        if measured and quantity.unit.quantity != measured:
            what = f"{keys[-1]} “{value}” is of the quantity {quantity.unit.quantity}: "
            self.fault(f"{what}here belongs {measured}", *keys)
            return None
        return quantity

    def day(self, key: str, latest: date, *, needed: bool = True) -> date | None:
        """Return a date that is not after `latest`."""
        value = self._of(date, key, "a date without quotes, such as 2026-03-12", needed=needed)
        if isinstance(value, datetime):
            self.fault(f"{key} holds a time of day: write the date alone", key)
            return None
        if isinstance(value, date) and value > latest:
            self.fault(f"{key} {value} lies in the future: look at the year again", key)
            return None
        return value if isinstance(value, date) else None

    def table(self, key: str, *, needed: bool = False, where: str = "") -> "Table | None":
        """Return the table at the key, or None."""
        value = self._of(dict, key, "a table", needed=needed)
        if not isinstance(value, dict):
            return None
        return Table(self._document, (*self.path, key), where or f"{self.where}, {key}", value)

    def tables(
        self, key: str, noun: str, *, needed: bool = False, around: str = ""
    ) -> "list[Table]":
        """Return the tables in the list at the key, each named by its id or its place."""
        members = self._members(dict, key, f"a list of tables [[{key}]]", needed=needed)
        return [
            Table(self._document, (*self.path, key, i), around + _called(noun, i, value), value)
            for i, value in members
        ]

    def below(self, *keys: str | int) -> "Table":
        """Return the table that was read at the keys."""
        table: Table = self._document.tables[(*self.path, *keys)]
        return table

    def close(self) -> None:
        """Note every key that nobody asked for."""
        for key in self._values.keys() - self._asked:
            self.fault(f"key “{key[:60]}” is not known here{self.nearest(key, self._asked)}", key)

    def _of(
        self, shape: type | tuple[type, ...], key: str, expected: str, *, needed: bool
    ) -> object:
        if not self.has(key):
            if needed:
                self.fault(f"{key} is missing: add {key} = {expected}")
            return None
        value = self._values[key]
        if isinstance(value, shape) and (shape is bool or not isinstance(value, bool)):
            return value
        self.fault(f"{key} is {described(value)}: here belongs {expected}", key)
        return None

    def _members(
        self, shape: type, key: str, expected: str, *, needed: bool
    ) -> Sequence[tuple[int, Any]]:
        values = self._of(list, key, expected, needed=needed)
        if not isinstance(values, list):
            return ()
        for i, value in enumerate(values):
            if not isinstance(value, shape) or isinstance(value, bool):
                self.fault(f"{key} holds {described(value)}: here belongs {expected}", key, i)
                return ()
        if len(values) > MOST_MEMBERS:
            self.fault(f"{key} holds more than {MOST_MEMBERS} members: split it", key)
            return ()
        return tuple(enumerate(values))

    def _between(self, value: int, low: int, high: int, *keys: str | int) -> int:
        if low <= value <= high:
            return value
        self.fault(f"{keys[0]} must lie between {low} and {high}", *keys)
        return low


def _called(noun: str, index: int, values: Mapping[str, object]) -> str:
    name = values.get("id")
    known = isinstance(name, str) and IDENTIFIER.fullmatch(name)
    return f'{noun} "{name}"' if known else f"{noun} {index + 1}"


def _decimals(number: Decimal) -> int | None:
    exponent = number.as_tuple().exponent
    return exponent if isinstance(exponent, int) and exponent >= FINEST_DECIMALS else None
