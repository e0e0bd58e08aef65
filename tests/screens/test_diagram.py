"""Tests of the line diagram on a real window: what it draws and which part answers a touch."""

from dataclasses import replace
from hashlib import sha256

import pytest

from fieldapp.screens import theme
from fieldapp.screens.kit.diagram.diagram_view import PARTS, Diagram, PartState
from tests.screens.findings import false_grounds, findings
from tests.screens.hookups import EVACUATE, MOMENTS, RUNNING, SIZES


@pytest.fixture
def shown(driver):
    from fieldapp.screens.kit.diagram.diagram import LineDiagram

    def show(diagram, size=SIZES["wide"]):
        widget = LineDiagram(diagram=diagram)
        return driver.show(widget, (24, 142, *size))

    return show


def pixels(driver, diagram, widget):
    widget.diagram = diagram
    driver.frames(2)
    return sha256(driver.picture().tobytes()).hexdigest()


@pytest.mark.parametrize("look", theme.LOOKS, ids=lambda look: look.name)
@pytest.mark.parametrize("size", SIZES.values(), ids=SIZES)
@pytest.mark.parametrize("diagram", MOMENTS.values(), ids=MOMENTS)
def test_every_moment_can_be_read_in_both_looks(shown, driver, window, look, size, diagram):
    theme.switch_look(look)
    window.clearcolor = theme.colour("paper")
    widget = shown(diagram, size)
    assert findings(widget) == []
    assert list(false_grounds(widget, driver.picture())) == []


@pytest.mark.parametrize("size", SIZES.values(), ids=SIZES)
def test_every_change_of_state_changes_the_drawing(shown, driver, size):
    widget = shown(EVACUATE, size)
    before = replace(EVACUATE, here=None, flag="")
    changes = {
        part: replace(before, parts=(*(p for p in before.parts if p.part != part), one))
        for part, one in {
            "suction_tank_valve": PartState("suction_tank_valve", "open"),
            "return_closing_valve": PartState("return_closing_valve", "closed"),
            "bypass_valve": PartState("bypass_valve", "unknown"),
            "vessel_bleed": PartState("vessel_bleed", "open"),
            "oil_pump": PartState("oil_pump", "runs"),
            "vacuum_pump": PartState("vacuum_pump", "absent"),
            "suction_hose": PartState("suction_hose", "absent"),
            "tray": PartState("tray", "wet"),
            "bond": PartState("bond", "absent"),
            "supply": PartState("supply", "off"),
        }.items()
    }
    changes["volume"] = replace(before, volumes=(("vessel", "oil"),))
    changes["trip"] = replace(before, trips=(("air", "failed"),))
    changes["here"] = replace(before, here="tray")
    changes["isolation"] = replace(before, isolation_at="skid")
    seen = {name: pixels(driver, diagram, widget) for name, diagram in changes.items()}
    seen["before"] = pixels(driver, before, widget)
    assert len(set(seen.values())) == len(seen)


def test_the_same_state_draws_the_same_picture(shown, driver):
    widget = shown(EVACUATE)
    first = pixels(driver, EVACUATE, widget)
    pixels(driver, RUNNING, widget)
    assert pixels(driver, EVACUATE, widget) == first


@pytest.mark.parametrize("size", SIZES.values(), ids=SIZES)
def test_a_touch_gives_the_part_under_the_finger(shown, driver, size):
    widget = shown(EVACUATE, size)
    touched = []
    widget.bind(on_part=lambda _, part: touched.append(part))
    for part in PARTS:
        x, y = widget.plan().centre(part)
        driver.tap((widget.x + x, widget.top - y))
    assert touched == list(PARTS)


def test_a_finger_that_slides_to_another_part_touches_none(shown, driver):
    widget = shown(EVACUATE)
    touched = []
    widget.bind(on_part=lambda _, part: touched.append(part))
    ends = [widget.plan().centre(part) for part in ("vacuum_gauge", "return_tank_valve")]
    driver.drag([(widget.x + x, widget.top - y) for x, y in ends])
    assert touched == []


def test_a_touch_outside_the_drawing_is_left_to_others(shown, driver):
    widget = shown(EVACUATE)
    touched = []
    widget.bind(on_part=lambda _, part: touched.append(part))
    driver.tap((widget.right + 20, widget.top - 50))
    assert touched == []


def test_an_empty_diagram_can_be_shown(shown, driver):
    widget = shown(Diagram("T2"))
    assert findings(widget) == []
    assert "10 trips" in driver.texts()
