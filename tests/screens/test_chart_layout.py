"""Tests of the scales of a chart and of the free places for its words."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.screens.kit.chart.chart_layout import (
    cut_at,
    free_place,
    scale_of,
    thinned,
    wash_side,
)
from fieldapp.screens.kit.chart.chart_view import ChartData, hold_chart

RISING = ChartData(time_span=(0, 9), value_span=(0, 27), points=((0, 0),), wash_from=24.9)
FALLING = ChartData(time_span=(0, 9), value_span=(0, 900), points=((0, 843),), wash_from=8)
UPSIDE_DOWN = ChartData(time_span=(0, 9), value_span=(900, 0), points=((0, 843),), wash_from=8)


def test_gauge_readings_rise_on_the_sheet():
    scale = scale_of(RISING, 500, 260, 30)
    assert scale.y(20) < scale.y(5)
    assert scale.x(9) == pytest.approx(497)
    assert scale.x(0) == pytest.approx(44)


def test_a_span_from_high_to_low_puts_the_lowest_on_top():
    scale = scale_of(UPSIDE_DOWN, 500, 260, 30)
    assert scale.y(50) < scale.y(800)


def test_a_value_beyond_the_axis_ends_at_it():
    scale = scale_of(RISING, 500, 260, 30)
    assert scale.y(99) == scale.top
    assert scale.y(-3) == scale.bottom


@pytest.mark.parametrize(
    ("chart", "side"), [(RISING, 27), (FALLING, 0), (UPSIDE_DOWN, 0)], ids=["up", "down", "turned"]
)
def test_the_wash_lies_beyond_what_can_be_reached(chart, side):
    assert wash_side(chart) == side


def test_a_curve_is_cut_where_the_measured_part_ends():
    before, after = cut_at([(0, 0), (10, 10), (20, 30)], 15)
    assert before == [(0, 0), (10, 10), (15, 20)]
    assert after == [(15, 20), (20, 30)]


@pytest.mark.parametrize(
    ("time", "lengths"), [(-5, (0, 2)), (0, (1, 2)), (10, (2, 0)), (99, (2, 0))]
)
def test_a_cut_outside_the_curve_leaves_it_whole(time, lengths):
    assert tuple(map(len, cut_at([(0, 0), (10, 10)], time))) == lengths


@given(st.integers(1, 9000), st.integers(2, 1000))
def test_thinning_keeps_the_ends_and_the_limit(count, most):
    points = [(float(at), 0.0) for at in range(count)]
    kept = thinned(points, most)
    assert len(kept) == min(count, most)
    assert (kept[0], kept[-1]) == (points[0], points[-1])


BOXES = st.tuples(st.floats(0, 300), st.floats(0, 200), st.floats(5, 120), st.floats(5, 120)).map(
    lambda box: (box[0], box[1], box[0] + box[2], box[1] + box[3])
)


@given(st.lists(BOXES, max_size=8))
def test_a_free_place_touches_nothing_and_stays_inside(taken):
    box = free_place((80, 20), (0, 0, 400, 240), taken, (200, 120))
    if box is None:
        return
    assert min(box) >= 0
    assert box[2] <= 400
    assert box[3] <= 240
    for left, top, right, bottom in taken:
        assert box[2] <= left or box[0] >= right or box[3] <= top or box[1] >= bottom


def test_no_place_is_given_where_none_is_free():
    assert free_place((80, 20), (0, 0, 400, 240), [(0, 0, 400, 240)], (0, 0)) is None
    assert free_place((500, 20), (0, 0, 400, 240), [], (0, 0)) is None


def test_a_hold_chart_shows_limit_and_rise():
    chart = hold_chart(
        ((0, 0.0), (10, 1.1), (30, 2.87)),
        limit=5,
        limit_words="limit 5",
        outside_words="outside",
        minutes=30,
        unit="hPa",
    )
    assert chart.value_span[1] > 5
    assert chart.target == chart.wash_from == 5
    assert list(chart.fit[-1]) == pytest.approx([30, 2.87])
    assert [label for _, label in chart.time_ticks] == ["0", "10 min", "20 min", "30 min"]


def test_a_hold_that_fails_has_room_above_its_last_point():
    chart = hold_chart(
        ((0, 0.0), (30, 9.0)),
        limit=5,
        limit_words="limit 5",
        outside_words="outside",
        minutes=30,
        unit="hPa",
    )
    assert chart.value_span[1] > 9
