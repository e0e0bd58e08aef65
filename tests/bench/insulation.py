"""A year of drying, insulation of three thicknesses, beside scipy on the same equations."""

from pathlib import Path

from fieldapp.engineering.drying.insulation.diffusion import FOSS
from fieldapp.engineering.drying.insulation.layers import dried_insulation
from tests.bench.alternation import in_turn
from tests.bench.row import Row, spread_of
from tests.engineering.insulation_by_scipy import DAY, DRYER, LAYERS, OIL, by_scipy

RUNS = 5
YEAR = [7 * DAY * week for week in range(1, 53)] + [365 * DAY]
CLOSE = 0.005


def year_of_drying(_: Path, __: int) -> Row:
    """365 days of one unit by finite volumes: goal below 200 ms; both must agree at the end."""
    taken: dict[str, float] = {}

    def ours(_: int) -> None:
        taken["ours"] = dried_insulation(LAYERS, OIL, DRYER, FOSS, YEAR)[-1].removed

    def outside(_: int) -> None:
        taken["outside"] = by_scipy(LAYERS, OIL, DRYER, FOSS, YEAR)[-1][2]

    of_ours, of_outside = in_turn(ours, outside, RUNS)
    assert abs(taken["ours"] / taken["outside"] - 1) < CLOSE
    return Row(
        name="365 days of drying by finite volumes (goal below 200 ms)",
        outside_name="scipy.integrate.solve_ivp, BDF, even cells",
        ours=spread_of(of_ours),
        outside=spread_of(of_outside),
        count=RUNS,
    )
