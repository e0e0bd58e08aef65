"""Checks of the fonts: outlines, signs and licences."""

import pytest
from fontTools.ttLib import TTFont

from fieldapp.places import assets

FONTS = assets() / "fonts"
PRINTABLE = "".join(map(chr, range(0x20, 0x7F)))
SIGNS = PRINTABLE + "Ω°±−×≤≥→·µ²³½“”‘’–—…\u00a0éñü"
OF_SCREENS = ["B612-Regular.otf", "B612-Bold.otf"]
OF_RECORD = ["SourceSans3-Regular.ttf", "SourceSans3-Semibold.ttf", "SourceSans3-Bold.ttf"]


def missing(font, signs):
    return {sign for sign in signs if ord(sign) not in font.getBestCmap()}


@pytest.mark.parametrize("name", OF_SCREENS)
def test_font_of_the_screens_has_the_signs(name):
    assert not missing(TTFont(FONTS / name), SIGNS)


@pytest.mark.parametrize("name", OF_RECORD)
def test_font_of_the_record_has_the_signs_and_the_narrow_space(name):
    assert not missing(TTFont(FONTS / name), SIGNS + "\u202f")


@pytest.mark.parametrize("name", OF_RECORD)
def test_font_of_the_record_can_be_embedded(name):
    font = TTFont(FONTS / name)
    assert "glyf" in font
    assert font["OS/2"].fsType == 0


@pytest.mark.parametrize("name", OF_SCREENS + OF_RECORD)
def test_all_digits_have_one_width(name):
    font = TTFont(FONTS / name)
    names = font.getBestCmap()
    assert len({font["hmtx"][names[ord(digit)]][0] for digit in "0123456789"}) == 1


@pytest.mark.parametrize("name", OF_SCREENS + OF_RECORD)
def test_licence_lies_beside_the_font(name):
    family = name.partition("-")[0]
    assert "SIL OPEN FONT LICENSE Version 1.1" in (FONTS / f"{family}-OFL.txt").read_text("utf-8")
