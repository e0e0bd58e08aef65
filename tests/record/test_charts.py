"""Axes, limits and tracks: a value stands where its number says."""

import io
from itertools import pairwise

import pytest

from fieldapp.record.pages.kit.charts import Chart, ticks_to, track
from fieldapp.record.pages.kit.paper import A4, Paper


@pytest.fixture
def chart():
    return Chart(Paper(io.BytesIO(), A4), 100, 50, 200, 80, (0, 10), (0, 1000))


def test_ends_of_the_axes_are_the_corners(chart):
    assert (chart.x(0), chart.x(10)) == (100, 300)
    assert (chart.y(0), chart.y(1000)) == (130, 50)
    assert chart.y(250) == 110


@pytest.mark.parametrize(
    ("most", "ticks"),
    [
        (843, (0, 200, 400, 600, 800, 1000)),
        (8, (0, 2, 4, 6, 8)),
        (5.5, (0, 1, 2, 3, 4, 5, 6)),
        (30, (0, 5, 10, 15, 20, 25, 30)),
        (0.333, (0, 0.1, 0.2, 0.3, 0.4)),
        (1, (0, 0.2, 0.4, 0.6, 0.8, 1.0)),
        (0, (0, 1)),
    ],
)
def test_ticks_are_round_begin_at_zero_and_reach_the_most(most, ticks):
    assert ticks_to(most) == pytest.approx(ticks)


@pytest.mark.parametrize("most", [0.07, 1.3, 9.99, 10, 61, 349, 1013.25, 19_300])
def test_ticks_are_few_and_evenly_apart(most):
    ticks = ticks_to(most)
    steps = {round(b - a, 9) for a, b in pairwise(ticks)}
    assert len(steps) == 1
    assert ticks[0] == 0
    assert ticks[-1] >= most > ticks[-2]
    assert len(ticks) <= 7


class Tracked(Paper):
    """Notes where a track draws its dot, its square and its bar."""

    def __init__(self):
        super().__init__(io.BytesIO(), A4)
        self.discs, self.boxes = [], []

    def disc(self, x, *_, **__):
        self.discs.append(x)

    def box(self, x, y, wide, *_, **__):
        self.boxes.append((x, x + wide))

    def line(self, *_, **__):
        """Draw nothing."""


@pytest.mark.parametrize(
    ("value", "low", "high"),
    [(2.6, 2.1, None), (0.012, None, 0.5), (230, 207, 253), (-3, None, 0), (0, None, 5)],
)
def test_value_inside_is_a_dot_within_the_bar(value, low, high):
    paper = Tracked()
    track(paper, 0, 0, value, 0, low, high)
    ((begin, end),) = paper.boxes
    (dot,) = paper.discs
    assert 0 <= begin <= dot <= end <= 76


@pytest.mark.parametrize(
    ("value", "low", "high"), [(2.0, 2.1, None), (0.6, None, 0.5), (260, 207, 253), (1, None, 0)]
)
def test_value_outside_is_a_square_beyond_the_bar(value, low, high):
    paper = Tracked()
    track(paper, 0, 0, value, 0.1, low, high)
    (begin, end), (left, right) = paper.boxes
    assert not paper.discs
    middle = (left + right) / 2
    assert not begin <= middle <= end
    assert 0 <= middle <= 76
