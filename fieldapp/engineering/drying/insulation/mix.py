"""A mix of insulation in one oil with a dryer: what is given, and what it comes to."""

from dataclasses import dataclass
from typing import Annotated

from fieldapp.engineering.moisture.solubility import Solubility


@dataclass(frozen=True, slots=True)
class Layer:
    """Insulation of one thickness [m]: dry mass [kg], temperature [K], water [kg/kg dry]."""

    name: str
    dry_mass: Annotated[float, "mass"]
    thickness: Annotated[float, "length"]
    wetted_faces: Annotated[float, "count"]
    temperature: Annotated[float, "temperature"]
    water: Annotated[float, "share"]


@dataclass(frozen=True, slots=True)
class Oil:
    """The oil: mass [kg], water content [kg/kg], water from ageing and seals [kg/s]."""

    mass: float
    water: float
    ingress: float
    solubility: Solubility


@dataclass(frozen=True, slots=True)
class Dryer:
    """The dryer: oil through it [kg/s], share of water it takes, when it stops [s]."""

    oil_flow: float
    efficiency: float
    stops: float


@dataclass(frozen=True, slots=True)
class Moment:
    """One time [s]: water in the oil, in each layer on the mean [kg/kg], and taken so far [kg]."""

    time: float
    oil_water: float
    layers: tuple[float, ...]
    removed: float
