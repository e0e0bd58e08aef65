"""How drying goes week by week while paper and oil keep pace: stepped, with seasons, ingress."""

from dataclasses import dataclass
from typing import Annotated

from fieldapp.engineering.moisture.paper import saturation_over_paper
from fieldapp.engineering.moisture.solubility import Solubility
from fieldapp.engineering.moisture.sorption import FESSLER
from fieldapp.engineering.oil import oil_density
from fieldapp.engineering.validity import require

DAY = 86_400.0
LONGEST = 5 * 365 * DAY


@dataclass(frozen=True, slots=True)
class Season:
    """Oil temperature [K] up to an end [s]; the last season goes on."""

    end: Annotated[float, "time"]
    temperature: Annotated[float, "temperature"]


@dataclass(frozen=True, slots=True)
class Plan:
    """What is to be dried, and with what; SI units, `ingress` from ageing and seals [kg/s]."""

    dry_paper: float
    now: float
    target: float
    flow: float
    density_at_20: float
    efficiency: float
    ingress: float
    solubility: Solubility
    seasons: tuple[Season, ...]

    def temperature_at(self, time: float) -> float:
        """Return the oil temperature [K] at a time [s]."""
        running = (season.temperature for season in self.seasons if time < season.end)
        return next(running, self.seasons[-1].temperature)

    def oil_water(self, water: float, temperature: float) -> float:
        """Return the water content of the oil [kg/kg] over paper with `water` [kg/kg dry]."""
        return FESSLER.saturation(water, temperature) * self.solubility.at(temperature)

    def removal(self, water: float, temperature: float) -> float:
        """Return the water that the cartridges take [kg/s]."""
        density = oil_density(density_at_20=self.density_at_20, temperature=temperature)
        return self.flow * density * self.efficiency * self.oil_water(water, temperature)


@dataclass(frozen=True, slots=True)
class Point:
    """One time of a course: s, kg/kg in paper, kg/kg in oil before and after, kg/s, kg taken."""

    time: float
    water_in_paper: float
    inlet_water: float
    outlet_water: float
    rate: float
    removed: float


@dataclass(frozen=True, slots=True)
class Course:
    """The points of a forecast, and whether it comes to the target within five years."""

    points: tuple[Point, ...]
    arrives: bool

    @property
    def duration(self) -> float:
        """Return the time [s] of the last point."""
        return self.points[-1].time


def drying_course(plan: Plan, step: float) -> Course:
    """Return the course of drying in steps of `step` [s] until the target or five years.

    Good to a factor of 2, as `drying_time`, with which it agrees where there is one season and
    no ingress.

    >>> from fieldapp.engineering.moisture.solubility import GRIFFIN
    >>> plan = Plan(5000, 0.03, 0.02, 10 / 60_000, 895, 0.9, 0, GRIFFIN, (Season(0, 333.15),))
    >>> round(drying_course(plan, DAY).duration / DAY)
    163
    """
    _check(plan)
    require("step", step, 60, 30 * DAY)
    water, removed, time = plan.now, 0.0, 0.0
    points = [_point(plan, time, water, removed)]
    while water > plan.target and time < LONGEST:
        length = step
        after = _after(plan, water, plan.temperature_at(time), length)
        if after < plan.target:
            length *= (water - plan.target) / (water - after)
            after = plan.target
        removed += (water - after) * plan.dry_paper + plan.ingress * length
        water, time = after, time + length
        points.append(_point(plan, time, water, removed))
    return Course(tuple(points), arrives=water <= plan.target)


def _check(plan: Plan) -> None:
    require("dry_paper", plan.dry_paper, 1, 50_000)
    require("now", plan.now, 0.005, 0.04)
    require("target", plan.target, 0.005, plan.now)
    require("flow", plan.flow, 1e-6, 0.005)
    require("efficiency", plan.efficiency, 0.05, 1)
    require("ingress", plan.ingress, 0, 1e-5)
    require("seasons", len(plan.seasons), 1, 1000)
    for season in plan.seasons:
        saturation_over_paper(water_in_paper=plan.now, temperature=season.temperature)


def _after(plan: Plan, water: float, temperature: float, length: float) -> float:
    """Return the water in paper a step later, by the fourth-order rule of Runge and Kutta."""

    def slope(at: float) -> float:
        return (plan.ingress - plan.removal(max(at, 0.0), temperature)) / plan.dry_paper

    first = slope(water)
    second = slope(water + length / 2 * first)
    third = slope(water + length / 2 * second)
    fourth = slope(water + length * third)
    return water + length / 6 * (first + 2 * second + 2 * third + fourth)


def _point(plan: Plan, time: float, water: float, removed: float) -> Point:
    temperature = plan.temperature_at(time)
    inlet = plan.oil_water(water, temperature)
    rate = plan.removal(water, temperature)
    return Point(time, water, inlet, inlet * (1 - plan.efficiency), rate, removed)
