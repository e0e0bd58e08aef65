"""The hoses: how fast the oil runs, what stands at each port, and the order of the pressures."""

from fieldapp.engineering.flow.pressure_drop import (
    hose_pressure_drop,
    pressure_gradient,
    pump_inlet_pressure,
)
from fieldapp.engineering.flow.viscosity import oil_viscosity
from fieldapp.engineering.hydraulics import velocity
from fieldapp.engineering.oil import head, oil_density
from fieldapp.engineering.validity import OutsideValidity
from fieldapp.plan.drying import working_oil
from fieldapp.plan.given import Given, MissingFactError, celsius, mineral, outside
from fieldapp.plan.shapes import Answer, Figure
from fieldapp.plan.wording import limit_words, number

# The thickest oil that IEC 60296 lets pass as mineral insulating oil, at −30 and 40 °C.
THICKEST = (243.15, 1800e-6, 313.15, 12e-6)
IN_ORDER = "Trip, relief and weakest part stand in order."
OUT_OF_ORDER = "Trip, relief and weakest part do not stand in order: put that right first."
HOSE_ALONE = (
    "Couplings, valves and strainer take more, which is not in the pump inlet: leave room for them."
)
THICKEST_WORDS = (
    "The pump inlet is worked out with the thickest oil that IEC 60296 allows, 12 mm²/s at 40 °C "
    "and 1800 at −30 °C (as printed on a data sheet)."
)
OTHER_LIQUID = (
    "Pump inlet: the viscosity of this liquid is not known here: ask the skid’s maker for the "
    "pressure at the inlet with the coldest liquid."
)
SMOOTH = 1.5e-6
LEAST_INLET = 10_000.0
TRIP_RULE = "low-suction set point"
INLET_RULE = "common practice where no low-suction shutdown is fitted"
HEAD_SOURCE = "hydrostatic law, oil at rest"


def hoses(given: Given) -> Answer:
    """Return velocities and pressures at working flow."""
    limit, whose = given.owners("velocity_limit")
    flow = given.needed("working_flow")
    figures = [
        Figure(f"Velocity in the {side} hose",
               velocity(flow=flow, bore=given.needed(f"{side}_hose_bore")), "m/s", 2,
               at_most=limit, source=f"flow over bore; limit: {whose}")
        for side in ("suction", "return")
    ]  # fmt: skip
    figures += _heads(given)
    inlets, refusals = _inlets(given)
    figures += inlets
    order, words = _order(given)
    figures += order
    if words == OUT_OF_ORDER:
        refusals, words = (*refusals, words), ""
    sentence = " ".join(filter(None, (_inlet_words(inlets), words)))
    return Answer("hoses", "", sentence, tuple(figures), refusals, _stated(given))


def _heads(given: Given) -> list[Figure]:
    places = (("suction valve", "suction_height"), ("return valve", "return_height"))
    return [
        Figure(f"At the {name}, oil at rest", _head(given, fact, working_oil(given)) / 1000,
               "kPa g", 1, at_least=0, source=HEAD_SOURCE)
        for name, fact in places
    ]  # fmt: skip


def _head(given: Given, port: str, temperature: float) -> float:
    return head(
        density_at_20=given.needed("oil_density"), temperature=temperature,
        oil_height=given.needed("oil_height"), port_height=given.needed(port), cushion_pressure=0,
    )  # fmt: skip


def _inlets(given: Given) -> tuple[list[Figure], tuple[str, ...]]:
    """Return the pump inlet's pressure with warm and with the coldest oil."""
    stated = given.known("low_suction_set_point")
    least, rule = (LEAST_INLET, INLET_RULE) if stated is None else (stated, TRIP_RULE)
    figures, refusals = [], []
    if not mineral(given):
        return [], (OTHER_LIQUID,)
    for name, temperature in (("warm", working_oil(given)), ("coldest", _coldest(given))):
        label = f"Pump inlet, {name} oil, {celsius(temperature):.0f}\u00a0°C".replace("-", "−")
        try:
            pressure = _inlet(given, temperature)
        except OutsideValidity as fault:
            refusals.append(f"{label}: {outside(fault)}.")
            continue
        source = f"head less the suction hose at working flow; limit: {rule}"
        figures.append(Figure(label, pressure / 1000, "kPa g", 1, at_least=least / 1000,
                              source=source))  # fmt: skip
    return figures, tuple(refusals)


def _coldest(given: Given) -> float:
    return given.needed("coldest_oil")


def _inlet(given: Given, temperature: float) -> float:
    cold, thick, warm, thin = THICKEST
    viscosity = oil_viscosity(temperature=temperature, cold_temperature=cold, cold_viscosity=thick,
                              warm_temperature=warm, warm_viscosity=thin)  # fmt: skip
    density = oil_density(density_at_20=given.needed("oil_density"), temperature=temperature)
    gradient = pressure_gradient(
        flow=given.needed("working_flow"), bore=given.needed("suction_hose_bore"),
        roughness=SMOOTH, viscosity=viscosity, density=density,
    )  # fmt: skip
    drop = hose_pressure_drop(gradient=gradient, length=given.needed("suction_hose_length"))
    return pump_inlet_pressure(head=_head(given, "pump_height", temperature), pressure_drop=drop)


def _inlet_words(inlets: list[Figure]) -> str:
    if not inlets:
        return ""
    lowest = min(inlets, key=lambda figure: figure.value)
    shown = number(lowest.value, 1, "down")
    if lowest.value < 0:
        return f"The pump inlet would fall to {shown} kPa g: it draws air. Run slower."
    if not lowest.inside:
        least = limit_words(lowest)
        return f"The pump inlet would fall to {shown} kPa g, {least} is asked for. Run slower."
    return f"Pump inlet {shown} kPa g or more, by the hose alone."


def _order(given: Given) -> tuple[list[Figure], str]:
    """Return the pressures in the order in which they must stand: trip, relief, weakest part."""
    relief = given.needed("relief_setting") / 1000
    parts = ("weakest_part", "suction_hose_rating", "return_hose_rating")
    weakest = min(given.needed(name) for name in parts) / 1000
    source = "trip below relief below the weakest rating: common practice"
    figures = [Figure("Relief", relief, "kPa g", 0, at_most=weakest, source=source)]
    try:
        trip = given.needed("high_pressure_set_point") / 1000
    except MissingFactError:
        return figures, "No high-pressure shutdown is stated."
    figures.insert(0, Figure("High-pressure trip", trip, "kPa g", 0, at_most=relief, source=source))
    return figures, IN_ORDER if trip < relief < weakest else OUT_OF_ORDER


def _stated(given: Given) -> tuple[str, ...]:
    stated = given.known("inlet_with_cold_oil")
    if not mineral(given):
        return ()
    if stated is None:
        return (THICKEST_WORDS, HOSE_ALONE)
    words = f"The sheet states {stated / 1000:.1f} kPa g at the inlet with the coldest oil"
    return (
        THICKEST_WORDS,
        HOSE_ALONE,
        f"{words}: ask for which oil temperature it was worked out.",
    )
