"""How oil rubs in a hose: laminar, turbulent, and an honest answer in between."""

from dataclasses import dataclass
from enum import StrEnum
from math import log10, pi
from typing import Annotated

from fieldapp.engineering.validity import require

Metre = Annotated[float, "length"]
CubicMetrePerSecond = Annotated[float, "flow"]
SquareMetrePerSecond = Annotated[float, "viscosity"]
PlainNumber = Annotated[float, "plain number"]

LAMINAR_TO, TURBULENT_FROM, FASTEST = 2300.0, 4000.0, 1e8
ROUGHEST = 0.05
STEPS = 60


class Regime(StrEnum):
    """How a flow runs."""

    LAMINAR = "laminar"
    BETWEEN = "between laminar and turbulent"
    TURBULENT = "turbulent"


@dataclass(frozen=True, slots=True)
class Friction:
    """Darcy friction factor: between `low` and `high`, which are one where it is known."""

    regime: Regime
    low: float
    high: float


def reynolds_number(
    *, flow: CubicMetrePerSecond, bore: Metre, viscosity: SquareMetrePerSecond
) -> PlainNumber:
    """Return the Reynolds number of the oil in a hose: below 2300 it runs in layers.

    Parameters
    ----------
    flow : oil flow [m³/s]
    bore : inner diameter [m]
    viscosity : kinematic viscosity at the oil temperature [m²/s]

    Returns
    -------
    Reynolds number [-]

    Valid for
    ---------
    flow 0 to 0.02 m³/s, bore 0.005 to 0.2 m, viscosity 5e-7 to 0.02 m²/s

    Source
    ------
    Definition Re = v D/ν, ISO 80000-11:2019, item 11-4.1.

    Examples
    --------
    >>> round(reynolds_number(flow=20 / 60000, bore=0.0254, viscosity=9.9e-6))
    1688
    """
    require("flow", flow, 0, 0.02)
    require("bore", bore, 0.005, 0.2)
    require("viscosity", viscosity, 5e-7, 0.02)
    return 4 * flow / (pi * bore * viscosity)


def laminar_friction(*, reynolds: PlainNumber) -> PlainNumber:
    """Return the Darcy friction factor of laminar flow in a round hose.

    Parameters
    ----------
    reynolds : Reynolds number [-]

    Returns
    -------
    Darcy friction factor [-]

    Valid for
    ---------
    reynolds 0.001 to 2300; above, this would say too little

    Source
    ------
    Hagen-Poiseuille, f = 64/Re, e.g. White, Fluid Mechanics, 8th ed. 2016, 6.4 (value from
    memory).

    Examples
    --------
    >>> round(laminar_friction(reynolds=1688), 5)
    0.03791
    """
    require("reynolds", reynolds, 1e-3, LAMINAR_TO)
    return 64 / reynolds


def turbulent_friction(*, reynolds: PlainNumber, relative_roughness: PlainNumber) -> PlainNumber:
    """Return the Darcy friction factor of turbulent flow in a round hose.

    Parameters
    ----------
    reynolds : Reynolds number [-]
    relative_roughness : roughness of the wall over the bore [-]

    Returns
    -------
    Darcy friction factor [-]

    Valid for
    ---------
    reynolds 4000 to 1e8, relative_roughness 0 to 0.05

    Source
    ------
    Colebrook, J. Inst. Civil Engineers 11, 1939, p. 133 (equation from memory; the library
    fluids solves the same).

    Examples
    --------
    >>> round(turbulent_friction(reynolds=100_000, relative_roughness=1e-4), 5)
    0.01851
    """
    require("reynolds", reynolds, TURBULENT_FROM, FASTEST)
    require("relative_roughness", relative_roughness, 0, ROUGHEST)
    return _colebrook(reynolds, relative_roughness)


def friction_to_plan_with(*, reynolds: PlainNumber, relative_roughness: PlainNumber) -> PlainNumber:
    """Return the friction factor that is safe to plan with, in whatever way the oil runs.

    Between laminar and turbulent nobody knows; the larger one counts. See `friction`.

    Parameters
    ----------
    reynolds : Reynolds number [-]
    relative_roughness : roughness of the wall over the bore [-]

    Returns
    -------
    Darcy friction factor, the larger end of what it may be [-]

    Valid for
    ---------
    reynolds 0.001 to 1e8, relative_roughness 0 to 0.05

    Source
    ------
    Hagen-Poiseuille up to 2300, Colebrook 1939 from 4000 (equation from memory); in between
    Colebrook's, as the larger: common practice, no source.

    Examples
    --------
    >>> round(friction_to_plan_with(reynolds=3103, relative_roughness=0), 4)
    0.0431
    """
    return friction(reynolds, relative_roughness).high


def friction(reynolds: float, relative_roughness: float) -> Friction:
    """Return how the oil runs, and between what its friction factor lies.

    >>> friction(3103, 0)
    Friction(regime=<Regime.BETWEEN: '...'>, low=0.0206..., high=0.0430...)
    """
    require("reynolds", reynolds, 1e-3, FASTEST)
    require("relative_roughness", relative_roughness, 0, ROUGHEST)
    if reynolds <= LAMINAR_TO:
        factor = laminar_friction(reynolds=reynolds)
        return Friction(Regime.LAMINAR, factor, factor)
    turbulent = _colebrook(reynolds, relative_roughness)
    if reynolds < TURBULENT_FROM:
        return Friction(Regime.BETWEEN, 64 / reynolds, turbulent)
    return Friction(Regime.TURBULENT, turbulent, turbulent)


def _colebrook(reynolds: float, relative_roughness: float) -> float:
    """Return Colebrook's factor; the iteration contracts, so it always settles."""
    inverse_root = 6.0
    for _ in range(STEPS):
        inverse_root = -2 * log10(relative_roughness / 3.7 + 2.51 * inverse_root / reynolds)
    return 1 / inverse_root**2
