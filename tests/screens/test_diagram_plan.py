"""Tests of where the parts of the line diagram stand, and which part a touch means."""

from itertools import combinations

import pytest

from fieldapp.screens.kit.diagram.diagram_plan import TOUCH, plan_of, touch_area
from fieldapp.screens.kit.diagram.diagram_view import INSTRUMENTS, PARTS, PUMPS
from tests.screens.hookups import SIZES

ROUND = {*INSTRUMENTS, *PUMPS, "supply"}
SYMBOLS = [part for part in PARTS if part not in {"bond", "tray"}]
PLANS = {
    f"{name}, valves at the {place}": plan_of(size[0], size[1], place)
    for name, size in SIZES.items()
    for place in ("tank", "skid")
}


@pytest.fixture(params=PLANS.values(), ids=list(PLANS))
def plan(request):
    return request.param


def overlap(one, other):
    wide = min(one[2], other[2]) - max(one[0], other[0])
    high = min(one[3], other[3]) - max(one[1], other[1])
    return wide > 0.5 and high > 0.5


def test_every_part_has_its_place_inside_the_drawing(plan):
    assert set(plan.boxes) == set(PARTS)
    for left, top, right, bottom in plan.boxes.values():
        assert 0 <= left < right <= plan.width
        assert 0 <= top < bottom <= plan.height


def inner(plan, part):
    """The box of a symbol; of a circle, the part of it that no corner of a box can miss."""
    left, top, right, bottom = plan.boxes[part]
    corner = 0.2 * (right - left) if part in ROUND else 0
    return left + corner, top + corner, right - corner, bottom - corner


def test_no_two_symbols_share_a_place(plan):
    for one, other in combinations(SYMBOLS, 2):
        assert not overlap(inner(plan, one), inner(plan, other)), (one, other)


@pytest.mark.parametrize("part", PARTS)
def test_a_touch_on_the_middle_of_a_part_means_that_part(plan, part):
    assert plan.part_at(*plan.centre(part)) == part


@pytest.mark.parametrize("part", PARTS)
def test_the_touch_area_of_a_part_is_large_enough_for_gloves(plan, part):
    left, top, right, bottom = touch_area(plan.boxes[part])
    assert right - left >= TOUCH
    assert bottom - top >= TOUCH


def test_a_touch_beside_a_part_means_the_nearest(plan):
    x, y = plan.centre("vacuum_gauge")
    right = plan.boxes["vacuum_gauge"][2]
    assert plan.part_at(min(right + 4, plan.width - 1), y) == "vacuum_gauge"
    assert plan.part_at(x, y + 3) == "vacuum_gauge"


def test_a_touch_far_from_every_part_means_none():
    plan = plan_of(692, 372, "tank")
    assert plan.part_at(-80, 186) is None


def test_more_room_makes_the_hoses_longer_and_nothing_else():
    least, roomy = plan_of(692, 372, "tank"), plan_of(792, 372, "tank")
    for hose in ("suction_hose", "return_hose"):
        assert length(roomy.boxes[hose]) == pytest.approx(length(least.boxes[hose]) + 100)
    assert length(roomy.boxes["vessel"]) == pytest.approx(length(least.boxes["vessel"]))


def length(box):
    return box[2] - box[0]


def test_self_closing_valves_stand_on_the_side_the_job_sheet_says():
    at_tank, at_skid = plan_of(692, 372, "tank"), plan_of(692, 372, "skid")
    for run in ("suction", "return"):
        valve, hose = f"{run}_closing_valve", f"{run}_hose"
        assert at_tank.boxes[valve][2] <= at_tank.boxes[hose][0]
        assert at_skid.boxes[valve][0] >= at_skid.boxes[hose][2]
