"""The facts that a job sheet states and a checklist may use by name."""

from dataclasses import dataclass
from enum import StrEnum


class FactKind(StrEnum):
    """How a fact is written."""

    TEXT = "text"
    NUMBER = "number"
    YES_NO = "yes or no"
    CHOICE = "choice"
    DATE = "date"


@dataclass(frozen=True, slots=True)
class Fact:
    """One line of the job sheet.

    A number is written as a quantity (“1500 m”) of the same quantity as `unit`, between `low`
    and `high` in that unit: outside lies a slip of the pen, not a transformer.
    """

    id: str
    section: str
    label: str
    kind: FactKind = FactKind.TEXT
    unit: str = ""
    low: float = 0.0
    high: float = 0.0
    options: tuple[str, ...] = ()
    required: bool = True


def _number(
    section: str,
    name: str,
    label: str,
    unit: str,
    low: float,
    high: float,
    *,
    required: bool = True,
) -> Fact:
    return Fact(name, section, label, FactKind.NUMBER, unit, low, high, required=required)


def _text(section: str, name: str, label: str, *, required: bool = True) -> Fact:
    return Fact(name, section, label, required=required)


def _choice(section: str, name: str, label: str, *options: str) -> Fact:
    return Fact(name, section, label, FactKind.CHOICE, options=options)


def _date(section: str, name: str, label: str, *, required: bool = True) -> Fact:
    return Fact(name, section, label, FactKind.DATE, required=required)


def _planned(name: str, label: str, unit: str, low: float, high: float) -> Fact:
    return _number("plan", f"plan_{name}", label, unit, low, high, required=False)


def _hose(section: str, side: str) -> tuple[Fact, ...]:
    return (
        _text(section, f"{section}_serial", f"{side} hose, serial"),
        _number(section, f"{section}_bore", f"{side} hose, bore", "mm", 8, 100),
        _number(section, f"{section}_length", f"{side} hose, length", "m", 0.5, 100),
        _number(section, f"{section}_rating", f"{side} hose, pressure rating", "kPa g", 50, 50_000),
        _date(section, f"{section}_tested", f"{side} hose, last test"),
    )


FLUIDS = ("mineral", "natural ester", "synthetic ester", "silicone")
PRESERVATIONS = ("free-breathing", "bag or membrane", "nitrogen or gas cushion", "sealed full")
PCB_CLASSES = ("below 50 mg/kg", "50 to 500 mg/kg", "500 mg/kg or more")

FACTS: tuple[Fact, ...] = (
    _text("job", "number", "Job number"),
    _text("job", "prepared_by", "Prepared by"),
    _date("job", "planned_start", "Planned start"),
    _text("job", "jurisdiction", "Rules in force"),
    _text("job", "drain_back_document", "Order to drain back by pump, document", required=False),
    _text("job", "crew_address", "Address of the crew’s company", required=False),
    _text("site", "site_name", "Substation"),
    _text("site", "owner_name", "Owner"),
    _text("site", "owner_contact", "Owner, whom to reach", required=False),
    _text("site", "bay", "Bay"),
    _number("site", "elevation", "Elevation", "m", -430, 5000),
    _number(
        "site",
        "measured_station_pressure",
        "Station pressure, measured",
        "hPa",
        500,
        1085,
        required=False,
    ),
    _number(
        "site",
        "planning_distance",
        "Published approach distance, for planning",
        "m",
        0.1,
        20,
        required=False,
    ),
    _text("site", "planning_rule", "Where that distance stands", required=False),
    _number("site", "rated_supply", "Supply, rated voltage", "V", 100, 1000),
    _text("transformer", "unit", "Unit"),
    _text("transformer", "unit_serial", "Serial number"),
    _text("transformer", "rating", "Rating and voltages"),
    _number("transformer", "year_made", "Year made", "pieces", 1900, 2100),
    _choice("transformer", "fluid", "Fluid", *FLUIDS),
    _choice("transformer", "preservation", "Preservation", *PRESERVATIONS),
    _choice("transformer", "unit_pcb_class", "PCB class", *PCB_CLASSES),
    _number("transformer", "oil_volume", "Oil at 20 °C", "L", 100, 300_000),
    _number("transformer", "oil_density", "Oil density at 20 °C", "kg/L", 0.7, 1.1),
    _number("transformer", "oil_height", "Oil level above ground", "m", 0.2, 30),
    _number("transformer", "suction_height", "Suction valve above ground", "m", 0, 20),
    _number("transformer", "return_height", "Return valve above ground", "m", 0, 30),
    _number("transformer", "conservator_volume", "Conservator", "L", 1, 50_000),
    _number("transformer", "curve_level", "Level curve: level", "%", 0, 100),
    _number("transformer", "curve_temperature", "Level curve: at mean oil", "degC", -40, 110),
    _number("transformer", "pocket_volume", "Pocket behind the suction blank", "L", 0.05, 50),
    _number("transformer", "alarm_level", "Low-level contact acts at", "%", 0, 50),
    _number("transformer", "coldest_oil", "Coldest mean oil, unit off", "degC", -60, 40),
    _number("transformer", "top_oil_alarm", "Top oil alarm", "degC", 40, 130),
    _number("transformer", "cushion_volume", "Gas cushion", "L", 0, 50_000, required=False),
    _text("transformer", "suction_valve_tag", "Suction valve, tag"),
    _text("transformer", "return_valve_tag", "Return valve, tag"),
    _text("transformer", "level_terminals", "Low-level contact, terminals"),
    _date("oil_sample", "sample_date", "Oil sample, date"),
    _number("oil_sample", "sample_temperature", "Oil sample, temperature", "degC", -20, 110),
    _number("oil_sample", "sample_water", "Oil sample, water", "mg/kg", 0, 200),
    _number(
        "oil_sample",
        "sample_breakdown",
        "Oil sample, breakdown voltage",
        "kV",
        0,
        120,
        required=False,
    ),
    _date("oil_sample", "gas_analysis_date", "Gas analysis, date"),
    _text("skid", "skid_serial", "Skid, serial"),
    _number("skid", "vessel_volume", "Vessel, free volume", "L", 1, 5000),
    _number("skid", "pipe_volume", "Pump, filter and pipe, free volume", "L", 0.1, 1000),
    _number("skid", "working_flow", "Working flow", "L/min", 0.5, 200),
    _number("skid", "pump_height", "Pump inlet above ground", "m", 0, 10),
    _number("skid", "relief_setting", "Relief setting", "kPa g", 20, 5000),
    _number("skid", "weakest_part", "Weakest part, pressure rating", "kPa g", 20, 50_000),
    _number("skid", "tray_volume", "Tray", "L", 1, 100_000),
    _number("skid", "tray_area", "Tray, area", "m2", 0.1, 500),
    _number(
        "skid", "inlet_with_cold_oil", "Pump inlet at working flow, coldest oil", "kPa g", -100, 500
    ),
    _choice("skid", "isolation_at", "Self-closing valves", "on the tank valves", "at the skid"),
    _choice("skid", "skid_last_fluid", "Last fluid in the skid", *FLUIDS),
    _choice("skid", "skid_pcb_class", "PCB class of the skid", *PCB_CLASSES),
    _number("skid", "zero_of_inlet", "Last probe zero, inlet", "mg/kg", 0, 200, required=False),
    _number("skid", "zero_of_outlet", "Last probe zero, outlet", "mg/kg", 0, 200, required=False),
    _number(
        "skid", "blank_mass", "Cartridges, blank mass together", "kg", 0.1, 1000, required=False
    ),
    *_hose("suction_hose", "Suction"),
    *_hose("return_hose", "Return"),
    # what the office's plan needs; without them common practice is taken, or nothing is said
    _planned("nominal_voltage", "Live parts beside the work, nominal voltage", "kV", 0.1, 1200),
    _planned("highest_voltage", "Live parts beside the work, highest voltage", "kV", 0.1, 1200),
    _planned("paper_mass", "Paper and board, dry, by the maker", "kg", 1, 50_000),
    _planned("target_water", "Water in paper to aim at", "%", 0.5, 4),
    _planned("working_oil", "Oil at the skid while it dries", "degC", 0, 100),
    _planned("dryer_efficiency", "Water that one pass takes", "%", 5, 100),
    _planned("adsorbent_mass", "Dry adsorbent in one cartridge", "kg", 0.1, 500),
    _planned("working_capacity", "Water taken, share of adsorbent", "%", 2, 21),
    _planned("cartridges_at_once", "Cartridges in the vessel", "pieces", 1, 20),
    _planned("pump_speed", "Vacuum pump, through the hoses", "L/min", 1, 100_000),
    _planned("pump_blank_off", "Vacuum pump alone, blank-off", "hPa", 0, 500),
    _planned("hookup_effort", "Hookup and taking off, crew-hours", "h", 1, 1000),
    _planned("visit_effort", "A visit, crew-hours", "h", 0, 200),
    _planned("visit_interval", "Between two visits", "d", 1, 365),
    _planned("away_days", "Out of service: treatment", "d", 0.5, 365),
    _planned("stand_time", "Out of service: stand time", "h", 0, 1000),
    _planned("away_people", "Out of service: people a shift", "pieces", 1, 50),
    _planned("away_shifts", "Out of service: shifts a day", "pieces", 1, 4),
    _planned("shift_length", "Out of service: length of a shift", "h", 1, 24),
)

# Shutdowns a skid can have, and the unit of the set point ("" where there is none).
# The ones marked required may never be "not fitted"; of air and low flow one is enough.
SHUTDOWNS: dict[str, tuple[str, str]] = {
    "emergency_stop": ("Emergency stop", ""),
    "supply": ("Loss of supply", ""),
    "broken_wire": ("Broken wire in the level loop", ""),
    "low_level": ("Transformer low level", ""),
    "tray": ("Tray float", "mm"),
    "sleeve": ("Hose-sleeve sensor", ""),
    "unit_trip": ("Unit trip or gas-relay alarm", ""),
    "low_flow": ("Low flow", "L/min"),
    "air": ("Air in the return stream", "mL"),
    "high_pressure": ("High pressure", "kPa g"),
    "low_suction": ("Low suction", "kPa g"),
}
REQUIRED_SHUTDOWNS = ("emergency_stop", "supply", "low_level", "tray")

# What the line diagram can show, and the states each kind of part can take.
VALVES = (
    "suction_tank_valve",
    "return_tank_valve",
    "suction_closing_valve",
    "return_closing_valve",
    "suction_skid_valve",
    "return_skid_valve",
    "bypass_valve",
    "vessel_bleed",
    "return_bleed",
    "vacuum_valve",
)
VOLUMES = ("suction_hose", "return_hose", "vessel")
PARTS: dict[str, tuple[str, ...]] = {
    **dict.fromkeys(VALVES, ("open", "closed")),
    **dict.fromkeys(VOLUMES, ("air", "vacuum", "oil")),
    "vacuum_pump": ("runs", "stopped", "gone"),
    "oil_pump": ("runs", "stopped"),
    "bond": ("on", "off"),
    "supply": ("on", "off"),
    "vacuum_gauge": (),
    "air_detector": (),
    "flow_switch": (),
    "pressure_switch": (),
    "level_contact": (),
    "tray": (),
    "control_room": (),
}  # fmt: skip


def facts_by_id() -> dict[str, Fact]:
    """Return every fact of a job sheet by name, the shutdowns' among them."""
    shutdowns = [
        fact
        for name, (label, unit) in SHUTDOWNS.items()
        for fact in (
            Fact(f"{name}_fitted", "shutdown", f"{label}, fitted", FactKind.YES_NO),
            *([_number("shutdown", f"{name}_set_point", f"{label}, set point", unit, -100, 1e5,
                       required=False)] if unit else []),
        )
    ]  # fmt: skip
    derived = (
        Fact("gas_cushion", "transformer", "Has a gas cushion", FactKind.YES_NO),
        Fact("isolation_at_skid", "skid", "Self-closing valves at the skid", FactKind.YES_NO),
    )
    return {fact.id: fact for fact in (*FACTS, *shutdowns, *derived)}
