"""Colours keep their contrast, words their signs, marks and patterns their shapes."""

import ast
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from kivy.lang import Builder

from fieldapp.screens import runtime, theme
from fieldapp.screens.kit import mark, pattern
from fieldapp.screens.kit.drawn import Drawn
from fieldapp.screens.kit.pipe import JobPipe
from fieldapp.screens.kit.text import Value, Verdict, Words
from tests.screens.findings import findings

SCREENS = Path(theme.__file__).parent
MODULES = [SCREENS / "theme.py", SCREENS / "runtime.py", *sorted((SCREENS / "kit").glob("*.py"))]
SIGNS = "0123456789.,−±≤≥×°Ω→–‘’“”"
# WCAG 2.2, 1.4.6: at least 7 for text. Signal colours after ISO 3864-4 with their own ink.
TEXT_PAIRS = [
    ("ink", "paper", 15), ("ink", "key", 14), ("ink", "wash", 12), ("ink2", "paper", 7),
    ("ink2", "wash", 7), ("paper", "ink", 15), ("here", "paper", 7), ("hereink", "here", 7),
    ("good", "paper", 7), ("goodink", "good", 7), ("stop", "paper", 7), ("stopink", "stop", 7),
    ("cautionink", "caution", 7), ("warningink", "warning", 7), ("rule", "paper", 4.5),
    ("oildash", "oil", 3), ("series1", "paper", 3), ("series2", "paper", 3),
    ("series3", "paper", 3), ("series4", "paper", 3), ("series5", "paper", 3),
]  # fmt: skip


@pytest.mark.parametrize("look", theme.LOOKS, ids=lambda look: look.name)
@pytest.mark.parametrize(("first", "second", "least"), TEXT_PAIRS)
def test_contrast_of_roles(look, first, second, least):
    assert theme.contrast(first, second, look) >= least


def test_contrast_is_that_of_the_standard():
    # WCAG 2.2, definition of contrast ratio: 21 for black on white; 4.54 for 767676 on white is
    # the grey of its understanding pages (value from memory).
    black = theme.Look(**{**_fields(theme.SUN), "ink": "000000", "rule": "767676"})
    assert theme.contrast("ink", "paper", black) == pytest.approx(21)
    assert theme.contrast("rule", "paper", black) == pytest.approx(4.54, abs=0.01)


def _fields(look):
    return {name: getattr(look, name) for name in look.__slots__}


def _strings(module):
    tree = ast.parse(module.read_text("utf-8"))
    sentences = {
        id(node.value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    }
    return [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant)
        and isinstance(node.value, str)
        and id(node) not in sentences
    ]


@pytest.mark.parametrize("weight", ["Regular", "Bold"])
def test_font_has_every_sign_the_kit_writes(weight):
    known = TTFont(runtime.font_file(weight)).getBestCmap()
    written = set(SIGNS).union(*(set(text) for module in MODULES for text in _strings(module)))
    assert {sign for sign in written - {"\n"} if ord(sign) not in known} == set()


def test_drawing_goes_on_after_the_look_has_changed(driver):
    words = driver.show(Words(text="x", ground="paper"), (0, 0, 200, 100))
    assert driver.colour_at(words, 150, 50) == theme.SUN.paper
    theme.switch_look(theme.NIGHT)
    driver.frames()
    assert driver.colour_at(words, 150, 50) == theme.NIGHT.paper


@pytest.mark.parametrize("look", theme.LOOKS, ids=lambda look: look.name)
def test_each_mark_has_a_picture_of_its_own(driver, look):
    theme.switch_look(look)
    pictures = {}
    for kind in mark.WORDS:
        root = Drawn(ground="paper")
        root.add_widget(mark.Mark(kind=kind, place=[0, 0, 60, 60]))
        driver.show(root, (0, 0, 60, 60))
        pictures[driver.picture().crop((0, 0, 60, 60)).tobytes()] = kind
        root.parent.remove_widget(root)
    assert sorted(pictures.values()) == sorted(mark.WORDS)


@pytest.mark.parametrize("name", pattern.TILES)
def test_pattern_repeats_without_a_seam(name):
    width, height = pattern.TILES[name]
    if name in {"vacuum", "outside"}:
        for step in range(24):
            x, y = step / 2, step / 3
            assert pattern.role_at(name, x, y) == pattern.role_at(name, x + width, y + height)
    roles = {
        pattern.role_at(name, x / 2, y / 2) for x in range(2 * width) for y in range(2 * height)
    }
    assert len(roles) == 2


def test_oil_is_drawn_as_dashes_on_its_ground(driver):
    class Oil(Drawn):
        def draw(self, pen):
            pen.pattern("oil", 0, 0, self.wide, self.high)

    oil = driver.show(Oil(), (240, 160, 96, 64))
    assert driver.colour_at(oil, 24 + 5, 16 + 4) == theme.SUN.oildash
    assert driver.colour_at(oil, 24 + 5, 16 + 8) == theme.SUN.oil


@pytest.mark.parametrize(
    "widget",
    [
        lambda: Value(text="0.46", unit="Ω", place=[24, 24, 300, 84]),
        lambda: Value(text="1234567.89", unit="mg/kg", place=[24, 24, 420, 84]),
        lambda: Value(place=[24, 24, 300, 84]),
        lambda: Verdict(kind="near", sentence="It could be 0.52.", place=[24, 24, 500, 40]),
        lambda: Verdict(
            kind="notyet", sentence="Not yet: 1.9 short of 20.1 inHg.",
            second="About 4 min to go (3 to 5).", place=[24, 24, 498, 70],
        ),
        lambda: Verdict(place=[24, 24, 498, 70]),
        lambda: JobPipe(done=3, part=0.6, deviations=[1], place=[24, 24, 236, 30]),
        lambda: JobPipe(lengths=1, part=0.2, expected=[0.5, 0.9], place=[24, 24, 236, 30]),
    ],
)  # fmt: skip
def test_words_on_the_sheet_are_sound(driver, widget):
    root = Drawn(ground="paper")
    root.add_widget(widget())
    driver.show(root)
    assert findings(root) == []


def test_place_counts_from_the_edges(driver):
    root = Drawn()
    far = Words(text="x", place=[-324, -104, 300, 94])
    wide = Words(text="x", place=[24, 90, -24, 44])
    root.add_widget(far)
    root.add_widget(wide)
    driver.show(root)
    assert (far.x, far.top, far.size) == (956, 104, [300, 94])
    assert (wide.x, wide.top, wide.size) == (24, 710, [1232, 44])
    wide.place = [24, 90, 100, 44]
    driver.frames()
    assert wide.size == [100, 44]


def test_widgets_can_be_used_from_kv(driver):
    root = Builder.load_string("""
#:import Plate fieldapp.screens.kit.plate.Plate
#:import Keypad fieldapp.screens.kit.keypad.Keypad
#:import Drawn fieldapp.screens.kit.drawn.Drawn
Drawn:
    ground: 'paper'
    Keypad:
        id: keypad
        place: 546, 258, 710, 418
        on_typed: shown.first = args[1]
    Plate:
        id: shown
        tid: 'shown'
        place: 24, 90, 300, 94
        on_touched: keypad.text = ''
""")
    driver.show(root)
    driver.tap("key 7")
    assert driver.get("shown").first == "7"
    driver.tap("shown")
    assert root.ids.keypad.text == ""
    assert findings(root) == []
