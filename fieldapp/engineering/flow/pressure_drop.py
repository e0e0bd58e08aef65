"""What hoses take of the pressure, and what that leaves at the inlet of the pump."""

from math import pi
from typing import Annotated

from fieldapp.engineering.flow.friction import friction_to_plan_with, reynolds_number
from fieldapp.engineering.oil import GRAVITY
from fieldapp.engineering.validity import require

Pascal = Annotated[float, "absolute pressure"]
PascalAboveAir = Annotated[float, "pressure above air"]
PascalPerMetre = Annotated[float, "pressure gradient"]
KilogramPerCubicMetre = Annotated[float, "density"]
SquareMetrePerSecond = Annotated[float, "viscosity"]
CubicMetrePerSecond = Annotated[float, "flow"]
Metre = Annotated[float, "length"]


def pressure_gradient(
    *,
    flow: CubicMetrePerSecond,
    bore: Metre,
    roughness: Metre,
    viscosity: SquareMetrePerSecond,
    density: KilogramPerCubicMetre,
) -> PascalPerMetre:
    """Return what a metre of hose takes of the pressure; the larger figure where it is unsure.

    Parameters
    ----------
    flow : oil flow [m³/s]
    bore : inner diameter [m]
    roughness : roughness of its wall; rubber about 0.01 mm [m]
    viscosity : kinematic viscosity at the oil temperature [m²/s]
    density : density at the oil temperature [kg/m³]

    Returns
    -------
    pressure a metre [Pa/m]

    Valid for
    ---------
    flow 1e-6 to 0.02 m³/s, bore 0.005 to 0.2 m, roughness 0 to 5 % of the bore, viscosity 5e-7
    to 0.02 m²/s, density 700 to 1100 kg/m³; straight hose, couplings and bends not counted

    Source
    ------
    Darcy-Weisbach, e.g. White, Fluid Mechanics, 8th ed. 2016, 6.3 (value from memory).

    Examples
    --------
    >>> round(pressure_gradient(flow=20 / 60000, bore=0.0254, roughness=0, viscosity=9.9e-6,
    ...     density=869), 1)
    280.7
    """
    require("flow", flow, 1e-6, 0.02)
    require("density", density, 700, 1100)
    reynolds = reynolds_number(flow=flow, bore=bore, viscosity=viscosity)
    require("roughness", roughness, 0, 0.05 * bore)
    factor = friction_to_plan_with(reynolds=reynolds, relative_roughness=roughness / bore)
    velocity = flow / (pi * bore**2 / 4)
    return factor / bore * density * velocity**2 / 2


def hose_pressure_drop(*, gradient: PascalPerMetre, length: Metre) -> PascalAboveAir:
    """Return what a hose takes of the pressure.

    Parameters
    ----------
    gradient : pressure that a metre takes [Pa/m]
    length : length, with what couplings and bends are worth [m]

    Returns
    -------
    pressure [Pa]

    Valid for
    ---------
    gradient 0 to 1 000 000 Pa/m, length 0.1 to 200 m

    Source
    ------
    Proportion.

    Examples
    --------
    >>> hose_pressure_drop(gradient=656, length=8)
    5248
    """
    require("gradient", gradient, 0, 1_000_000)
    require("length", length, 0.1, 200)
    return gradient * length


def pump_inlet_pressure(*, head: PascalAboveAir, pressure_drop: PascalAboveAir) -> PascalAboveAir:
    """Return the pressure at the pump inlet while it runs: reckon it with the coldest oil.

    Parameters
    ----------
    head : pressure of the oil standing above the pump inlet [Pa]
    pressure_drop : what hose, valves and strainer take at working flow and coldest oil [Pa]

    Returns
    -------
    pressure above air [Pa]; below zero the pump draws air at every weak joint

    Valid for
    ---------
    head -100 000 to 400 000 Pa, pressure_drop 0 to 1 000 000 Pa

    Source
    ------
    Bernoulli with loss, e.g. White, Fluid Mechanics, 8th ed. 2016, 3.6 (value from memory); the
    velocity head, below 0.5 kPa up to 1 m/s, is left out.

    Examples
    --------
    >>> pump_inlet_pressure(head=31_300, pressure_drop=5_248)
    26052
    """
    require("head", head, -100_000, 400_000)
    require("pressure_drop", pressure_drop, 0, 1_000_000)
    return head - pressure_drop


def suction_head_available(
    *,
    station_pressure: Pascal,
    oil_above_pump: Metre,
    pressure_drop: PascalAboveAir,
    density: KilogramPerCubicMetre,
) -> Metre:
    """Return the suction head that a pump has, as metres of oil above a perfect vacuum (NPSH).

    Oil full of air gives off bubbles long before: keep the inlet above the air pressure.

    Parameters
    ----------
    station_pressure : air pressure here, by barometer [Pa]
    oil_above_pump : height of the oil surface above the pump inlet [m]
    pressure_drop : what the suction side takes [Pa]
    density : density at the oil temperature [kg/m³]

    Returns
    -------
    height of oil [m]

    Valid for
    ---------
    station_pressure 50 000 to 108 500 Pa, oil_above_pump -10 to 40 m, pressure_drop 0 to
    1 000 000 Pa, density 700 to 1100 kg/m³; free-breathing tank, vapour pressure of oil nought

    Source
    ------
    Definition of the net positive suction head, ISO 17769-1:2012 (value from memory).

    Examples
    --------
    >>> round(suction_head_available(station_pressure=79495, oil_above_pump=1.5,
    ...     pressure_drop=20_000, density=870), 2)
    8.47
    """
    require("station_pressure", station_pressure, 50_000, 108_500)
    require("oil_above_pump", oil_above_pump, -10, 40)
    require("pressure_drop", pressure_drop, 0, 1_000_000)
    require("density", density, 700, 1100)
    return oil_above_pump + (station_pressure - pressure_drop) / (density * GRAVITY)
