"""The formulas that checklists and the command line may use, by name."""

import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import get_type_hints

from fieldapp.engineering import (
    allowances,
    atmosphere,
    comparisons,
    hydraulics,
    level,
    oil,
    tolerances,
    vacuum,
)
from fieldapp.engineering.air import gas, station
from fieldapp.engineering.decision import bonding
from fieldapp.engineering.drying import balance, cartridges, duration, rest, stock
from fieldapp.engineering.drying.insulation import diffusion, sheet
from fieldapp.engineering.flow import charge, escape, friction, pressure_drop, viscosity
from fieldapp.engineering.moisture import inception, paper, saturation, solubility, vapour


@dataclass(frozen=True, slots=True)
class Input:
    """One input of a formula: its name and the quantity it measures (see `fieldapp.units`)."""

    name: str
    quantity: str
    meaning: str


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula with all that its docstring says; `calculate` takes and gives SI values."""

    name: str
    calculate: Callable[..., float]
    inputs: tuple[Input, ...]
    quantity: str
    summary: str
    valid_for: str
    source: str


def _section(text: str, title: str) -> str:
    """Return the words under a section title of a docstring, on one line."""
    lines = text.splitlines()
    start = lines.index(title) + 2
    words = []
    for line in lines[start:]:
        if not line.strip():
            break
        words.append(line.strip())
    return " ".join(words)


def _meanings(text: str) -> dict[str, str]:
    lines = text.splitlines()
    start = lines.index("Parameters") + 2
    pairs = (
        line.split(" : ", 1) for line in lines[start : lines.index("Returns")] if " : " in line
    )
    return {name.strip(): meaning.strip() for name, meaning in pairs}


def _formula(calculate: Callable[..., float]) -> Formula:
    hints = get_type_hints(calculate, include_extras=True)
    quantity = hints.pop("return").__metadata__[0]
    text = inspect.cleandoc(calculate.__doc__ or "")
    meanings = _meanings(text)
    return Formula(
        name=calculate.__name__,
        calculate=calculate,
        inputs=tuple(
            Input(name, hint.__metadata__[0], meanings[name]) for name, hint in hints.items()
        ),
        quantity=quantity,
        summary=text.splitlines()[0].removeprefix("Return "),
        valid_for=_section(text, "Valid for"),
        source=_section(text, "Source"),
    )


FORMULAS: Mapping[str, Formula] = MappingProxyType(
    {
        calculate.__name__: _formula(calculate)
        for calculate in (
            atmosphere.standard_pressure,
            atmosphere.gauge_vacuum,
            atmosphere.residual_pressure,
            atmosphere.deepest_vacuum,
            station.station_from_altimeter,
            station.station_from_weather_report,
            vacuum.pressure_at_first_temperature,
            vacuum.leak_rate,
            vacuum.expected_litres,
            gas.air_a_day,
            gas.residual_air,
            gas.gas_to_bleed,
            gas.dissolved_at,
            gas.air_saturation,
            gas.oil_to_dissolve,
            oil.oil_density,
            oil.head,
            oil.cushion_after_fill,
            level.expected_level,
            level.margin_cold,
            level.oil_lost_before_alarm,
            oil.mean_temperature,
            oil.water_difference,
            hydraulics.hose_volume,
            hydraulics.loop_volume,
            hydraulics.velocity,
            hydraulics.slug_to_tank,
            hydraulics.tray_needed,
            vapour.vapour_pressure_of_water,
            solubility.water_solubility,
            saturation.relative_saturation,
            saturation.water_at_saturation,
            saturation.free_water_temperature,
            saturation.water_corrected_to_20,
            saturation.saturation_at_20,
            paper.paper_water,
            paper.paper_water_by_second_line,
            paper.paper_water_at_least,
            paper.paper_water_at_most,
            paper.saturation_over_paper,
            paper.oil_water_over_paper,
            inception.bubble_inception,
            balance.removal_rate,
            balance.removal_rate_uncertainty,
            balance.difference_after_zero,
            balance.dryer_efficiency,
            cartridges.cartridge_water,
            cartridges.cartridge_water_uncertainty,
            cartridges.cartridges_needed,
            stock.dry_basis,
            stock.paper_mass,
            stock.water_held_by_paper,
            stock.water_held_by_oil,
            stock.water_to_remove,
            rest.rebound,
            duration.drying_time,
            diffusion.diffusion_coefficient,
            diffusion.drying_time_constant,
            sheet.share_dried,
            viscosity.oil_viscosity,
            viscosity.oil_mass,
            friction.reynolds_number,
            friction.laminar_friction,
            friction.turbulent_friction,
            friction.friction_to_plan_with,
            pressure_drop.pressure_gradient,
            pressure_drop.hose_pressure_drop,
            pressure_drop.pump_inlet_pressure,
            pressure_drop.suction_head_available,
            charge.charge_relaxation,
            charge.resting_volume,
            charge.resting_time,
            escape.first_crack_velocity,
            escape.burst_flow,
            escape.time_before_alarm,
            escape.level_drop,
            bonding.strap_resistance,
            bonding.fault_current_withstood,
            allowances.share_of_volume,
            allowances.times_volume,
            allowances.times_pressure,
            allowances.length_plus,
            allowances.share_plus,
            allowances.temperature_less,
            allowances.resistance_above,
            allowances.time_to_spare,
            comparisons.pressure_difference,
            comparisons.pressure_plus,
            comparisons.absolute_pressure_plus,
            comparisons.temperature_difference,
            comparisons.mean_water,
            comparisons.mean_share,
            comparisons.mean_mass,
            tolerances.water_tolerance,
            tolerances.volume_tolerance,
            tolerances.pressure_tolerance,
            hydraulics.volume_passed,
        )
    }
)
