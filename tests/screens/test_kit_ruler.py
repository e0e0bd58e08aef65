"""The limit ruler puts a reading on the right side of each wall."""

from itertools import pairwise

import pytest

from fieldapp.screens import theme
from fieldapp.screens.kit.ruler import HEIGHT, LimitRuler
from fieldapp.screens.kit.scale import place, zones
from tests.screens.findings import findings

UPPER = (None, 0.50, 0.06)
LOWER = (20.1, None, 0.3)
BOTH = (240.0, 260.0, 4.0)
EXACT = (None, 5.0, 0.0)
TIGHT = (10.0, 12.0, 3.0)
RULERS = {"upper": UPPER, "lower": LOWER, "both": BOTH, "no guard": EXACT, "all guard": TIGHT}


def kind_at(share, ruler):
    done = 0.0
    for zone in ruler:
        done += zone.share
        if share < done:
            return zone.kind
    return ruler[-1].kind


@pytest.mark.parametrize("ruler", RULERS)
def test_zones_fill_the_ruler_without_a_gap(ruler):
    made = zones(*RULERS[ruler])
    assert sum(zone.share for zone in made) == pytest.approx(1)
    assert all(a.high == pytest.approx(b.low) for a, b in pairwise(made))


@pytest.mark.parametrize(
    ("ruler", "reading", "kind"),
    [
        (UPPER, 0.0, "inside"),
        (UPPER, 0.43, "inside"),
        (UPPER, 0.46, "near"),
        (UPPER, 0.51, "outside"),
        (UPPER, 9.0, "outside"),
        (LOWER, 18.2, "outside"),
        (LOWER, 20.3, "near"),
        (LOWER, 20.5, "inside"),
        (LOWER, 30.0, "inside"),
        (BOTH, 239.0, "outside"),
        (BOTH, 241.0, "near"),
        (BOTH, 250.0, "inside"),
        (BOTH, 259.0, "near"),
        (BOTH, 261.0, "outside"),
        (EXACT, 4.9, "inside"),
        (EXACT, 5.1, "outside"),
        (TIGHT, 11.5, "near"),
    ],
)
def test_reading_stands_in_its_zone(ruler, reading, kind):
    made = zones(*ruler)
    assert kind_at(place(reading, made), made) == kind


@pytest.mark.parametrize("ruler", RULERS)
def test_greater_reading_stands_further_right(ruler):
    made = zones(*RULERS[ruler])
    low, high = made[0].low, made[-1].high
    places = [place(low + (high - low) * step / 50, made) for step in range(51)]
    assert places == sorted(places)
    assert places[0] == 0
    assert places[-1] == pytest.approx(1)


def test_no_limit_has_no_ruler(driver):
    ruler = driver.show(LimitRuler(), (24, 24, 416, HEIGHT))
    assert zones(None, None, 0.1) == ()
    assert ruler.texts == ()


def shown(driver, **properties):
    return driver.show(LimitRuler(tid="ruler", **properties), (24, 24, 416, HEIGHT))


@pytest.mark.parametrize("look", theme.LOOKS, ids=lambda look: look.name)
def test_ruler_says_inside_too_near_and_outside(driver, look):
    theme.switch_look(look)
    ruler = shown(
        driver, upper=0.5, guard=0.06, upper_text="0.50", upper_guard_text="0.44",
        reading=0.46, uncertainty=0.06,
    )  # fmt: skip
    assert sorted(driver.texts()) == ["0.44", "0.50", "inside", "outside", "too near"]
    assert findings(ruler) == []
    assert driver.colour_at(ruler, place(0.46, zones(*UPPER)) * 416, 36) == look.here
    assert driver.colour_at(ruler, 0, 43) == look.ink
    assert driver.colour_at(ruler, 250, 34) == look.caution


def test_wall_stands_at_the_limit(driver):
    ruler = shown(driver, upper=0.5, guard=0.06)
    wall = place(0.5, zones(*UPPER)) * 416
    assert [driver.colour_at(ruler, wall + step, 27) for step in (-8, 0, 8)] == [
        theme.SUN.paper, theme.SUN.ink, theme.SUN.paper,
    ]  # fmt: skip


def test_ruler_with_two_limits_can_be_read(driver):
    ruler = shown(
        driver, lower=240, upper=260, guard=4, lower_text="240", upper_text="260",
        lower_guard_text="244", upper_guard_text="256", reading=258, uncertainty=3,
    )  # fmt: skip
    assert findings(ruler) == []
    assert {"240", "244", "256", "260"} <= set(driver.texts())


def test_figures_without_room_leave_the_limits_alone(driver):
    ruler = shown(
        driver, lower=1013.25, upper=1013.85, guard=0.3, lower_text="1013.25 hPa",
        upper_text="1013.85 hPa", lower_guard_text="1013.55", upper_guard_text="1013.55",
    )  # fmt: skip
    assert findings(ruler) == []
    assert {"1013.25 hPa", "1013.85 hPa"} <= set(driver.texts())
    assert "1013.55" not in driver.texts()


@pytest.mark.parametrize(("reading", "x"), [(-5.0, 12), (99.0, 404)])
def test_reading_beyond_the_ruler_points_past_its_end(driver, reading, x):
    ruler = shown(driver, upper=0.5, guard=0.06, reading=reading, uncertainty=0.06)
    assert driver.colour_at(ruler, x, 43) == theme.SUN.here
