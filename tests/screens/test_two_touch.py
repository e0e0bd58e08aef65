"""Tests of the two-touch strip under real touches."""

from decimal import Decimal

import pytest

from fieldapp.screens import theme
from fieldapp.screens.kit.chart.two_touch_keys import keys_for
from tests.screens.findings import false_grounds, findings

DIAL = keys_for(Decimal("18.3"), Decimal("0.2"))
DIGITAL = keys_for(Decimal("247.3"), Decimal("0.1"))
WIDTHS = {"landscape": 1232, "portrait": 752}


@pytest.fixture
def shown(driver):
    from fieldapp.screens.kit.chart.two_touch import HEIGHT, HEIGHT_TWO_ROWS, TwoTouchStrip

    def show(keys, unit="inHg", width=1232):
        strip = TwoTouchStrip(keys=keys, unit=unit)
        high = HEIGHT if width == 1232 else HEIGHT_TWO_ROWS
        strip.heard = []
        strip.bind(on_reading=lambda _, text: strip.heard.append(text))
        strip.bind(on_other=lambda _: strip.heard.append("other"))
        return driver.show(strip, (24, 300, width, high))

    return show


@pytest.mark.parametrize("look", theme.LOOKS, ids=lambda look: look.name)
@pytest.mark.parametrize("width", WIDTHS.values(), ids=WIDTHS)
@pytest.mark.parametrize("keys", [DIAL, DIGITAL], ids=["dial", "digital"])
@pytest.mark.parametrize("held", [-1, 1])
def test_strip_can_be_touched_and_read(shown, driver, window, look, width, keys, held):
    theme.switch_look(look)
    window.clearcolor = theme.colour("paper")
    strip = shown(keys, "hPa", width)
    strip.held = held
    driver.frames(3)
    assert findings(strip) == []
    assert list(false_grounds(strip, driver.picture())) == []


def test_the_second_touch_gives_the_reading(shown, driver):
    strip = shown(DIAL)
    driver.tap("about 1")
    assert strip.heard == []
    driver.tap("exactly 1")
    assert strip.heard == ["18.2"]
    assert strip.held == -1


def test_the_first_key_stays_held_and_another_changes_it(shown, driver):
    strip = shown(DIAL)
    driver.tap("about 1")
    assert driver.get("about 1").kind == "held"
    driver.tap("about 2")
    assert driver.get("about 1").kind == "plain"
    driver.tap("exactly 4")
    assert strip.heard == ["19.8"]


def test_the_second_keys_wait_for_the_first(shown, driver):
    strip = shown(DIAL)
    driver.tap("exactly 2")
    assert strip.heard == []
    assert driver.get("exactly 2").kind == "waiting"


def test_a_digital_gauge_shows_the_whole_reading_on_the_second_key(shown, driver):
    strip = shown(DIGITAL, "hPa")
    driver.tap("about 1")
    assert driver.get("exactly 3").first == "247.3"
    driver.tap("exactly 3")
    assert strip.heard == ["247.3"]


def test_new_keys_let_go_of_the_held_one(shown, driver):
    strip = shown(DIAL)
    driver.tap("about 0")
    strip.keys = keys_for(Decimal("19.1"), Decimal("0.2"))
    driver.frames(3)
    assert strip.held == -1
    assert driver.get("about 0").first == "18"


def test_another_value_is_asked_for_in_portrait(shown, driver):
    strip = shown(DIAL, width=752)
    driver.tap("other value")
    assert strip.heard == ["other"]


def test_labels_say_what_each_touch_does(shown, driver):
    shown(DIAL)
    assert "whole inHg" in driver.texts()
    assert "tenths: this touch keeps the reading" in driver.texts()
