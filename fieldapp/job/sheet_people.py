"""Reads the instruments and the crew of a job sheet."""

from datetime import date
from decimal import Decimal

from fieldapp.checklist.reading.shapes import Table
from fieldapp.job.sheet import CREW_LEAD, ROLES, TECHNICIAN, Instrument, Person
from fieldapp.units import UNITS, Quantity

ACCURACIES = ("accuracy", "accuracy_of_reading", "accuracy_of_span")
LONGEST_NAME = 80


def read_instruments(table: Table, today: date) -> tuple[Instrument, ...]:
    """Return the instruments that the job sheet lists."""
    tables = table.tables("instrument", "instrument")
    instruments = tuple(_instrument(below, today) for below in tables)
    first: dict[str, int] = {}
    for instrument, below in zip(instruments, tables, strict=True):
        if instrument.id and instrument.id in first:
            what = f"“{instrument.id}” is taken on line {first[instrument.id]}: take another id"
            below.fault(f"the id {what}", "id")
        first.setdefault(instrument.id, below.line("id"))
    return instruments


def _instrument(table: Table, today: date) -> Instrument:
    unit = table.word("unit", tuple(UNITS))
    calibrated = table.day("calibrated", today) or today
    due = table.day("due", date.max) or date.max
    instrument = Instrument(
        id=table.identifier("id"),
        name=table.text("name"),
        serial=table.text("serial"),
        unit=unit,
        calibrated=calibrated,
        due=due,
        accuracy=_width(table, "accuracy", unit),
        of_reading=_share(table, "accuracy_of_reading"),
        of_span=_share(table, "accuracy_of_span"),
        span=_width(table, "span", unit),
        repeatability=_width(table, "repeatability", unit),
        lowest=_end(table, "lowest", unit),
        highest=_end(table, "highest", unit),
    )
    table.close()
    _check_instrument(table, instrument)
    return instrument


def _check_instrument(table: Table, instrument: Instrument) -> None:
    if not any(table.has(key) for key in ACCURACIES):
        table.fault(
            f"no accuracy stands here: add {', '.join(ACCURACIES[:-1])} or {ACCURACIES[-1]}"
        )
    if table.has("accuracy_of_span") and not table.has("span"):
        table.fault("accuracy_of_span needs the span beside it", "accuracy_of_span")
    if table.has("span") and not table.has("accuracy_of_span"):
        table.fault("span goes with accuracy_of_span: add that, or take span out", "span")
    low, high = instrument.lowest, instrument.highest
    if low and high and low.si() >= high.si():
        table.fault("highest must lie above lowest", "highest")
    if table.has("due") and table.has("calibrated") and instrument.due <= instrument.calibrated:
        table.fault("due must come after calibrated", "due")


def _width(table: Table, key: str, unit: str) -> Quantity | None:
    """Return a difference in the instrument's quantity; for temperatures, kelvins will do."""
    measured = UNITS[unit].quantity if unit in UNITS else ""
    stated = table.any(key)
    if measured == "temperature" and isinstance(stated, str) and stated.endswith(" K"):
        measured = "temperature difference"
    return _more_than_nothing(table, key, table.quantity(key, measured, needed=False))


def _end(table: Table, key: str, unit: str) -> Quantity | None:
    """Return one end of the instrument's range."""
    return table.quantity(key, UNITS[unit].quantity if unit in UNITS else "", needed=False)


def _share(table: Table, key: str) -> Decimal:
    quantity = table.quantity(key, "share", needed=False)
    return quantity.number if _more_than_nothing(table, key, quantity) and quantity else Decimal(0)


def _more_than_nothing(table: Table, key: str, quantity: Quantity | None) -> Quantity | None:
    if quantity and quantity.number <= 0:
        table.fault(f"{key} must be more than 0", key)
    return quantity


def read_crew(table: Table) -> tuple[Person, ...]:
    """Return the people that the job sheet lists."""
    tables = table.tables("crew", "person")
    crew = tuple(map(_person, tables))
    first: dict[str, int] = {}
    for person, below in zip(crew, tables, strict=True):
        name = " ".join(person.name.split()).casefold()
        if name and name in first:
            what = f"name “{person.name}” stands already on line {first[name]}"
            below.fault(f"{what}: one person has one role", "name")
        first.setdefault(name, below.line("name"))
    roles = [person.role for person in crew]
    for role in (TECHNICIAN, CREW_LEAD):
        if role not in roles and "" not in roles:
            table.fault(f'nobody is {role}: add a [[crew]] with role = "{role}"', "crew")
    return crew


def _person(table: Table) -> Person:
    name = table.text("name", longest=LONGEST_NAME)
    person = Person(name, table.word("role", ROLES), table.text("company"))
    table.close()
    return person
