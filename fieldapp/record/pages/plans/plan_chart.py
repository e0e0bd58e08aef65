"""The charts of a plan: how near the oil is to shedding water, and how wide its forecasts are."""

from math import floor

from fieldapp.plan.shapes import Figure, Plan, SaturationCurve
from fieldapp.plan.wording import number, range_words, value_words
from fieldapp.record.pages.kit.charts import Chart, ticks_to
from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD, lines, width
from fieldapp.record.pages.kit.paper import (
    ALLOWED,
    FAILED_ROW,
    HAIR,
    INK,
    PAST,
    RULE,
    SECONDARY,
    WHITE,
    Paper,
)

LEFT, WIDE, HIGH = 22.0, 222.0, 128.0
MOST, FULL, NEAR_FULL = 120.0, 100.0, 65.0
WARMEST, LEAST_COLD = 80, -10
BESIDE, BAR_WIDE, BAR_ROW = 276.0, 228.0, 44.0
BARS = (
    ("water", "Water to remove"),
    ("time", "Days of drying"),
    ("cartridges", "Cartridges"),
    ("away", "In service: crew-hours"),
)
OUT_OF_SERVICE = "Out of service: crew-hours"


def draw_saturation(paper: Paper, curve: SaturationCurve, top: float) -> float:
    """Draw the saturation over temperature with its words below; return where they end."""
    cold = curve.free_water
    coldest = min(LEAST_COLD, floor(cold / 10) * 10) if cold is not None else LEAST_COLD
    chart = Chart(paper, LEFT, top, WIDE, HIGH, (coldest, WARMEST), (0, MOST))
    full = chart.y(FULL)
    paper.box(LEFT, top, WIDE, full - top, FAILED_ROW)
    chart.axes("Saturation of this sample’s oil, %", "oil temperature, °C",
               range(coldest, WARMEST + 1, 10), range(0, 101, 20),
               lambda value: number(value, 0))  # fmt: skip
    paper.line(LEFT, full, LEFT + WIDE, full, 0.8, INK)
    words = "free water: hazy, then drops"
    paper.text(LEFT + WIDE - 4, full - 8, words, 7, SEMIBOLD, INK, "right")
    paper.text(LEFT + WIDE - 4, full + 11, "dissolved: clear, however wet the paper", 7, REGULAR,
               SECONDARY, "right")  # fmt: skip
    _lines(chart, curve)
    _sample(chart, curve)
    return _legend(paper, curve, top + HIGH + 30)


def _lines(chart: Chart, curve: SaturationCurve) -> None:
    cold = curve.free_water
    drawn = [(at, share) for at, share in curve.points if share <= FULL]
    if cold is not None:
        drawn = [(cold, FULL), *((at, share) for at, share in drawn if at > cold)]
        foot = chart.top + chart.high
        chart.paper.line(chart.x(cold), chart.y(FULL), chart.x(cold), foot, 0.6, INK, (2, 2))
        chart.paper.patch(chart.x(cold) + 4, foot - 5, f"free water below {number(cold, 0)} °C")
    if len(drawn) > 1:
        chart.curve(drawn)


def _sample(chart: Chart, curve: SaturationCurve) -> None:
    at, share = curve.sample
    shown = (at, min(share, MOST))
    if curve.target is not None:
        chart.rings([curve.target], INK)
    chart.dots([shown], INK, 2.6)
    words = f"sample: {number(share, 1)} % at {number(at, 0)} °C"
    wide = width(words, 7.2, SEMIBOLD)
    most = chart.left + chart.wide - wide - 2
    if share <= NEAR_FULL:
        chart.paper.patch(min(chart.x(at) - 14, most), chart.y(shown[1]) - 9, words)
        return
    beside = chart.x(at) - wide - 8
    chart.paper.patch(beside if beside > chart.left else most, chart.y(NEAR_FULL), words)


def _legend(paper: Paper, curve: SaturationCurve, y: float) -> float:
    seen = "; ".join(f"at {number(at, 0)} °C {looks}" for at, looks in curve.eye)
    words = [f"In a bottle: {seen} (common practice, no source). Curve: {curve.source}."]
    if curve.target is not None:
        at, share = curve.target
        aimed = f"Ring: oil over paper as dry as the target, {number(share, 1)} %"
        words.insert(0, f"{aimed} at {number(at, 0)} °C.")
    for text in words:
        for line in lines(text, WIDE + LEFT, 7):
            paper.text(0, y, line, 7, REGULAR, SECONDARY)
            y += 9
    return y


def draw_forecasts(paper: Paper, plan: Plan, top: float) -> float:
    """Draw each forecast as a bar from its least to its most; return where they end."""
    y = top
    for answer, label in BARS:
        found = next((f for f in plan.answer(answer).figures if f.label == label), None)
        if found is not None and found.high:
            other = None
            if answer == "away":
                other = next(f for f in plan.answer("away").figures if f.label == OUT_OF_SERVICE)
            _bar(paper, y, found, other)
            y += BAR_ROW
    if y == top:
        paper.text(BESIDE, y + 8, "No forecast: see what is not known.", 8, REGULAR, SECONDARY)
        y += 12
    return y


def _bar(paper: Paper, y: float, figure: Figure, other: Figure | None) -> None:
    low, high = figure.low or 0.0, figure.high or 0.0
    most = ticks_to(max(high, other.value if other else 0.0))[-1]

    def at(value: float) -> float:
        return BESIDE + value / most * BAR_WIDE

    paper.text(BESIDE, y, figure.label, 7.6, SEMIBOLD)
    words = f"{value_words(figure)}, {range_words(figure)}"
    paper.text(BESIDE + BAR_WIDE, y, words, 7.6, SEMIBOLD, INK, "right")
    middle = y + 9
    paper.line(BESIDE, middle, BESIDE + BAR_WIDE, middle, 0.4, RULE)
    paper.box(at(low), middle - 3, max(1.5, at(high) - at(low)), 6, ALLOWED, PAST, 0.5)
    paper.disc(at(figure.value), middle, 2.6, INK)
    if other is not None:
        paper.box(at(other.value) - 2.6, middle - 2.6, 5.2, 5.2, WHITE, INK, 0.9)
        words = f"out of service {value_words(other)}"
        paper.text(BESIDE + BAR_WIDE / 2, middle + 10, words, 6.8, REGULAR, SECONDARY, "middle")
    for value, align in ((0.0, "left"), (most, "right")):
        paper.text(at(value), middle + 10, number(value, 0), 6.8, REGULAR, SECONDARY, align)
    paper.line(BESIDE, y + 27, BESIDE + BAR_WIDE, y + 27, 0.25, HAIR)
