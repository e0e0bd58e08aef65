"""The decimal mark on the keys follows the settings, or else the tablet's language."""

import pytest

from fieldapp.screens import theme
from fieldapp.screens.kit.keypad import Keypad
from fieldapp.screens.language import SETTINGS, decimal_mark_of, mark_of_language


# Unicode CLDR, numbers, decimal symbol of the standard number system (values from memory).
@pytest.mark.parametrize(
    ("language", "mark"),
    [
        ("en_US.UTF-8", "."), ("en-GB", "."), ("de_DE.UTF-8", ","), ("de_CH", "."), ("fr_FR", ","),
        ("es_ES", ","), ("es_MX", "."), ("pt_BR", ","), ("pl", ","), ("zh_CN", "."), ("ja_JP", "."),
        ("sv_SE@euro", ","), ("C", "."), ("POSIX", "."), ("", "."),
    ],
)  # fmt: skip
def test_mark_belongs_to_the_language(language, mark):
    assert mark_of_language(language) == mark


@pytest.mark.parametrize(
    ("settings", "environment", "mark"),
    [
        (None, {"LANG": "de_DE.UTF-8"}, ","),
        (None, {"LANG": "de_DE.UTF-8", "LC_ALL": "en_GB.UTF-8"}, "."),
        (None, {}, "."),
        ('decimal_mark = ","', {"LANG": "en_GB"}, ","),
        ('language = "fr_FR"', {"LANG": "en_GB"}, ","),
        ('language = "fr_FR"\ndecimal_mark = "."', {}, "."),
        ("decimal_mark = 3", {"LANG": "de_DE"}, ","),
        ("no settings at all", {"LANG": "de_DE"}, ","),
    ],
    ids=["language", "order", "nothing", "mark", "other language", "mark first", "odd", "no TOML"],
)
def test_settings_come_before_the_tablet_s_language(tmp_path, settings, environment, mark):
    if settings is not None:
        (tmp_path / SETTINGS).write_text(settings, encoding="utf-8")
    assert decimal_mark_of(tmp_path, environment) == mark


def test_key_shows_the_mark_and_types_it(driver):
    theme.switch_decimal_mark(",")
    try:
        keypad = driver.show(Keypad(), (546, 258, 710, 418))
        driver.tap("key 1")
        driver.tap("key ,")
        driver.tap("key 5")
        assert keypad.text == "1,5"
        assert driver.all("key .") == []
    finally:
        theme.switch_decimal_mark(".")
