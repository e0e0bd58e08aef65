"""Tests that the words of the line diagram are all there, apart from each other, and readable."""

from dataclasses import replace
from itertools import combinations
from math import hypot

import pytest

from fieldapp.screens import theme
from fieldapp.screens.kit.diagram.diagram_flag import arms, corners_of, flag_of
from fieldapp.screens.kit.diagram.diagram_plan import plan_of
from fieldapp.screens.kit.diagram.diagram_view import INSTRUMENTS, PARTS, PUMPS
from fieldapp.screens.kit.diagram.diagram_words import words_of
from fieldapp.screens.runtime import register_fonts
from tests.screens.hookups import ALL_CLOSED, EVACUATE, MOMENTS, RUNNING, SIZES
from tests.screens.test_diagram_plan import overlap

PLACES = ("tank", "skid")
# Words may stand on these: inside the vessel, along the bond, in the tray, in the named room.
ROOMY = {"vessel", "bond", "tray", "control_room"}


@pytest.fixture(autouse=True)
def fonts(window):
    register_fonts()


@pytest.fixture(params=SIZES.values(), ids=list(SIZES))
def size(request):
    return request.param


@pytest.fixture(params=PLACES)
def place(request):
    return request.param


@pytest.fixture(params=MOMENTS.values(), ids=list(MOMENTS))
def diagram(request, place):
    return replace(request.param, isolation_at=place)


def boxes(diagram, plan):
    return {word: word.box() for word in words_of(diagram, plan)}


def touches(box, symbol, part):
    if part not in {*INSTRUMENTS, *PUMPS, "supply"}:
        return overlap(box, symbol)
    x, y = (symbol[0] + symbol[2]) / 2, (symbol[1] + symbol[3]) / 2
    aside = max(box[0] - x, 0, x - box[2])
    above = max(box[1] - y, 0, y - box[3])
    return hypot(aside, above) < (symbol[2] - symbol[0]) / 2


def test_no_word_lies_on_another(diagram, size):
    written = boxes(diagram, plan_of(size[0], size[1], diagram.isolation_at))
    for (one, box), (other, other_box) in combinations(written.items(), 2):
        assert not overlap(box, other_box), (one.text, other.text)


def test_every_word_is_inside_and_large_enough(diagram, size):
    for word, (left, top, right, bottom) in boxes(
        diagram, plan_of(size[0], size[1], diagram.isolation_at)
    ).items():
        assert word.size >= theme.LEAST_TEXT
        assert left >= 0, word
        assert top >= 0, word
        assert right <= size[0], word
        assert bottom <= size[1], word


def test_no_word_lies_on_a_symbol(diagram, size):
    plan = plan_of(size[0], size[1], diagram.isolation_at)
    for word, box in boxes(diagram, plan).items():
        for part, symbol in plan.boxes.items():
            gone = part == "vacuum_pump" and diagram.state_of(part) == "absent"
            if part not in ROOMY and not gone:
                assert not touches(box, symbol, part), (word.text, part)


@pytest.mark.parametrize("part", PARTS)
def test_flag_and_angles_hide_no_word_and_stay_inside(size, place, part):
    diagram = replace(ALL_CLOSED, here=part, flag="read here", isolation_at=place)
    plan = plan_of(size[0], size[1], place)
    written = list(boxes(diagram, plan).values())
    frame = corners_of(part, plan, written)
    assert len(arms(frame, plan)) == 8
    flag = flag_of(diagram, plan, written, 111)
    if flag is None:
        assert plan.small
        return
    left, top, right, bottom = flag
    assert left >= 0
    assert top >= 0
    assert right <= size[0]
    assert bottom <= size[1]
    assert not overlap(flag, frame)
    assert not [box for box in written if overlap(flag, box)]


def test_state_of_every_valve_stands_in_words(size):
    plan = plan_of(size[0], size[1], "tank")
    closed = [word for word in words_of(ALL_CLOSED, plan) if word.text == "closed"]
    assert len(closed) == 10


@pytest.mark.parametrize("content", ["air", "vacuum", "oil"])
def test_every_volume_says_what_it_holds(size, content):
    volumes = tuple((name, content) for name in ("suction_hose", "return_hose", "vessel"))
    diagram = replace(ALL_CLOSED, volumes=volumes, parts=())
    said = [word.text for word in words_of(diagram, plan_of(size[0], size[1], "tank"))]
    outlet = content == "air" and size != SIZES["small"]
    assert said.count(content) == 3 + (content == "oil") + outlet


def test_a_missing_vacuum_pump_is_said_to_be_gone(size):
    texts = [word.text for word in words_of(RUNNING, plan_of(size[0], size[1], "tank"))]
    assert "gone" in texts


def test_a_long_name_of_a_unit_is_cut_to_its_plate(size):
    diagram = replace(EVACUATE, unit="TRANSFORMER BANK 12 WEST")
    plan = plan_of(size[0], size[1], "tank")
    name = next(word for word in words_of(diagram, plan) if word.text.endswith("…"))
    assert name.box()[2] < plan.across["tank"]
