"""The job sheet: the site, the transformer, the skid, the instruments and the crew of one job."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from hashlib import sha256

from fieldapp.units import Quantity, from_si, to_si

FactValue = Quantity | str | bool | date
OwnerValue = Quantity | bool

TECHNICIAN = "technician"
CREW_LEAD = "crew lead"
ROLES = (TECHNICIAN, CREW_LEAD, "authorised person", "owner's engineer")


@dataclass(frozen=True, slots=True)
class Instrument:
    """A measuring instrument, how far it may be off (expanded, k = 2), and until when it counts.

    The parts of the accuracy add up: so much, so many percent of the reading, and so many
    percent of the span. `repeatability` is by how much it differs from itself. Between `lowest`
    and `highest` it was calibrated; None where the sheet does not say.
    """

    id: str
    name: str
    serial: str
    unit: str
    calibrated: date
    due: date
    accuracy: Quantity | None = None
    of_reading: Decimal = Decimal(0)
    of_span: Decimal = Decimal(0)
    span: Quantity | None = None
    repeatability: Quantity | None = None
    lowest: Quantity | None = None
    highest: Quantity | None = None

    def uncertainty(self, reading: Decimal, unit: str) -> Decimal:
        """Return the expanded uncertainty (k = 2) of a reading taken in `unit`, in that unit."""
        absolute = width_in(self.accuracy, unit) if self.accuracy else Decimal(0)
        span = width_in(self.span, unit) if self.span else Decimal(0)
        return absolute + (self.of_reading * abs(reading) + self.of_span * span) / 100

    def repeatability_in(self, unit: str) -> Decimal | None:
        """Return by how much the instrument differs from itself; None if nobody knows."""
        return width_in(self.repeatability, unit) if self.repeatability else None

    def covers(self, reading: Decimal, unit: str) -> bool:
        """Say whether a reading lies in the range of the instrument, as far as that is stated."""
        low = self.lowest is None or reading >= number_in(self.lowest, unit)
        return low and (self.highest is None or reading <= number_in(self.highest, unit))

    def overdue(self, day: date) -> bool:
        """Say whether the calibration has run out on that day."""
        return day > self.due


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody of the crew, and in which role."""

    name: str
    role: str
    company: str


@dataclass(frozen=True, slots=True)
class JobSheet:
    """Everything stated before a job begins; `text` is the sheet exactly as it was written."""

    number: str
    facts: Mapping[str, FactValue]
    instruments: tuple[Instrument, ...]
    crew: tuple[Person, ...]
    owner: Mapping[str, OwnerValue] = field(default_factory=dict)
    text: str = ""

    def number_of(self, name: str) -> Quantity | None:
        """Return a fact that is a number with its unit; None if there is none."""
        value = self.facts.get(name)
        return value if isinstance(value, Quantity) else None

    def text_of(self, name: str) -> str | None:
        """Return a fact that is a text or a choice; None if there is none."""
        value = self.facts.get(name)
        return value if isinstance(value, str) else None

    def yes_no(self, name: str) -> bool | None:
        """Return a fact that is yes or no; None if there is none."""
        value = self.facts.get(name)
        return value if isinstance(value, bool) else None

    def date_of(self, name: str) -> date | None:
        """Return a fact that is a day; None if there is none."""
        value = self.facts.get(name)
        return value if isinstance(value, date) else None

    def owner_number(self, name: str) -> Quantity | None:
        """Return the owner's figure for a constant of the checklist; None if there is none."""
        value = self.owner.get(name)
        return value if isinstance(value, Quantity) else None

    def owner_answer(self, name: str) -> bool | None:
        """Return the owner's answer to a question of the checklist; None if there is none."""
        value = self.owner.get(name)
        return value if isinstance(value, bool) else None

    def person(self, name: str) -> Person | None:
        """Return the person of that name; None if nobody of the crew is called so."""
        return next((person for person in self.crew if person.name == name), None)

    def people(self, role: str) -> tuple[Person, ...]:
        """Return everybody with that role."""
        return tuple(person for person in self.crew if person.role == role)

    def instrument(self, name: str) -> Instrument | None:
        """Return the instrument with that id; None if the sheet has none."""
        return next((found for found in self.instruments if found.id == name), None)

    def fingerprint(self) -> str:
        """Return the SHA-256 of the sheet as it was written."""
        return sha256(self.text.encode()).hexdigest()


def number_in(quantity: Quantity, unit: str) -> Decimal:
    """Return a quantity's number in another unit: 0 inHg of vacuum is 0 hPa of it."""
    if quantity.unit.name == unit:
        return quantity.number
    return Decimal(f"{from_si(quantity.si(), unit):.9g}")


def width_in(quantity: Quantity, unit: str) -> Decimal:
    """Return how wide a difference is in another unit: 1 K is 1.8 degF, never 33.8."""
    if quantity.unit.name == unit:
        return quantity.number
    own = to_si(1, quantity.unit.name) - to_si(0, quantity.unit.name)
    other = to_si(1, unit) - to_si(0, unit)
    return quantity.number * Decimal(f"{own / other:.12g}")
