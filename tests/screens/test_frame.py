"""Plates of the foot stand where they stood on the screen before."""

from itertools import pairwise

import pytest

from fieldapp.screens.frame import foot_places, places_between

WHOLE = ["back", "safe", "report", "people", "open", "next step"]


def places(names, *, main):
    return dict(zip(names, foot_places(1280, names, main=main), strict=True))


@pytest.mark.parametrize(
    "names",
    [
        ["back", "safe"],
        ["back", "safe", "people", "open", "sign"],
        ["back", "safe", "people", "open"],
        ["ask back", "safe", "people", "open", "report"],
        ["back", "safe", "report", "people", "units", "go"],
    ],
)
@pytest.mark.parametrize("main", [True, False])
def test_ways_out_and_the_person_never_move(names, main):
    if names[-1] in ("safe", "open"):
        main = False
    found, whole = places(names, main=main), places(WHOLE, main=True)
    for name in ("back", "safe", "people"):
        if name in found:
            assert found[name] == whole[name]
    lefts = sorted(found.values())
    for one, other in pairwise(lefts):
        assert one[0] + one[2] + 20 <= other[0]
    assert lefts[-1][0] + lefts[-1][2] <= 1256


def test_corners_are_left_free_for_the_content():
    safe, people = places_between(1280, ["safe", "people"])
    assert [safe, people] == [places(WHOLE, main=True)[name] for name in ("safe", "people")]


def test_upright_the_main_plate_fills_the_row():
    *_, sign = foot_places(800, ["back", "safe", "people", "open", "sign"], main=True)
    assert sign[0] + sign[2] == 776
