"""The equations of insulation cut into cells, and of the oil that takes up their water."""

from dataclasses import dataclass
from itertools import accumulate, pairwise

import numpy as np

from fieldapp.engineering.drying.insulation.stepping import Vector
from fieldapp.engineering.moisture.sorption import FESSLER

OIL, REMOVED = -2, -1
DRIEST_OIL = 1e-9
OIL_SCALE = 10e-6


@dataclass(frozen=True, slots=True)
class Cells:
    """One layer, face first: widths and ways between middles [m], dry mass a metre [kg/m].

    `saturated` is the water [kg/kg dry] that Fessler's line gives in saturated oil, of which
    `solubility` [kg/kg] is dissolved; the diffusion coefficient [m²/s] is `dry_diffusion`
    exp(`slope` water).
    """

    widths: Vector
    ways: Vector
    mass_per_way: float
    saturated: float
    solubility: float
    dry_diffusion: float
    slope: float

    def at_face(self, oil_water: float) -> float:
        """Return the water [kg/kg dry] of paper in balance with the oil."""
        share: float = (max(oil_water, 0.0) / self.solubility) ** FESSLER.power
        return self.saturated * share

    def steepness(self, oil_water: float) -> float:
        """Return how fast the face follows the oil; bounded where the line stands upright."""
        wet = max(oil_water, DRIEST_OIL)
        return FESSLER.power * self.at_face(wet) / wet

    def conductances(self, water: Vector, face: float) -> Vector:
        """Return how easily water passes the outer side of each cell [m/s]."""
        mean = (self._outer(water, face) + water) / 2
        found: Vector = self.dry_diffusion * np.exp(self.slope * mean) / self.ways
        return found

    def flows(self, water: Vector, face: float) -> Vector:
        """Return the water through the outer side of each cell, towards the oil [m/s]."""
        return self.conductances(water, face) * (water - self._outer(water, face))

    def _outer(self, water: Vector, face: float) -> Vector:
        """Return the water on the outer side of each cell's outer face."""
        outer = np.empty_like(water)
        outer[0], outer[1:] = face, water[:-1]
        return outer


@dataclass(frozen=True, slots=True)
class Loop:
    """Layers in one oil; `drawn` is the oil that the dryer frees of water [kg/s].

    The state is the water of every cell, then of the oil [kg/kg], then the water taken [kg].
    """

    layers: tuple[Cells, ...]
    oil_mass: float
    ingress: float
    drawn: float

    def parts(self) -> list[slice]:
        """Return where each layer stands in the state."""
        ends = accumulate((len(cells.widths) for cells in self.layers), initial=0)
        return [slice(start, end) for start, end in pairwise(ends)]

    def state(self, waters: list[float], oil_water: float) -> Vector:
        """Return the state with every layer evenly wet."""
        layers = [
            np.full(len(cells.widths), water)
            for cells, water in zip(self.layers, waters, strict=True)
        ]
        return np.concatenate([*layers, [oil_water, 0.0]])

    def means(self, state: Vector) -> tuple[float, ...]:
        """Return the mean water of each layer [kg/kg dry]."""
        pairs = zip(self.layers, self.parts(), strict=True)
        return tuple(float(np.average(state[part], weights=cells.widths)) for cells, part in pairs)

    def rates(self, state: Vector) -> Vector:
        """Return how fast the state changes [a second]."""
        change = np.zeros_like(state)
        oil_water = float(state[OIL])
        given = self.ingress
        for cells, part in zip(self.layers, self.parts(), strict=True):
            flows = cells.flows(state[part], cells.at_face(oil_water))
            leaving = -flows
            leaving[:-1] += flows[1:]
            change[part] = leaving / cells.widths
            given += cells.mass_per_way * float(flows[0])
        change[REMOVED] = self.drawn * oil_water
        change[OIL] = (given - self.drawn * oil_water) / self.oil_mass
        return change

    def slopes(self, state: Vector) -> Vector:
        """Return the derivatives of `rates`, with diffusion as it stands now."""
        found = np.zeros((len(state), len(state)))
        oil_water = float(state[OIL])
        for cells, part in zip(self.layers, self.parts(), strict=True):
            self._add(found, cells, part, state[part], oil_water)
        found[OIL, OIL] -= self.drawn / self.oil_mass
        found[REMOVED, OIL] = self.drawn
        return found

    def _add(
        self, found: Vector, cells: Cells, part: slice, water: Vector, oil_water: float
    ) -> None:
        ease = cells.conductances(water, cells.at_face(oil_water))
        place = np.arange(part.start, part.stop)
        found[place, place] = -ease / cells.widths
        found[place[:-1], place[:-1]] -= ease[1:] / cells.widths[:-1]
        found[place[:-1], place[1:]] = ease[1:] / cells.widths[:-1]
        found[place[1:], place[:-1]] = ease[1:] / cells.widths[1:]
        steepness = cells.steepness(oil_water)
        to_oil = cells.mass_per_way * float(ease[0]) / self.oil_mass
        found[part.start, OIL] = ease[0] * steepness / cells.widths[0]
        found[OIL, part.start] = to_oil
        found[OIL, OIL] -= to_oil * steepness
