"""Three layers of insulation in one oil, invented, and the same followed by scipy on even cells."""

import numpy as np
from scipy.integrate import solve_ivp

from fieldapp.engineering.drying.insulation.mix import Dryer, Layer, Oil
from fieldapp.engineering.moisture.solubility import GRIFFIN
from fieldapp.engineering.moisture.sorption import FESSLER

DAY = 86_400.0


def kelvin(celsius):
    return celsius + 273.15


LAYERS = (
    Layer("conductor paper", 500, 0.0005, 1, kelvin(52), 0.03),
    Layer("cylinders", 700, 0.003, 2, kelvin(50), 0.03),
    Layer("rings", 500, 0.02, 2, kelvin(46), 0.028),
)
OIL = Oil(17_000, 20e-6, 1e-9, GRIFFIN)
DRYER = Dryer(0.17, 0.85, 90 * DAY)


def by_scipy(layers, oil, dryer, diffusion, ends, cells=70):
    """Return (oil, layer means, removed) by even cells and an implicit integrator of scipy."""
    halves = [layer.thickness / layer.wetted_faces for layer in layers]

    def rates(time, state):
        drawn = dryer.oil_flow * dryer.efficiency if time <= dryer.stops else 0.0
        waters = state[:-2].reshape(len(layers), cells)
        change, given = np.empty_like(waters), oil.ingress
        for row, (layer, half) in enumerate(zip(layers, halves, strict=True)):
            wet = state[-2] / oil.solubility.at(layer.temperature)
            ends = np.concatenate(([FESSLER.water(wet, layer.temperature)], waters[row]))
            ways = np.full(cells, half / cells)
            ways[0] /= 2
            middle = (ends[1:] + ends[:-1]) / 2
            spread = diffusion.dry(layer.temperature) * np.exp(diffusion.slope * middle)
            flows = np.append(spread * np.diff(ends) / ways, 0.0)
            change[row] = np.diff(flows) / (half / cells)
            given += layer.dry_mass / half * flows[0]
        taken = drawn * state[-2]
        return np.concatenate((change.ravel(), [(given - taken) / oil.mass, taken]))

    start = np.concatenate([np.full(cells, layer.water) for layer in layers] + [[oil.water, 0.0]])
    coupled = np.abs(np.subtract.outer(np.arange(len(start)), np.arange(len(start)))) <= 1
    coupled[-2:], coupled[:, -2:] = True, True
    found, begin = [], 0.0
    for end in ends:
        with np.errstate(over="ignore", invalid="ignore"):  # scipy takes such a step back itself
            run = solve_ivp(
                rates, (begin, end), start, method="BDF", rtol=1e-6, atol=1e-9, jac_sparsity=coupled
            )
        start, begin = run.y[:, -1], end
        means = start[:-2].reshape(len(layers), cells).mean(axis=1)
        found.append((start[-2], means, start[-1]))
    return found
