"""How drying goes on: week by week while paper and oil keep pace, and layer by layer."""

from collections.abc import Sequence
from enum import StrEnum
from typing import Annotated

from fieldapp.engineering.drying import course
from fieldapp.engineering.drying.insulation.diffusion import FOSS, GUIDI_FULLERTON
from fieldapp.engineering.drying.insulation.mix import Dryer, Layer, Moment, Oil
from fieldapp.engineering.moisture.solubility import GRIFFIN, Solubility, require_constants
from fieldapp.engineering.rules.said import Figure, Said
from fieldapp.engineering.validity import require

Kilogram = Annotated[float, "mass"]
KilogramPerSecond = Annotated[float, "mass flow"]
KilogramPerCubicMetre = Annotated[float, "density"]
CubicMetrePerSecond = Annotated[float, "flow"]
KelvinDifference = Annotated[float, "temperature difference"]
PlainNumber = Annotated[float, "plain number"]
Second = Annotated[float, "time"]
WaterContent = Annotated[float, "water content"]
Share = Annotated[float, "share"]

DAY, MILLIGRAM = 86_400.0, 1e-6
LONGEST = 1e10
ROWS = 8
FACTOR = "Good to a factor of 2 either way: show half to double."
SETS = "Published diffusion coefficients part by a factor of 3: work it out with both."


class DiffusionName(StrEnum):
    """The sets for oil-soaked insulation."""

    FOSS = "Foss"
    GUIDI_FULLERTON = "Guidi and Fullerton"


def drying_course(
    *,
    dry_paper: Kilogram,
    now: Share,
    target: Share,
    flow: CubicMetrePerSecond,
    density_at_20: KilogramPerCubicMetre,
    efficiency: Share,
    season: Sequence[course.Season],
    ingress: KilogramPerSecond = 0.0,
    constant_a: PlainNumber = GRIFFIN.constant_a,
    constant_b: KelvinDifference = GRIFFIN.constant_b,
) -> Said:
    """Say how drying goes while paper and oil keep pace, with seasons and water that comes in.

    Parameters
    ----------
    dry_paper : dry mass of paper and board [kg]
    now : water in paper now, as a share of the dry mass [-]
    target : water in paper aimed at [-]
    flow : oil flow through the cartridges [m³/s]
    density_at_20 : oil density at 20 °C [kg/m³]
    efficiency : share of the oil's water that one pass takes [-]
    season : time at which it ends; oil temperature until then; the last goes on [s; K]
    ingress : water from ageing and through seals [kg/s]
    constant_a : A of log10 S = A - B/T, S in mg/kg [-]; left out, new mineral oil
    constant_b : B of the same [K]; left out, new mineral oil

    Returns
    -------
    when the target comes, and water and rate on the way

    Valid for
    ---------
    dry_paper 1 to 50 000 kg, now and target 0.005 to 0.04, flow 1e-6 to 0.005 m³/s, density_at_20
    800 to 1000 kg/m³, efficiency 0.05 to 1, ingress 0 to 1e-5 kg/s, temperatures 313.15 to 363.15
    K with a saturation up to 0.20, season's end 0 to 1e10 s; five years

    Source
    ------
    Balance M dW/dt = -Q ρ e C(W) + ingress with C(W) by Fessler's line (value from memory), in
    steps of a day by the rule of Runge and Kutta; agrees with drying_time for one season.

    Examples
    --------
    >>> drying_course(dry_paper=5000, now=0.03, target=0.02, flow=10/60_000, density_at_20=895,
    ...     efficiency=0.9, season=[course.Season(0, 333.15)]).sentence
    'At the target after about 163 days: 81 to 325 days, 50 kg of water taken.'
    """
    for each in season:
        require("season's end", each.end, 0, LONGEST)
    solubility = Solubility("given", constant_a, constant_b, "as given")
    require_constants(constant_a, constant_b)
    plan = course.Plan(dry_paper, now, target, flow, density_at_20, efficiency, ingress,
                       solubility, tuple(season))  # fmt: skip
    found = course.drying_course(plan, DAY)
    days, taken = found.duration / DAY, found.points[-1].removed
    words = (
        f"At the target after about {days:.0f} days: {days / 2:.0f} to {days * 2:.0f} days, "
        f"{taken:.0f} kg of water taken."
        if found.arrives
        else f"Not at the target within five years; {taken:.0f} kg of water taken until then."
    )
    shown = found.points if len(found.points) <= ROWS else [
        found.points[round(place * (len(found.points) - 1) / ROWS)] for place in range(ROWS + 1)
    ]  # fmt: skip
    rows = tuple(
        (f"{p.time / DAY:.0f}", f"{100 * p.water_in_paper:.2f}", f"{p.inlet_water / MILLIGRAM:.1f}",
         f"{p.outlet_water / MILLIGRAM:.1f}", f"{p.rate * DAY:.3f}", f"{p.removed:.1f}")
        for p in shown
    )  # fmt: skip
    heads = ("day", "paper %", "in mg/kg", "out mg/kg", "kg a day", "kg so far")
    return Said(words, (Figure("time to the target", found.duration, "d"),) * found.arrives,
                heads, rows, (FACTOR,))  # fmt: skip


def insulation_course(
    *,
    layer: Sequence[Layer],
    oil_mass: Kilogram,
    oil_water: WaterContent,
    flow: CubicMetrePerSecond,
    density: KilogramPerCubicMetre,
    efficiency: Share,
    stops: Second,
    lasts: Second,
    diffusion: DiffusionName = DiffusionName.FOSS,
    ingress: KilogramPerSecond = 0.0,
    constant_a: PlainNumber = GRIFFIN.constant_a,
    constant_b: KelvinDifference = GRIFFIN.constant_b,
) -> Said:
    """Say how insulation of several thicknesses dries into one oil, and what comes back at rest.

    Parameters
    ----------
    layer : name; dry mass; thickness; faces that oil wets, 1 or 2; temperature; water in it
        [kg; m; -; K; -]
    oil_mass : mass of the oil [kg]
    oil_water : water content of the oil at first [kg/kg]
    flow : oil flow through the cartridges [m³/s]
    density : density of the oil at the flow meter's temperature [kg/m³]
    efficiency : share of the oil's water that one pass takes [-]
    stops : when the dryer stops [s]
    lasts : until when it is worked out, rest included [s]
    diffusion : whose diffusion coefficients
    ingress : water from ageing and through seals [kg/s]
    constant_a : A of log10 S = A - B/T, S in mg/kg [-]; left out, new mineral oil
    constant_b : B of the same [K]; left out, new mineral oil

    Returns
    -------
    water taken, and the mean water of each layer on the way

    Valid for
    ---------
    1 to 12 layers of 0.1 to 50 000 kg, 0.00005 to 0.2 m, 1 or 2 faces, 313.15 to 363.15 K and
    0.005 to 0.04 kg/kg, saturation up to 0.20 at first; oil_mass 1 to 300 000 kg, oil_water 0 to
    200e-6 kg/kg, flow 0 to 0.005 m³/s, density 750 to 1000 kg/m³, efficiency 0 to 1, stops and
    lasts up to 1e10 s, ingress 0 to 1e-5 kg/s

    Source
    ------
    Diffusion by finite volumes (Patankar 1980, value from memory), face in balance by Fessler's
    line; D of Foss or of Guidi and Fullerton (values from memory). Agrees with Crank's series.

    Examples
    --------
    >>> layer = [Layer("paper", 500, 0.001, 2, 333.15, 0.03)]
    >>> insulation_course(layer=layer, oil_mass=17_000, oil_water=20e-6, flow=12/60_000,
    ...     density=862, efficiency=0.9, stops=30 * DAY, lasts=30 * DAY).heads
    ('day', 'oil mg/kg', 'kg so far', 'paper %')
    """
    from fieldapp.engineering.drying.insulation.layers import dried_insulation

    require("flow", flow, 0, 0.005)
    require("density", density, 750, 1000)
    require("stops", stops, 0, LONGEST)
    require("lasts", lasts, 1, LONGEST)
    require_constants(constant_a, constant_b)
    solubility = Solubility("given", constant_a, constant_b, "as given")
    named = FOSS if diffusion is DiffusionName.FOSS else GUIDI_FULLERTON
    moments = dried_insulation(
        layer, Oil(oil_mass, oil_water, ingress, solubility),
        Dryer(flow * density, efficiency, stops), named,
        [lasts * (place + 1) / ROWS for place in range(ROWS)],
    )  # fmt: skip
    end = moments[-1]
    words = f"{end.removed:.1f} kg of water taken by day {end.time / DAY:.0f}."
    heads = ("day", "oil mg/kg", "kg so far", *(f"{each.name} %" for each in layer))
    return Said(words, (Figure("water taken", end.removed, "kg"),), heads,
                tuple(_row(moment) for moment in moments), (SETS,))  # fmt: skip


def _row(moment: Moment) -> tuple[str, ...]:
    return (
        f"{moment.time / DAY:.0f}",
        f"{moment.oil_water / MILLIGRAM:.1f}",
        f"{moment.removed:.1f}",
        *(f"{100 * water:.2f}" for water in moment.layers),
    )
