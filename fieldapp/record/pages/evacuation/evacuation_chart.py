"""The chart of all pump-downs: readings, fitted curves, the limit, and the gauge on the right."""

from math import exp

from fieldapp.record.chapters.shapes.shapes import Evacuation, PumpAttempt
from fieldapp.record.pages.kit.charts import ABOVE, Chart, number, ticks_to
from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD, width
from fieldapp.record.pages.kit.paper import BAD, INK, PAST, SECONDARY, Paper

LEFT, WIDE = 246.0, 228.0
CLEAR_OF_TARGET = 7.0


def draw_pump_downs(paper: Paper, evacuation: Evacuation, top: float, high: float) -> None:
    """Draw the chart with its upper edge at `top`."""
    every = [point for attempt in evacuation.attempts for point in _points(attempt)]
    across, up = ticks_to(max(x for x, _ in every) or 1), ticks_to(max(y for _, y in every))
    paper.tag("Figure", _in_words(evacuation))
    chart = Chart(paper, LEFT, top, WIDE, high, (0, across[-1]), (0, up[-1]))
    chart.axes("Absolute pressure, hPa", "minutes from pump on", across, up)
    _gauge_axis(chart, evacuation)
    for attempt in evacuation.attempts:
        _attempt_in(chart, attempt, last=attempt is evacuation.attempts[-1])
    if evacuation.limit:
        chart.limit(number(evacuation.limit), f"at most {evacuation.limit}", ABOVE)
        y = chart.y(number(evacuation.limit))
        end = LEFT + WIDE
        paper.line(end, y, end + 3, y, 0.8, BAD)
        paper.text(end + 20, y + 2.3, evacuation.gauge_target, 6.8, SEMIBOLD, BAD, "right")
    _labels(chart, evacuation)


def _in_words(evacuation: Evacuation) -> str:
    said = [
        f"attempt {attempt.number} from {attempt.readings[0].pressure} "
        f"to {attempt.readings[-1].pressure} hPa"
        for attempt in evacuation.attempts
        if attempt.readings
    ]
    return f"Chart of absolute pressure against minutes: {'; '.join(said) or 'no reading'}."


def _gauge_axis(chart: Chart, evacuation: Evacuation) -> None:
    """Draw the same quantity as a gauge relative to air shows it, on the right."""
    if not evacuation.station or not evacuation.deepest:
        return
    paper, end = chart.paper, chart.left + chart.wide
    station, deepest = number(evacuation.station), number(evacuation.deepest)
    paper.text(end + 30, chart.top - 6, "gauge, inHg", 7.2, SEMIBOLD, INK, "right")
    paper.line(end, chart.y(station), end, chart.y(0), 0.5, INK)
    limit = chart.y(number(evacuation.limit)) if evacuation.limit else None
    for reading in range(0, int(deepest) + 1, 5):
        y = chart.y(station * (1 - reading / deepest))
        paper.line(end, y, end + 2.5, y, 0.5, INK)
        if limit is None or abs(y - limit) > CLEAR_OF_TARGET:
            paper.text(end + 16, y + 2.3, str(reading), 6.8, REGULAR, SECONDARY, "right")


def _attempt_in(chart: Chart, attempt: PumpAttempt, *, last: bool) -> None:
    colour, dash = (INK, ()) if last else (PAST, (3, 2))
    points = _points(attempt)
    chart.curve(_curve(attempt) or points, colour, 0.9, dash)
    if last:
        chart.dots(points, colour)
    else:
        chart.rings(points, colour)


def _curve(attempt: PumpAttempt) -> list[tuple[float, float]]:
    """Return the fitted curve, drawn smoothly."""
    fit = attempt.fit
    if fit is None or not attempt.readings:
        return []
    start, ultimate, constant = (float(t) for t in (fit.start, fit.ultimate, fit.time_constant))
    end = attempt.readings[-1].seconds
    return [
        (end * i / 6000, ultimate + (start - ultimate) * exp(-end * i / 100 / constant))
        for i in range(101)
    ]


def _labels(chart: Chart, evacuation: Evacuation) -> None:
    """Name the curves: earlier ones above their middle, the last one beside its end."""
    for attempt in evacuation.attempts:
        points = _points(attempt)
        level = f"levels out at {round(float(attempt.fit.ultimate))} hPa" if attempt.fit else ""
        name = f"attempt {attempt.number}"
        if attempt is evacuation.attempts[-1]:
            _beside_the_end(chart, points[-1], name, level)
        else:
            x, y = points[int(len(points) * 0.55)]
            across, down = chart.x(x) + 6, chart.y(y) - 14
            chart.paper.patch(across, down, name, 7.4, SEMIBOLD, PAST)
            chart.paper.patch(across, down + 8.5, level, 7, REGULAR, SECONDARY)


def _beside_the_end(chart: Chart, end: tuple[float, float], name: str, level: str) -> None:
    """Write to the right of a curve's end where there is room, else below its last part."""
    x, y = chart.x(end[0]) + 7, chart.y(end[1]) + 1
    if x + width(name, 7.4, SEMIBOLD) < chart.left + chart.wide:
        after = chart.paper.text(x, y, name, 7.4, SEMIBOLD)
        if after + 5 + width(level, 7) < chart.left + chart.wide:
            chart.paper.text(after + 5, y, level, 7, REGULAR, SECONDARY)
    else:
        below = y + 10 < chart.top + chart.high
        chart.paper.text(x - 9, y + (10 if below else -8), name, 7.4, SEMIBOLD, INK, "right")


def _points(attempt: PumpAttempt) -> list[tuple[float, float]]:
    return [(r.seconds / 60, number(r.pressure)) for r in attempt.readings]
