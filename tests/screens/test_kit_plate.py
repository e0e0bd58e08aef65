"""Plates answer to a finger at once, once, and only where they may."""

import pytest

from fieldapp.screens import theme
from fieldapp.screens.kit.plate import Plate, fitting
from tests.screens.findings import false_grounds, findings

PLACE = (100, 100, 300, 126)


@pytest.fixture
def touched(driver):
    def show(**properties):
        heard: list[Plate] = []
        plate = Plate(tid="it", first="Keep", second="29.6", **properties)
        plate.bind(on_touched=heard.append)
        driver.show(plate, PLACE)
        return plate, heard

    return show


@pytest.mark.parametrize("kind", ["plain", "held", "main", "warning"])
def test_touch_is_told_once(driver, touched, kind):
    plate, heard = touched(kind=kind)
    driver.tap(plate)
    assert heard == [plate]


def test_waiting_plate_does_not_answer(driver, touched):
    plate, heard = touched(kind="waiting")
    driver.tap(plate)
    assert heard == []


@pytest.mark.parametrize(
    ("kind", "before", "while_pressed"),
    [
        ("plain", "key", "ink"),
        ("held", "ink", "key"),
        ("main", "here", "key"),
        ("warning", "warning", "key"),
        ("waiting", "paper", "paper"),
    ],
)
@pytest.mark.parametrize("look", theme.LOOKS, ids=lambda look: look.name)
def test_plate_is_inverted_while_a_finger_is_on_it(
    driver, touched, look, kind, before, while_pressed
):
    plate, _ = touched(kind=kind)
    theme.switch_look(look)
    driver.frames(2)
    assert driver.colour_at(plate, 10, 63) == theme.hexadecimal(before)
    touch = driver.begin(plate)
    assert driver.colour_at(plate, 10, 63) == theme.hexadecimal(while_pressed)
    driver.wait(3)
    assert driver.colour_at(plate, 10, 63) == theme.hexadecimal(while_pressed)
    driver.end(touch)
    assert driver.colour_at(plate, 10, 63) == theme.hexadecimal(before)


def test_finger_that_slides_off_keeps_nothing(driver, touched):
    _, heard = touched()
    driver.drag([(250, 650), (250, 300), (250, 200)])
    assert heard == []


def test_second_finger_on_a_pressed_plate_is_not_counted(driver, touched):
    plate, heard = touched()
    first, second = driver.begin(plate), driver.begin(plate)
    driver.end(second)
    driver.end(first)
    assert len(heard) == 1


def test_upper_right_corner_is_cut(driver, touched):
    plate, _ = touched(kind="main")
    assert driver.colour_at(plate, 297, 2) == theme.hexadecimal("paper")
    assert driver.colour_at(plate, 2, 2) == theme.hexadecimal("here")


@pytest.mark.parametrize("kind", ["plain", "held", "main", "waiting", "warning"])
@pytest.mark.parametrize("look", theme.LOOKS, ids=lambda look: look.name)
def test_words_of_every_kind_can_be_read(driver, touched, look, kind):
    plate, _ = touched(kind=kind)
    theme.switch_look(look)
    driver.frames(2)
    assert driver.texts() == ["Keep", "29.6"]
    assert findings(plate) == []
    assert list(false_grounds(plate, driver.picture())) == [] or kind == "waiting"


def test_a_little_smaller_is_better_than_one_line_more(driver):
    lines, size, fits = fitting("keep and say why", 24, 98, 110)
    assert (lines, fits) == (["keep and", "say why"], True)
    assert 21 <= size < 24


def test_words_that_never_fit_are_told(driver):
    assert fitting("incomprehensibilities", 26, 100, 80)[2] is False
