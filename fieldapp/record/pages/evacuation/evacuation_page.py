"""The evacuation: the target on this site's gauge, each pump-down, and the hold test worked out."""

from fieldapp.record.chapters.shapes.shapes import Evacuation, PumpAttempt, PumpReading
from fieldapp.record.pages.evacuation.evacuation_chart import draw_pump_downs
from fieldapp.record.pages.evacuation.hold_section import draw_holds
from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD, lines, shortened
from fieldapp.record.pages.kit.marks import PAST_OUTSIDE, mark, mark_of, verdict
from fieldapp.record.pages.kit.paper import (
    HAIR,
    INK,
    RULE,
    SECONDARY,
    TARGET_ROW,
    TEXT_WIDTH,
    Paper,
)
from fieldapp.record.pages.kit.volume import Flow, band, section

TABLE, ROW = 206.0, 11.0
SMALLEST_CHART, LARGEST_CHART = 168.0, 203.0
NAME = "evacuation"
NOTE = "Hoses and vessel, against closed tank valves"
CAUTION = (
    "No part of an energised tank is ever put under vacuum: both tank valves stay locked shut."
)
HEADS = ((24.0, "min:s", ""), (74.0, "absolute", "hPa"), (116.0, "gauge", "inHg"),
         (160.0, "fit", "hPa"), (202.0, "off fit", "hPa"))  # fmt: skip
FIT_HEADS = (
    (0, "attempt", "left"),
    (104, "end pressure, hPa", "right"),
    (172, "speed, L/min", "right"),
    (232, "spread, hPa", "right"),
    (256, "it says", "left"),
)
ACROSS_AT_MOST = 11
LEAST = 520.0  # title, target, the chart, the fit and a hold test


def draw_evacuation(flow: Flow) -> None:
    """Draw the evacuation, if there was one."""
    evacuation = flow.volume.content.evacuation
    if evacuation is None:
        return
    of_skid = flow.volume.content.diagram is not None
    flow.chapter("Evacuation", NOTE if of_skid else evacuation.title, NAME, needs=LEAST)
    _outcome(flow.paper, flow.y - 1, evacuation)
    flow.y += 4
    if evacuation.station:
        _target(flow.paper, evacuation, flow.y + 12)
        flow.y += 42
    _pump_down(flow, evacuation)
    _fits(flow, evacuation)
    draw_holds(flow, evacuation)
    for attempt in evacuation.attempts[:-1]:
        _earlier(flow, attempt)
    if of_skid:
        end = flow.paper.text(0, flow.row(18) + 18, "Caution", 7.2, SEMIBOLD)
        flow.paper.text(end + 4, flow.y, CAUTION, 7.2)


def _outcome(paper: Paper, y: float, evacuation: Evacuation) -> None:
    paper.tag("P")
    judged = evacuation.judgement
    words = f"{judged.words}: {evacuation.reached} hPa reached, {judged.limits} hPa."
    if not evacuation.reached:
        words = "No pressure reached has been entered yet."
    words = f"{words[:1].upper()}{words[1:]}"
    end = verdict(paper, mark_of(judged.place), 0, y, words, 9, 9)
    failed = [a for a in evacuation.attempts[:-1] if a.judgement.place in {"outside", "too near"}]
    if failed:
        number = ", ".join(str(attempt.number) for attempt in failed)
        verdict(paper, PAST_OUTSIDE, max(end + 24, 300), y, f"Attempt {number} failed.", 9, 9)


def _target(paper: Paper, evacuation: Evacuation, y: float) -> None:
    """Write how the target on the gauge is worked out from the station pressure."""
    paper.tag("P")
    band(paper, y, 30)
    spread = f"±{evacuation.station_uncertainty}" if evacuation.station_uncertainty else ""
    when = f", {evacuation.station_at[11:16]}" if evacuation.station_at else ""
    parts = (
        (10, f"Station pressure, measured{when}", f"{evacuation.station} hPa", spread),
        (148, "minus: residual allowed", f"{evacuation.residual} hPa",
         evacuation.residual_source),
        (282, "target on this site’s gauge, rounded up",
         f"{evacuation.below_air} hPa = {evacuation.gauge_target} inHg", ""),
        (416, "deepest reading possible", f"{evacuation.deepest} inHg", "here"),
    )  # fmt: skip
    for x, label, value, note in parts:
        paper.text(x, y + 11, label, 7, REGULAR, SECONDARY)
        end = paper.text(x, y + 23, value.replace(" ", "\u00a0"), 9.6, SEMIBOLD)
        paper.text(end + 4, y + 23, shortened(note, 74, 7), 7, REGULAR, SECONDARY)
    paper.text(134, y + 21, "−", 11, SEMIBOLD, SECONDARY)
    paper.text(270, y + 21, "=", 11, SEMIBOLD, SECONDARY)
    paper.line(406, y + 6, 406, y + 24, 0.5, RULE)


def _pump_down(flow: Flow, evacuation: Evacuation) -> None:
    """Draw the last pump-down: its table, and beside it the chart of all of them."""
    last = evacuation.attempts[-1]
    flow.y += 20
    begun = f"{last.started[11:16]} to {last.ended[11:16]}" if last.ended else "still running"
    top, page = flow.y, flow.paper.number
    flow.paper.tag("H2")
    section(flow.paper, top, f"Pump-down, attempt {last.number}", begun, TABLE)
    fits = int((flow.paper.bottom - top - 60) // ROW)
    shown = min(len(last.readings), fits)
    high = min(LARGEST_CHART, max(SMALLEST_CHART, 22 + ROW * shown - 40))
    draw_pump_downs(flow.paper, evacuation, top + 14, high)
    flow.y = top + 5

    def heads(y: float) -> float:
        for x, name, unit in HEADS:
            flow.paper.text(x, y + 9.5, name, 7, SEMIBOLD, SECONDARY, "right")
            flow.paper.text(x, y + 17.5, unit, 7, REGULAR, SECONDARY, "right")
        flow.paper.line(0, y + 21, TABLE, y + 21, 0.25, RULE)
        return y + 23

    flow.heads(heads)
    reached = next((r for r in last.readings if r.inside), None)
    for number, reading in enumerate(last.readings):
        _pump_row(flow, reading, number, first=reading is reached)
    flow.paper.rule(flow.y, TABLE)
    flow.heads(None)
    if reached is not None:
        flow.paper.tag("P")
        words = "Shaded: first reading inside the target, the gauge’s uncertainty taken off."
        flow.paper.text(0, flow.y + 10, words, 7, REGULAR, SECONDARY)
    flow.y += 10
    if flow.paper.number == page:
        flow.y = max(flow.y, top + 14 + high + 22)


def _pump_row(flow: Flow, reading: PumpReading, number: int, *, first: bool) -> None:
    paper, top = flow.paper, flow.row(ROW)
    if first:
        flow.paper.box(0, top, TABLE, ROW, TARGET_ROW)
    font, y = (SEMIBOLD if first else REGULAR), top + 8
    paper.text(24, y, minutes(reading.seconds), 7.8, font, INK, "right")
    paper.number_to(74, y, reading.pressure, 0, 7.8, font)
    paper.number_to(116, y, reading.gauge, 2, 7.8, font)
    paper.number_to(160, y, reading.fit, 1, 7.8, REGULAR, SECONDARY)
    paper.number_to(202, y, signed(reading.off_fit), 1, 7.8, REGULAR, SECONDARY)
    if number % 5 == 4:  # noqa: PLR2004 - a hairline after each five
        paper.line(0, top + ROW, TABLE, top + ROW, 0.25, HAIR)


def minutes(seconds: int) -> str:
    """Return seconds as minutes and seconds.

    >>> minutes(150)
    '2:30'
    """
    return f"{seconds // 60}:{seconds % 60:02d}"


def signed(figure: str) -> str:
    """Return a figure with its sign, zero without.

    >>> signed("0.5"), signed("0.0"), signed("-0.2")
    ('+0.5', '0.0', '-0.2')
    """
    if not figure or figure.startswith("-") or not figure.strip("0."):
        return figure
    return f"+{figure}"


def _fits(flow: Flow, evacuation: Evacuation) -> None:
    fitted = [attempt for attempt in evacuation.attempts if attempt.fit]
    if not fitted:
        return
    note = (
        "P(t) = end pressure + (first pressure − end pressure) × exp(−speed × time ÷ volume); "
        f"free volume {evacuation.volume} L"
    )
    flow.section("What the fit says", note, 22 + 12 * len(fitted))
    paper, y = flow.paper, flow.y
    paper.tag("P")
    for x, name, align in FIT_HEADS:
        paper.text(x, y + 9.5, name, 7, SEMIBOLD, SECONDARY, align)
    y += 21
    for attempt in fitted:
        fit = attempt.fit
        assert fit is not None  # noqa: S101 - chosen by it
        standing = attempt is evacuation.attempts[-1]
        paper.tag("P")
        mark(paper, mark_of(attempt.judgement.place, standing=standing), 3.5, y - 2.6)
        paper.text(11, y, str(attempt.number))
        for x, figure in ((104, fit.ultimate), (172, fit.speed), (232, fit.spread)):
            paper.number_to(x, y, figure, 1)
        for line in lines(fit.sentence, TEXT_WIDTH - 256, 7.8):
            paper.text(256, y, line)
            y += 9.6
        y += 2.4
    paper.rule(y - 8)
    flow.y = y - 8


def _earlier(flow: Flow, attempt: PumpAttempt) -> None:
    """Write an earlier attempt as it was entered, with what was found and done."""
    rows = (len(attempt.readings) + ACROSS_AT_MOST - 1) // ACROSS_AT_MOST
    said = [("Seen", attempt.note)] if attempt.note else []
    said += [("Then", words) for words in attempt.notes]
    note = f"{attempt.started[11:16]} to {attempt.ended[11:16]}, kept as it was entered"
    flow.section(f"Attempt {attempt.number}", note, 28 * rows + 12 * len(said) + 8)
    paper, y = flow.paper, flow.y
    kind = mark_of(attempt.judgement.place, standing=False)
    failed = kind == PAST_OUTSIDE
    words = f"failed: {attempt.judgement.words} hPa" if failed else attempt.judgement.words
    verdict(paper, kind, 250, y - 5, words)
    for begin in range(0, len(attempt.readings), ACROSS_AT_MOST):
        paper.tag("P")
        paper.text(0, y + 11, "min:s", 7, SEMIBOLD, SECONDARY)
        paper.text(0, y + 23, "absolute, hPa", 7, SEMIBOLD, SECONDARY)
        for place, reading in enumerate(attempt.readings[begin : begin + ACROSS_AT_MOST]):
            x = 84 + place * 40
            paper.text(x, y + 11, minutes(reading.seconds), 7.8, REGULAR, SECONDARY, "right")
            paper.number_to(x, y + 23, reading.pressure, 0)
        y += 28
        paper.line(0, y, TEXT_WIDTH, y, 0.25, RULE)
    for label, words in said:
        paper.tag("P")
        paper.text(0, y + 11, label, 7.2, REGULAR, SECONDARY)
        for line in lines(words, 454, 8):
            paper.text(50, y + 11, line, 8)
            y += 12
    paper.rule(y + 4)
    flow.y = y + 4
