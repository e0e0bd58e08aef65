"""The keypad holds what was typed, exactly."""

import pytest

from fieldapp.screens.kit.keypad import HEIGHT, LONGEST, MINUS, WIDTH, Keypad, Side, after_key
from tests.screens.findings import findings

PLACE = (546, 258, WIDTH, HEIGHT)


@pytest.mark.parametrize(
    ("keys", "text"),
    [
        ("12.50", "12.50"),
        ("12,50", "12,50"),
        ("007", "007"),
        (".5", ".5"),
        ("1.2.3", "1.23"),
        ("1,2.3", "1,23"),
        ("4<6", "6"),
        ("<", ""),
        ("±5", MINUS + "5"),
        ("5±", MINUS + "5"),
        ("5±±", "5"),
        ("1234567890", "123456789"),
    ],
)
def test_keys_give_text(keys, text):
    typed = ""
    for key in keys:
        typed = after_key(typed, key)
    assert typed == text


def test_longest_text_still_takes_the_sign():
    assert after_key("1" * LONGEST, "±") == MINUS + "1" * LONGEST


@pytest.fixture
def shown(driver):
    def show(**properties):
        typed, sides = [], []
        keypad = Keypad(tid="keypad", **properties)
        keypad.bind(on_typed=lambda _, text: typed.append(text))
        keypad.bind(on_side_touched=lambda _, name: sides.append(name))
        driver.show(keypad, PLACE)
        return keypad, typed, sides

    return show


def test_each_touch_is_told(driver, shown):
    keypad, typed, _ = shown()
    for key in ("1", "2", ".", "5", "0"):
        driver.tap(f"key {key}")
    driver.tap("key <")
    assert typed == ["1", "12", "12.", "12.5", "12.50", "12.5"]
    assert keypad.text == "12.5"


def test_decimal_mark_follows_the_language(driver, shown):
    keypad, _, _ = shown(decimal_mark=",")
    for key in ("1", "2", ",", "5"):
        driver.tap(f"key {key}")
    assert keypad.text == "12,5"
    assert driver.all("key .") == []


def test_key_that_changes_nothing_is_not_told(driver, shown):
    _, typed, _ = shown(text="0.4")
    driver.tap("key .")
    assert typed == []


def test_sign_key_is_there_only_where_a_quantity_may_be_negative(driver, shown):
    keypad, _, _ = shown(text="5")
    assert driver.all("key ±") == []
    keypad.signed = True
    driver.frames()
    driver.tap("key ±")
    assert keypad.text == MINUS + "5"


def test_three_plates_stand_in_the_fifth_column(driver, shown):
    _, _, sides = shown(
        side=[
            Side("cannot", "cannot measure"),
            Side("again", "measure again", kind="main"),
            Side("keep", "keep and say why"),
        ]
    )
    for name in ("cannot", "again", "keep"):
        driver.tap(name)
    assert sides == ["cannot", "again", "keep"]


def test_keep_plate_takes_two_rows(driver, shown):
    keypad, _, sides = shown(signed=True, side=[Side("keep", "Keep", kind="main", rows=2)])
    keep = driver.get("keep")
    assert keep.size == [126, 272]
    assert (keep.x, keep.y) == (keypad.right - 126, keypad.y)
    driver.tap(keep)
    assert sides == ["keep"]


@pytest.mark.parametrize("signed", [False, True])
def test_keypad_is_fit_for_gloves(shown, signed):
    sides = [Side("keep", "Keep", kind="main", rows=2)]
    if not signed:
        sides.insert(0, Side("cannot", "cannot measure"))
    keypad, _, _ = shown(signed=signed, side=sides)
    assert findings(keypad) == []
