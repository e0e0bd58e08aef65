"""The formulas that checklists and the command line may use, and the rules that calc works out."""

import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import get_type_hints

from fieldapp.engineering import atmosphere, hydraulics, level, oil, pump_down, vacuum
from fieldapp.engineering.air import gas, station
from fieldapp.engineering.arithmetic import allowances, comparisons, tolerances
from fieldapp.engineering.decision import bonding, conformity
from fieldapp.engineering.docstring import Input, inputs_of, remark, section
from fieldapp.engineering.drying import balance, cartridges, duration, rest, stock
from fieldapp.engineering.drying.insulation import diffusion, sheet
from fieldapp.engineering.flow import charge, escape, friction, pressure_drop, viscosity
from fieldapp.engineering.moisture import inception, paper, saturation, solubility, vapour
from fieldapp.engineering.rules import course, gases, limits, safety, vessel, water, weighing
from fieldapp.engineering.rules.said import Said

VACUUM, MOISTURE = "Atmosphere, vacuum and air", "Water in oil and paper"
FLOW, DRYING = "Oil, level, hoses and flow", "Drying"
DECISIONS, ARITHMETIC = "Decisions, limits and safety", "Arithmetic of the lists"


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
    subject: str = ""
    gives: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Rule:
    """A table or a judgement: as a formula, but it takes readings too, and gives words."""

    name: str
    judge: Callable[..., Said]
    inputs: tuple[Input, ...]
    summary: str
    valid_for: str
    source: str
    subject: str
    gives: str = ""
    note: str = ""


def _formula(subject: str, calculate: Callable[..., float]) -> Formula:
    text = inspect.cleandoc(calculate.__doc__ or "")
    return Formula(
        name=calculate.__name__,
        calculate=calculate,
        inputs=inputs_of(calculate),
        quantity=get_type_hints(calculate, include_extras=True)["return"].__metadata__[0],
        summary=text.splitlines()[0].removeprefix("Return "),
        valid_for=section(text, "Valid for"),
        source=section(text, "Source"),
        subject=subject,
        gives=section(text, "Returns"),
        note=remark(text),
    )


def _rule(subject: str, judge: Callable[..., Said]) -> Rule:
    text = inspect.cleandoc(judge.__doc__ or "")
    return Rule(
        name=judge.__name__,
        judge=judge,
        inputs=inputs_of(judge),
        summary=text.splitlines()[0].removeprefix("Return ").removeprefix("Say "),
        valid_for=section(text, "Valid for"),
        source=section(text, "Source"),
        subject=subject,
        gives=section(text, "Returns"),
        note=remark(text),
    )


_FORMULAS: Mapping[str, tuple[Callable[..., float], ...]] = {
    VACUUM: (
        atmosphere.standard_pressure,
        station.station_from_altimeter,
        station.station_from_weather_report,
        atmosphere.gauge_vacuum,
        atmosphere.residual_pressure,
        atmosphere.deepest_vacuum,
        pump_down.pump_down_time,
        vacuum.pressure_at_first_temperature,
        vacuum.leak_rate,
        vacuum.leak_rate_by_dial,
        vacuum.expected_litres,
        gas.air_a_day,
        gas.residual_air,
        gas.gas_to_bleed,
        gas.dissolved_at,
        gas.air_saturation,
        gas.oil_to_dissolve,
    ),
    MOISTURE: (
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
    ),
    FLOW: (
        oil.oil_density,
        viscosity.oil_viscosity,
        viscosity.oil_mass,
        oil.head,
        oil.cushion_after_fill,
        level.expected_level,
        level.margin_cold,
        escape.level_drop,
        level.oil_lost_before_alarm,
        escape.burst_flow,
        escape.time_before_alarm,
        escape.first_crack_velocity,
        hydraulics.hose_volume,
        hydraulics.loop_volume,
        hydraulics.velocity,
        hydraulics.volume_passed,
        hydraulics.slug_to_tank,
        hydraulics.tray_needed,
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
    ),
    DRYING: (
        balance.removal_rate,
        balance.removal_rate_uncertainty,
        balance.difference_after_zero,
        balance.dryer_efficiency,
        cartridges.cartridge_water,
        cartridges.cartridge_water_uncertainty,
        cartridges.adsorbent_loading,
        cartridges.cartridges_needed,
        stock.dry_basis,
        stock.paper_mass,
        stock.water_held_by_paper,
        stock.water_held_by_oil,
        stock.water_to_remove,
        duration.drying_time,
        diffusion.diffusion_coefficient,
        diffusion.drying_time_constant,
        sheet.share_dried,
        rest.rebound,
    ),
    DECISIONS: (
        conformity.guard_for_risk,
        bonding.strap_resistance,
        bonding.fault_current_withstood,
    ),
    ARITHMETIC: (
        oil.mean_temperature,
        comparisons.mean_water,
        comparisons.mean_share,
        comparisons.mean_mass,
        oil.water_difference,
        comparisons.temperature_difference,
        comparisons.pressure_difference,
        allowances.resistance_above,
        allowances.time_to_spare,
        comparisons.pressure_plus,
        comparisons.absolute_pressure_plus,
        allowances.length_plus,
        allowances.share_plus,
        allowances.temperature_less,
        allowances.share_of_volume,
        allowances.times_volume,
        allowances.times_pressure,
        tolerances.water_tolerance,
        tolerances.volume_tolerance,
        tolerances.pressure_tolerance,
    ),
}
_RULES: Mapping[str, tuple[Callable[..., Said], ...]] = {
    VACUUM: (
        vessel.pump_down_outlook,
        vessel.hold_test,
        vessel.hold_test_by_dial,
        gases.gas_solubility,
    ),
    MOISTURE: (
        water.solubility_sets,
        water.paper_of_sample,
        water.saturation_band,
        water.site_solubility,
    ),
    FLOW: (safety.bend_radius,),
    DRYING: (
        course.drying_course,
        course.insulation_course,
        weighing.cartridges_weighed,
        weighing.cartridges_call,
        weighing.stop_rule,
        weighing.rest_sample,
    ),
    DECISIONS: (
        limits.conformity,
        limits.oil_limits,
        gases.gas_beside_typical,
        safety.pcb_class,
        safety.spill_rule,
        safety.approach_distance,
        safety.bond_place,
    ),
}
FORMULAS: Mapping[str, Formula] = MappingProxyType(
    {made.__name__: _formula(subject, made) for subject in _FORMULAS for made in _FORMULAS[subject]}
)
RULES: Mapping[str, Rule] = MappingProxyType(
    {made.__name__: _rule(subject, made) for subject in _RULES for made in _RULES[subject]}
)
SUBJECTS = tuple(_FORMULAS)
