"""Tests of the chart on a real window, with the invented pull-downs of the demo."""

from dataclasses import replace
from hashlib import sha256
from math import exp

import pytest

from fieldapp.screens import theme
from fieldapp.screens.kit.chart.chart_view import ChartData, hold_chart
from tests.screens.findings import false_grounds, findings

FIRST = ((0, 843), (0.5, 708), (1, 602), (1.5, 520), (2, 456), (3, 368), (4, 314), (5, 281))
SECOND = ((0, 843), (0.5, 658), (1, 515), (1.5, 403), (2, 315), (2.5, 247))
STATION = 843.2
# One conventional inch of mercury in hPa: NIST SP 811 (2008), appendix B.8; value from memory.
INCH = 33.8639


def inches(pressure):
    return (STATION - pressure) / INCH


def fitted(time):
    return 8.2 + (843 - 8.2) * exp(-time / 2)


def gauge(points):
    return tuple((time, max(0.0, inches(pressure))) for time, pressure in points)


DIAL = ChartData(
    time_span=(0, 9),
    value_span=(0, 27.2),
    time_ticks=tuple((time, f"12:{35 + time}") for time in range(0, 9, 2)),
    value_ticks=((0, "0"), (5, "5"), (10, "10"), (15, "15")),
    points=gauge(SECOND),
    fit=tuple((at / 10, inches(fitted(at / 10))) for at in range(100)),
    history=(gauge(FIRST),),
    history_words="first try",
    target=20.0,
    target_words="target 20.0",
    target_label="20.0",
    wash_from=24.9,
    wash_words="24.9 is all this site can give",
    expected=(3.1, 3.3, 3.6),
    expected_words="12:38 to 12:39",
    value_text="17.6",
    unit="inHg",
    value_beside="= 247 hPa absolute",
)
DIGITAL = replace(
    DIAL,
    value_span=(0, 900),
    value_ticks=tuple((value, str(value)) for value in range(0, 900, 200)),
    points=SECOND,
    fit=tuple((at / 10, fitted(at / 10)) for at in range(100)),
    history=(FIRST,),
    target=164.7,
    target_words="target 164.7",
    target_label="164",
    wash_from=8,
    wash_words="",
    value_text="247",
    unit="hPa",
    value_beside="= 17.6 inHg",
)
HOLD = hold_chart(
    ((0, 0.0), (10, 1.1), (20, 2.0), (30, 2.87)),
    limit=5,
    limit_words="limit 5 hPa in 30 min",
    outside_words="outside",
    minutes=30,
    unit="hPa",
    value_text="2.87",
    value_beside="rise, corrected",
)
START = replace(DIAL, points=DIAL.points[:1], fit=(), history=(), expected=None, value_text="0.0")
CHARTS = {"dial": DIAL, "digital": DIGITAL, "hold": HOLD, "start": START}
SIZES = {"landscape": (512, 262), "portrait": (474, 176), "large": (700, 330)}


@pytest.fixture
def shown(driver):
    from fieldapp.screens.kit.chart.chart import Chart

    def show(chart, size=SIZES["landscape"]):
        return driver.show(Chart(chart=chart), (400, 182, *size))

    return show


@pytest.mark.parametrize("look", theme.LOOKS, ids=lambda look: look.name)
@pytest.mark.parametrize("size", SIZES.values(), ids=SIZES)
@pytest.mark.parametrize("chart", CHARTS.values(), ids=CHARTS)
def test_every_chart_can_be_read_in_both_looks(shown, driver, window, look, size, chart):
    theme.switch_look(look)
    window.clearcolor = theme.colour("paper")
    widget = shown(chart, size)
    assert findings(widget) == []
    assert list(false_grounds(widget, driver.picture())) == []


@pytest.mark.parametrize("chart", CHARTS.values(), ids=CHARTS)
def test_the_words_of_a_chart_are_all_there(shown, driver, chart):
    shown(chart)
    said = driver.texts()
    words = [chart.target_words, chart.value_text, chart.unit, chart.value_beside]
    words += [chart.wash_words]
    words += [chart.expected_words] if chart.expected else []
    words += [chart.history_words] if chart.history else []
    assert [word for word in words if word and word not in said] == []


def test_a_low_chart_leaves_the_value_to_stand_beside_it(shown, driver):
    shown(DIAL, SIZES["portrait"])
    assert "17.6" not in driver.texts()
    assert "20.0" in driver.texts()


@pytest.mark.parametrize(
    "change",
    [
        {"points": DIAL.points[:-1]},
        {"fit": ()},
        {"history": ()},
        {"target": 22.0},
        {"wash_from": None},
        {"expected": None},
        {"value_text": "17.4"},
    ],
    ids=lambda change: next(iter(change)),
)
def test_every_part_of_a_chart_is_seen(shown, driver, change):
    widget = shown(DIAL)
    before = sha256(driver.picture().tobytes()).hexdigest()
    widget.chart = replace(DIAL, **change)
    driver.frames(2)
    assert sha256(driver.picture().tobytes()).hexdigest() != before


def test_ten_thousand_points_are_drawn_in_lines_of_under_four_thousand(shown, driver):
    points = tuple((at / 1200, 10 + (at % 7) / 10) for at in range(10_000))
    widget = shown(replace(DIAL, points=points, fit=points, history=(points,)))
    lines = [
        instruction.points
        for instruction in walk(widget.canvas.before)
        if getattr(instruction, "points", None)
    ]
    assert lines
    assert max(len(line) // 2 for line in lines) < 4000


def walk(group):
    for child in group.children:
        yield child
        if hasattr(child, "children"):
            yield from walk(child)


def test_the_last_reading_is_a_filled_disc_on_its_place(shown, driver):
    widget = shown(DIAL)
    x, y = widget.scale().place(DIAL.points[-1])
    assert driver.colour_at(widget, x, y) == theme.hexadecimal("ink")
    x, y = widget.scale().place(DIAL.points[2])
    assert driver.colour_at(widget, x, y) == theme.hexadecimal("paper")
