"""Thin, middling and thick insulation drying into one oil that a dryer keeps dry, cell by cell."""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from fieldapp.engineering.drying.insulation.cells import OIL, OIL_SCALE, REMOVED, Cells, Loop
from fieldapp.engineering.drying.insulation.diffusion import DiffusionSet, drying_path
from fieldapp.engineering.drying.insulation.mix import Dryer, Layer, Moment, Oil
from fieldapp.engineering.drying.insulation.stepping import Vector, states_at
from fieldapp.engineering.moisture.paper import (
    COLDEST,
    DRIEST_PAPER,
    HOTTEST,
    WETTEST_OIL,
    WETTEST_PAPER,
)
from fieldapp.engineering.moisture.solubility import Solubility
from fieldapp.engineering.moisture.sorption import FESSLER
from fieldapp.engineering.validity import require

CELLS = 30
GROWTH = 1.15
STEP_TOLERANCE = 2e-4  # of the wettest paper: the course stays within 0.01 % of one followed finely
TENTH_OF_A_GRAM = 1e-4


def dried_insulation(
    layers: Sequence[Layer],
    oil: Oil,
    dryer: Dryer,
    diffusion: DiffusionSet,
    times: Sequence[float],
) -> tuple[Moment, ...]:
    """Return oil and insulation at each of the rising `times` [s].

    Each layer is cut into cells that grow from its face inwards; its face is in balance with the
    oil by Fessler's line at its own temperature, drawn on to nought for drier oil. Finite volumes
    in space (Patankar, Numerical Heat Transfer and Fluid Flow, 1980, chapter 4, value from
    memory). Valid for temperatures 313.15 to 363.15 K 0.005 to 0.04 kg/kg in
    paper and saturation up to 0.20 at first.
    """
    _check(layers, oil, dryer, times)
    cells = tuple(_cells(layer, diffusion, oil.solubility) for layer in layers)
    running = Loop(cells, oil.mass, oil.ingress, dryer.oil_flow * dryer.efficiency)
    standing = Loop(cells, oil.mass, oil.ingress, 0.0)
    before = [time for time in times if time <= dryer.stops]
    after = [time for time in times if time > dryer.stops]
    start = running.state([layer.water for layer in layers], oil.water)
    ends = [*before, dryer.stops] if after else before
    states = _followed(running, start, ends)
    if after:
        at_stop = states.pop()
        states += _followed(standing, at_stop, [time - dryer.stops for time in after])
    return tuple(
        Moment(time, float(state[OIL]), running.means(state), float(state[REMOVED]))
        for time, state in zip(times, states, strict=True)
    )


def _followed(loop: Loop, start: Vector, ends: Sequence[float]) -> list[Vector]:
    tolerances = np.full(len(start), STEP_TOLERANCE * WETTEST_PAPER)
    tolerances[OIL] = STEP_TOLERANCE * OIL_SCALE
    tolerances[REMOVED] = TENTH_OF_A_GRAM
    return list(states_at(ends, start, loop.rates, loop.slopes, tolerances))


def _cells(layer: Layer, diffusion: DiffusionSet, solubility: Solubility) -> Cells:
    path = drying_path(layer.thickness, layer.wetted_faces)
    widths = GROWTH ** np.arange(CELLS, dtype=np.float64)
    widths *= path / float(widths.sum())
    return Cells(
        widths=widths,
        ways=widths / 2 + np.concatenate(([0.0], widths[:-1] / 2)),
        mass_per_way=layer.dry_mass / path,
        saturated=FESSLER.water(1.0, layer.temperature),
        solubility=solubility.at(layer.temperature),
        dry_diffusion=diffusion.dry(layer.temperature),
        slope=diffusion.slope,
    )


def _check(layers: Sequence[Layer], oil: Oil, dryer: Dryer, times: Sequence[float]) -> None:
    require("layers", len(layers), 1, 12)
    for layer in layers:
        require("dry_mass", layer.dry_mass, 0.1, 50_000)
        require("thickness", layer.thickness, 5e-5, 0.2)
        require("temperature", layer.temperature, COLDEST, HOTTEST)
        require("water", layer.water, DRIEST_PAPER, WETTEST_PAPER)
        saturation = oil.water / oil.solubility.at(layer.temperature)
        require("saturation", saturation, 0, WETTEST_OIL)
    require("oil_mass", oil.mass, 1, 300_000)
    require("oil_water", oil.water, 0, 200e-6)
    require("ingress", oil.ingress, 0, 1e-5)
    require("oil_flow", dryer.oil_flow, 0, 5)
    require("efficiency", dryer.efficiency, 0, 1)
    require("stops", dryer.stops, 0, float("inf"))
    for early, late in pairwise([0.0, *times]):
        require("time", late, early, 1e10)
