"""How long drying lasts while paper and oil keep pace: in one formula, good to a factor of 2."""

from typing import Annotated

from fieldapp.engineering.moisture.paper import saturation_over_paper
from fieldapp.engineering.moisture.solubility import water_solubility
from fieldapp.engineering.moisture.sorption import FESSLER
from fieldapp.engineering.validity import require

Kilogram = Annotated[float, "mass"]
KilogramPerCubicMetre = Annotated[float, "density"]
CubicMetrePerSecond = Annotated[float, "flow"]
Kelvin = Annotated[float, "temperature"]
KelvinDifference = Annotated[float, "temperature difference"]
PlainNumber = Annotated[float, "plain number"]
Second = Annotated[float, "time"]
Share = Annotated[float, "share"]

FACTOR = 2.0
POWER = 1 / FESSLER.power


def drying_time(
    *,
    dry_paper: Kilogram,
    now: Share,
    target: Share,
    flow: CubicMetrePerSecond,
    density: KilogramPerCubicMetre,
    efficiency: Share,
    temperature: Kelvin,
    constant_a: PlainNumber,
    constant_b: KelvinDifference,
) -> Second:
    """Return how long it takes to dry paper that keeps pace with its oil; show half to double.

    Parameters
    ----------
    dry_paper : dry mass of paper and board [kg]
    now : water in paper now, as a share of the dry mass [-]
    target : water in paper aimed at [-]
    flow : oil flow through the cartridges [m³/s]
    density : density of the oil at the flow meter's temperature [kg/m³]
    efficiency : share of the oil's water that one pass takes [-]
    temperature : temperature of paper and oil: the skid's oil, not top oil [K]
    constant_a : A of log10 S = A - B/T, S in mg/kg [-]; new mineral oil 7.0895 (Griffin)
    constant_b : B of the same [K]; new mineral oil 1567 (Griffin)

    Returns
    -------
    time [s]; without water from ageing and through seals, which lengthen it

    Valid for
    ---------
    dry_paper 1 to 50 000 kg, now and target 0.005 to 0.04, flow 1e-6 to 0.005 m³/s, density 750
    to 1000 kg/m³, efficiency 0.05 to 1, temperature 313.15 to 363.15 K, saturation over the paper
    up to 0.20, constant_a 4 to 10, constant_b 300 to 3000 K

    Source
    ------
    Balance M dW/dt = -Q ρ e C(W) with C(W) by Fessler's line (value from memory), integrated; a
    factor of 2 either way: common practice, no source.

    Examples
    --------
    >>> time = drying_time(dry_paper=5000, now=0.03, target=0.02, flow=10/60_000, density=869,
    ...     efficiency=0.9, temperature=333.15, constant_a=7.0895, constant_b=1567)
    >>> round(time / 86_400)
    163
    """
    require("dry_paper", dry_paper, 1, 50_000)
    require("now", now, 0.005, 0.04)
    require("target", target, 0.005, now)
    require("flow", flow, 1e-6, 0.005)
    require("density", density, 750, 1000)
    require("efficiency", efficiency, 0.05, 1)
    saturation_over_paper(water_in_paper=now, temperature=temperature)
    solubility = water_solubility(
        temperature=temperature, constant_a=constant_a, constant_b=constant_b
    )
    speed = flow * density * efficiency * solubility * FESSLER.saturation(1, temperature)
    left: float = target ** (1 - POWER) - now ** (1 - POWER)
    return dry_paper * left / ((POWER - 1) * speed)


def forecast_band(time: float) -> tuple[float, float]:
    """Return the shortest and longest time [s] to print for a forecast of `time`.

    >>> forecast_band(90.0)
    (45.0, 180.0)
    """
    return time / FACTOR, time * FACTOR
