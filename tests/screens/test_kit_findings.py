"""The walk over a screen finds each kind of fault, and none on a sound screen."""

from collections.abc import Callable

import pytest
from kivy.uix.label import Label
from kivy.uix.widget import Widget

from fieldapp.screens import theme
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.plate import Plate
from fieldapp.screens.kit.text import Words
from tests.screens.findings import false_grounds, findings


def sheet(*children):
    made = Drawn(ground="paper")
    for child, place in children:
        child.place = list(place)
        made.add_widget(child)
    return made


def plate(name, **properties):
    return Plate(tid=name, first=name, **properties)


FAULTS: dict[str, tuple[Callable[[], list[tuple[Widget, tuple[int, ...]]]], str]] = {
    "small target": (
        lambda: [(plate("low"), (24, 24, 200, 80))],
        "low: target 200 x 80, at least 94",
    ),
    "hidden plate": (
        lambda: [(plate("a"), (24, 24, 200, 94)), (plate("b", kind="waiting"), (24, 100, 200, 94))],
        "a lies over b",
    ),
    "small key": (
        lambda: [(plate("7", least=theme.KEY), (24, 24, 100, 126))],
        "7: target 100 x 126, at least 126",
    ),
    "narrow gap": (
        lambda: [(plate("a"), (24, 24, 100, 94)), (plate("b"), (134, 24, 100, 94))],
        "a and b: gap 10, at least 19",
    ),
    "overlap": (
        lambda: [(plate("a"), (24, 24, 100, 94)), (plate("b"), (100, 24, 100, 94))],
        "a and b: overlap, at least 19",
    ),
    "target off the window": (
        lambda: [(plate("far"), (1230, 24, 100, 94))],
        "far: target off the window",
    ),
    "small text": (
        lambda: [(Words(tid="w", text="tiny", letter=18), (24, 24, 200, 40))],
        "w: “tiny” is 18, at least 21",
    ),
    "weak contrast": (
        lambda: [(Words(tid="w", text="pale", ink="rule"), (24, 24, 200, 40))],
        "w: “pale” contrast 4.5, at least 7.0",
    ),
    "clipped words": (
        lambda: [(Words(tid="w", text="unbreakable"), (24, 24, 60, 40))],
        "w: “unbreakable” is clipped: it needs more room",
    ),
    "too many lines": (
        lambda: [(Words(tid="w", text="one two three four"), (24, 24, 80, 40))],
        "w: “one” is clipped: it needs more room",
    ),
    "clipped plate": (
        lambda: [(plate("incomprehensibilities"), (24, 24, 120, 94))],
        "incomprehensibilities: “incomprehensibilities” is clipped: it needs more room",
    ),
    "text off the window": (
        lambda: [(Words(tid="w", text="gone"), (1250, 24, 200, 40))],
        "w: “gone” is off the window",
    ),
    "text over text": (
        lambda: [(Words(text="one"), (24, 24, 90, 40)), (Words(text="two"), (34, 30, 90, 40))],
        "“one” lies over “two”",
    ),
    "small label": (
        lambda: [(Label(text="x", font_size=15), ())],
        "Label: letters of 15.0, at least 21",
    ),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_fault_is_found(driver, fault):
    made, sentence = FAULTS[fault]
    root = driver.show(sheet(*made()))
    assert sentence in findings(root)


def test_sound_screen_has_no_findings(driver):
    root = driver.show(
        sheet(
            (Words(text="Measure the bond", bold=True, letter=30), (24, 24, 500, 40)),
            (plate("Back"), (24, 696, 180, 94)),
            (plate("Next", kind="main", least=theme.KEY), (956, 664, 300, 126)),
        )
    )
    assert findings(root) == []


def test_waiting_plate_is_no_target(driver):
    root = driver.show(sheet((plate("later", kind="waiting"), (24, 24, 80, 60))))
    assert findings(root) == []


def test_hidden_plate_is_not_judged(driver):
    root = driver.show(sheet((plate("low", opacity=0), (24, 24, 200, 40))))
    assert findings(root) == []


def test_wrong_ground_is_found_in_the_pixels(driver):
    root = driver.show(sheet((Words(tid="w", text="dark", on="ink", ink="paper"), (9, 9, 99, 40))))
    assert list(false_grounds(root, driver.picture())) == ["w: “dark” does not lie on ink"]
