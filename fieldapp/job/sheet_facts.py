"""Reads single facts of a job sheet and holds them against the table of facts."""

import re
from datetime import date
from decimal import Decimal

from fieldapp.checklist.facts import FACTS, SHUTDOWNS, Fact, FactKind, facts_by_id
from fieldapp.checklist.reading.shapes import Table
from fieldapp.units import UNITS, Quantity, from_si, written

COUNTED = "pieces"
LONGEST_JOB_NUMBER = 40
DAYS_TO_COME = ("planned_start",)
_JOB_NUMBER = re.compile(r"[A-Za-z0-9._-]+")
# Names that Windows keeps for devices, with any ending (Microsoft, “Naming Files, Paths, and
# Namespaces”); a job's number becomes the name of a folder.
_DEVICE = re.compile(r"(CON|PRN|AUX|NUL|COM[0-9]|LPT[0-9])(\..*)?", re.IGNORECASE)

SECTIONS: dict[str, tuple[Fact, ...]] = {
    section: tuple(fact for fact in FACTS if fact.section == section)
    for section in dict.fromkeys(fact.section for fact in FACTS)
}


def key_of(fact: Fact) -> str:
    """Return the key of a fact in its section: `suction_hose_bore` is `bore` of [suction_hose]."""
    if fact.section == "shutdown":
        return "fitted" if fact.kind is FactKind.YES_NO else "set_point"
    return fact.id.removeprefix(f"{fact.section}_")


def shutdown_fact(name: str, *, needed: bool) -> Fact | None:
    """Return the fact of a shutdown's set point, needed where it is fitted; None if it has none."""
    if not SHUTDOWNS[name][1]:
        return None
    fact = facts_by_id()[f"{name}_set_point"]
    return Fact(fact.id, fact.section, fact.label, fact.kind, fact.unit, fact.low, fact.high,
                required=needed)  # fmt: skip


def read_fact(table: Table, fact: Fact, today: date) -> Quantity | str | bool | date | None:
    """Return what the table states of the fact; None if that is nothing, or wrong."""
    key = key_of(fact)
    match fact.kind:
        case FactKind.NUMBER if fact.unit == COUNTED:
            return _counted(table, fact, key)
        case FactKind.NUMBER:
            return _number(table, fact, key)
        case FactKind.CHOICE:
            return table.word(key, fact.options, None if fact.required else "") or None
        case FactKind.DATE:
            latest = date.max if fact.id in DAYS_TO_COME else today
            return table.day(key, latest, needed=fact.required)
        case FactKind.YES_NO:
            return table.truth(key, otherwise=None)
    return table.text(key, needed=fact.required) or None


def check_job_number(table: Table, number: str) -> None:
    """Note if the number of the job cannot be the name of a folder."""
    if len(number) > LONGEST_JOB_NUMBER:
        table.fault(f"number is longer than {LONGEST_JOB_NUMBER} characters: shorten it", "number")
    elif not _JOB_NUMBER.fullmatch(number):
        what = "only letters without accents, digits, dot, dash and underscore"
        table.fault(f"number “{number}” becomes the name of a folder: {what}", "number")
    elif number.endswith(".") or not number[0].isalnum() or _DEVICE.fullmatch(number):
        table.fault(f"number “{number}” cannot be the name of a folder: change it", "number")


def _counted(table: Table, fact: Fact, key: str) -> Quantity | None:
    otherwise = None if fact.required else int(fact.low)
    number = table.whole(key, int(fact.low), int(fact.high), otherwise=otherwise)
    return Quantity(Decimal(number), UNITS[COUNTED]) if table.has(key) else None


def _number(table: Table, fact: Fact, key: str) -> Quantity | None:
    quantity = table.quantity(key, UNITS[fact.unit].quantity, needed=fact.required)
    if quantity is None:
        return None
    number = _in(quantity, fact.unit)
    if not Decimal(str(fact.low)) <= number <= Decimal(str(fact.high)):
        stated = f"{key} {written(quantity.number)} {quantity.unit.name}"
        bounds = f"{_plain(fact.low)} to {_plain(fact.high)} {fact.unit}"
        table.fault(f"{stated}: outside {bounds}: look at the figure again", key)
        return None
    return quantity


def _in(quantity: Quantity, unit: str) -> Decimal:
    if quantity.unit.name == unit:
        return quantity.number
    # rounded: what floating point adds must not put a figure outside
    return Decimal(f"{from_si(quantity.si(), unit):.9g}")


def _plain(number: float) -> str:
    return written(Decimal(f"{number:.10g}"))
