"""The header and the signal strip say where the job is and what can hurt."""

import pytest

from fieldapp.screens import theme
from fieldapp.screens.kit.route import Phase, RouteHeader, named_phases, widths_of
from fieldapp.screens.kit.strip import GROUNDS, SignalStrip, height_for
from tests.screens.findings import false_grounds, findings

TEN = (
    "Arrive", "Ports", "Set up", "Prove dry", "Connect",
    "Evacuate", "Fill", "Prove wet", "Start", "Hand over",
)  # fmt: skip
SENTENCE = "V1 and V2 stay closed. Never pull vacuum on the tank."


def phases(now, deviations=()):
    return [
        Phase(name, "done" if at < now else "now" if at == now else "todo", at in deviations)
        for at, name in enumerate(TEN)
    ]


def header(driver, width, height, now, **properties):
    made = RouteHeader(
        tid="header", unit="TR-7", site="Tolvara Ridge", phases=phases(now), clock="14:32",
        **properties,
    )  # fmt: skip
    return driver.show(made, (0, 0, width, height))


@pytest.mark.parametrize("now", range(10))
def test_ten_phases_have_room_for_all_their_names(driver, now):
    made = header(driver, 1280, theme.HEADER, now)
    assert set(TEN) <= set(driver.texts())
    assert findings(made) == []
    assert made.targets() == ()


@pytest.mark.parametrize("now", range(10))
def test_portrait_names_the_present_phase_and_what_is_next(driver, now):
    made = header(driver, 800, theme.HEADER_PORTRAIT, now)
    assert TEN[now] in driver.texts()
    assert TEN[min(now + 1, 9)] in driver.texts()
    assert findings(made) == []


@pytest.mark.parametrize("width", [560, 748, 926])
def test_phases_fill_the_pipe_exactly(driver, width):
    given = phases(4)
    named = named_phases(given, width)
    assert sum(widths_of(given, named, width)) == pytest.approx(width, abs=1)


def test_present_phase_is_full_as_far_as_it_is_done(driver):
    made = header(driver, 1280, theme.HEADER, 0, part=0.5)
    assert driver.colour_at(made, 212, 50) == theme.SUN.here
    assert driver.colour_at(made, 290, 50) == theme.SUN.paper


def test_time_and_what_is_kept_stand_at_the_right(driver):
    header(driver, 1280, theme.HEADER, 5, kept="all kept")
    assert {"TR-7", "Tolvara Ridge", "14:32", "all kept"} <= set(driver.texts())


@pytest.mark.parametrize("word", GROUNDS)
@pytest.mark.parametrize("look", theme.LOOKS, ids=lambda look: look.name)
def test_signal_strip_can_be_read(driver, word, look):
    theme.switch_look(look)
    strip = driver.show(SignalStrip(tid="strip", word=word, text=SENTENCE), (24, 90, 1232, 44))
    assert driver.texts() == [word, SENTENCE]
    assert findings(strip) == []
    assert list(false_grounds(strip, driver.picture())) == []


def test_long_sentence_takes_two_lines(driver):
    strip = driver.show(SignalStrip(word="WARNING", text=SENTENCE), (24, 90, 752, 76))
    assert height_for("WARNING", SENTENCE, 1232) == theme.STRIP_ONE_LINE
    assert height_for("WARNING", SENTENCE, 752) == theme.STRIP_TWO_LINES
    assert len(strip.texts) == 3
    assert findings(strip) == []


def test_sentence_without_room_is_found(driver):
    strip = driver.show(SignalStrip(word="WARNING", text=SENTENCE), (24, 90, 400, 44))
    assert any("clipped" in finding for finding in findings(strip))


def test_strip_without_a_sentence_is_not_drawn(driver):
    strip = driver.show(SignalStrip(), (24, 90, 400, 44))
    assert strip.texts == ()
    assert height_for("WARNING", "", 400) == 0
    assert driver.colour_at(strip, 20, 20) == theme.SUN.paper


@pytest.mark.parametrize(("width", "height"), [(1280, theme.HEADER), (800, theme.HEADER_PORTRAIT)])
def test_long_names_of_unit_and_site_keep_both_their_ends(driver, width, height):
    made = header(driver, width, height, 5)
    made.unit, made.site = "Auto-transformer 3 North", "Upper Valley on the Hill Substation"
    driver.frames(2)
    assert findings(made) == []
    unit, site = (one for one in driver.texts() if "…" in one)
    assert (unit[:5], unit[-5:]) == ("Auto-", "North")
    assert (site[:5], site[-7:]) == ("Upper", "station")
    assert TEN[5] in driver.texts()
