"""What a job sheet gives to a plan: its facts in SI, and common practice where it states none."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from fieldapp.checklist.facts import facts_by_id
from fieldapp.engineering.validity import OutsideValidity
from fieldapp.job.sheet import JobSheet
from fieldapp.judgement.words import people_unit
from fieldapp.plan.shapes import COMMON, Answer, Figure
from fieldapp.units import UNITS, difference_from_si, from_si, to_si

# What is taken where the sheet states nothing; every one is common practice (values from memory).
PRACTICE: dict[str, tuple[float, str]] = {
    "plan_target_water": (2.0, "%"),
    "plan_dryer_efficiency": (80.0, "%"),
    "plan_working_capacity": (12.0, "%"),
    "plan_hookup_effort": (32.0, "h"),
    "plan_visit_effort": (6.0, "h"),
    "plan_visit_interval": (14.0, "d"),
    "plan_away_days": (7.0, "d"),
    "plan_stand_time": (48.0, "h"),
    "plan_away_people": (4.0, "pieces"),
    "plan_away_shifts": (2.0, "pieces"),
    "plan_shift_length": (12.0, "h"),
}
OWNERS: dict[str, tuple[float, str]] = {
    "residual_limit": (166.65, "hPa"),
    "rain_allowance": (100.0, "mm"),
    "velocity_limit": (1.0, "m/s"),
    "margin_least": (5.0, "%"),
    "expansion": (0.00075, "1/K"),
}
SHEET, OWNER = "job sheet", "owner"
COUNTED = "pieces"
# in which unit people read what a formula refuses, by the name of its input
_READ_IN = {
    "%": "now target water_in_paper saturation efficiency level alarm_level curve_level share "
         "working_capacity",
    "degC": "temperature coldest_oil",
    "kPa g": "head pressure_drop",
    "hPa": "pressure blank_off",
    "kg/L": "density",
    "L": "taken oil_lost still_to_take volume",
    "mm": "bore",
    "m": "length height elevation distance",
    "L/min": "flow speed",
    "kV": "voltage",
    "kg": "dry_paper mass",
}  # fmt: skip


class MissingFactError(LookupError):
    """A fact without which there is no figure; the message says which, and what to do."""

    def __init__(self, name: str) -> None:
        fact = facts_by_id()[name]
        key = fact.id.removeprefix(f"{fact.section}_")
        super().__init__(f"the sheet does not state “{fact.label}”: add {key} to [{fact.section}]")
        self.name = name


@dataclass(slots=True)
class Given:
    """The facts of a sheet by name; it notes where common practice stands in for a fact."""

    sheet: JobSheet
    assumed: list[str] = field(default_factory=list)

    def known(self, name: str) -> float | None:
        """Return a fact in SI; None where the sheet does not state it."""
        stated = self.sheet.number_of(name)
        return stated.si() if stated else None

    def needed(self, name: str) -> float:
        """Return a fact in SI; without it there is no figure."""
        found = self.known(name)
        if found is None:
            raise MissingFactError(name)
        return found

    def planned(self, name: str) -> float:
        """Return a fact of the plan in SI, or what is common practice."""
        found = self.known(name)
        if found is not None:
            return found
        value, unit = PRACTICE[name]
        self._note(facts_by_id()[name].label, value, unit)
        return to_si(value, unit)

    def put_in(self, name: str) -> Figure:
        """Return a fact of the plan as it is put in, and whether the sheet states it."""
        fact, stated = facts_by_id()[name], self.known(name)
        value, unit = PRACTICE[name]
        key = name.removeprefix("plan_")
        return Figure(
            fact.label,
            value if stated is None else from_si(stated, unit),
            "" if unit == COUNTED else unit,
            0 if stated is None or float(from_si(stated, unit)).is_integer() else 1,
            source=SHEET if stated is not None else f"{COMMON}: state {key} in [plan]",
            fact=name,
        )

    def owners(self, name: str) -> tuple[float, str]:
        """Return the owner's figure in SI and whose it is, or what is common practice."""
        stated = self.sheet.owner_number(name)
        if stated is not None:
            return stated.si(), OWNER
        value, unit = OWNERS[name]
        return to_si(value, unit), COMMON

    def practice_notes(self) -> tuple[str, ...]:
        """Return what common practice stood in for since the last time, and forget it."""
        stood_in, self.assumed = "; ".join(dict.fromkeys(self.assumed)), []
        return (f"Not stated, so taken: {stood_in} ({COMMON}).",) if stood_in else ()

    def _note(self, label: str, value: float, unit: str) -> None:
        self.assumed.append(f"{label} {value:g}{people_unit(unit)}")


def answered(given: Given, name: str, question: str, make: Callable[[Given], Answer]) -> Answer:
    """Return an answer, or a refusal in words where the sheet or a formula does not allow one."""
    given.practice_notes()
    try:
        made = make(given)
    except MissingFactError as missing:
        return Answer(name, question, "", refusals=(f"No figure: {missing}.",))
    except OutsideValidity as fault:
        return Answer(name, question, "", refusals=(f"No figure: {outside(fault)}.",))
    notes = (*made.notes, *given.practice_notes())
    return replace(made, id=name, question=question, notes=notes)


def outside(fault: OutsideValidity) -> str:
    r"""Return why a formula does not hold, in the units of people.

    >>> outside(OutsideValidity("temperature", 308.15, 313.15, 363.15))
    'temperature 35\xa0°C lies outside 40 to 90\xa0°C, where the method holds'
    """
    unit = _unit_of(fault)
    value, low, high = (
        f"{_shown(number, unit):g}".replace("-", "−")
        for number in (fault.value, fault.low, fault.high)
    )
    sign = people_unit(unit) if unit else ""
    words = fault.name.replace("_", " ")
    return f"{words} {value}{sign} lies outside {low} to {high}{sign}, where the method holds"


def mineral(given: Given) -> bool:
    """Say whether the unit holds mineral oil, for which most formulas were made."""
    return given.sheet.text_of("fluid") in (None, "mineral")


def shares(value: float) -> float:
    """Return a share in percent."""
    return difference_from_si(value, "%")


def celsius(value: float) -> float:
    """Return a temperature [K] in °C."""
    return from_si(value, "degC")


def _unit_of(fault: OutsideValidity) -> str:
    """Return the unit of an input: by its whole name, else by a part of it."""
    if fault.name == "water":
        return "kg" if fault.high >= 1 else "mg/kg"  # a mass, or what oil holds [kg/kg]
    named = [(part, unit) for unit, parts in _READ_IN.items() for part in parts.split()]
    whole = (unit for part, unit in named if part == fault.name)
    return next(whole, next((unit for part, unit in named if part in fault.name), ""))


def _shown(value: float, unit: str) -> float:
    return round(from_si(value, unit), 3) if unit in UNITS else value
