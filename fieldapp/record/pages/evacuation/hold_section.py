"""The hold test: its readings beside their chart, and the leak rate worked out in words."""

from fieldapp.record.chapters.shapes.shapes import Evacuation, HoldAttempt
from fieldapp.record.pages.kit.charts import ABOVE, Chart, number, ticks_to
from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD, lines, printed
from fieldapp.record.pages.kit.marks import mark_of, verdict
from fieldapp.record.pages.kit.paper import INK, PAST, RULE, SECONDARY, TEXT_WIDTH, Paper
from fieldapp.record.pages.kit.volume import Flow, band

TABLE, ROW = 206.0, 12.0
CHART_LEFT, CHART_WIDE, CHART_HIGH = 246.0, 206.0, 84.0
HEADS = ((20.0, "min", ""), (72.0, "read", "hPa"), (112.0, "wall", "°C"),
         (160.0, "corrected", "hPa"), (202.0, "rise", "hPa"))  # fmt: skip
KELVIN = "273.15"


def draw_holds(flow: Flow, evacuation: Evacuation) -> None:
    """Draw each hold test, the last one first and with its chart."""
    for hold in reversed(evacuation.holds):
        _hold(flow, hold, evacuation, last=hold is evacuation.holds[-1])


def _hold(flow: Flow, hold: HoldAttempt, evacuation: Evacuation, *, last: bool) -> None:
    words = _worked_out(hold, evacuation)
    high = max(23 + ROW * len(hold.readings), CHART_HIGH + 44 if last else 0)
    height = high + 14 + 12 + 12 * len(words)
    note = f"{hold.started[11:16]} to {hold.ended[11:16]}, valve to the pump shut"
    title = "Hold test" if len(evacuation.holds) == 1 else f"Hold test, attempt {hold.number}"
    flow.section(title, note, height)
    paper, top = flow.paper, flow.y
    kind = mark_of(hold.judgement.place, standing=last)
    verdict(paper, kind, CHART_LEFT, top - 5, f"leak rate {hold.judgement.words}")
    end = _table(paper, hold, top)
    if last and hold.readings:
        _chart(paper, hold, top + 22)
    flow.y = max(top + high, end) + 6
    _boxed(flow, words)
    if hold.note:
        paper.tag("P")
        paper.text(0, flow.y + 11, "Noted", 7.2, REGULAR, SECONDARY)
        flow.y += 12
        for line in lines(hold.note, 454, 8):
            paper.text(50, flow.y - 1, line, 8)
            flow.y += 10


def _table(paper: Paper, hold: HoldAttempt, top: float) -> float:
    paper.tag("P")
    for x, name, unit in HEADS:
        paper.text(x, top + 9.5, name, 7, SEMIBOLD, SECONDARY, "right")
        paper.text(x, top + 17.5, unit, 7, REGULAR, SECONDARY, "right")
    paper.line(0, top + 21, TABLE, top + 21, 0.25, RULE)
    y = top + 31
    for reading in hold.readings:
        font = SEMIBOLD if reading is hold.readings[-1] else REGULAR
        paper.tag("P")
        paper.text(20, y, reading.minutes, 7.8, font, INK, "right")
        paper.number_to(72, y, reading.pressure, 1, 7.8, font)
        paper.number_to(112, y, reading.temperature, 1, 7.8, font)
        paper.number_to(160, y, reading.corrected, 2, 7.8, font)
        paper.number_to(202, y, reading.rise, 2, 7.8, font)
        y += ROW
    paper.rule(y - 8, TABLE)
    return y - 8


def _chart(paper: Paper, hold: HoldAttempt, top: float) -> None:
    corrected = [(number(r.minutes), number(r.rise)) for r in hold.readings]
    first = number(hold.readings[0].pressure)
    read = [(number(r.minutes), number(r.pressure) - first) for r in hold.readings]
    limit = number(hold.rise_limit) if hold.rise_limit else 0.0
    highest = max(limit * 1.15, *(y for _, y in (*corrected, *read)), 0.1)
    across, up = ticks_to(max(corrected[-1][0], 1)), ticks_to(highest)
    lowest = min(0.0, *(y for _, y in (*corrected, *read)))
    words = f"Chart of the pressure rise against minutes: {hold.rise} hPa at the end, corrected."
    paper.tag("Figure", words)
    chart = Chart(paper, CHART_LEFT, top, CHART_WIDE, CHART_HIGH, (0, across[-1]),
                  (lowest, up[-1]))  # fmt: skip
    chart.axes("Pressure rise, hPa", "minutes from the first reading", across, up)
    if hold.rise_limit:
        chart.limit(limit, f"at most {hold.rise_limit}", ABOVE)
    chart.curve(read, PAST, 0.9, (3, 2))
    chart.rings(read, PAST)
    chart.curve(corrected)
    chart.dots(corrected)
    _spread(chart, hold, corrected[-1])
    _named(chart, read[-1], "as read", PAST, -1 if read[-1][1] >= corrected[-1][1] else 1)
    _named(chart, corrected[-1], "corrected", INK, 1 if read[-1][1] >= corrected[-1][1] else -1)


def _spread(chart: Chart, hold: HoldAttempt, end: tuple[float, float]) -> None:
    if hold.rise_uncertainty:
        spread, x = float(hold.rise_uncertainty), chart.x(end[0])
        chart.paper.line(x, chart.y(end[1] - spread), x, chart.y(end[1] + spread), 1.2, INK)


def _named(chart: Chart, end: tuple[float, float], words: str, colour: str, side: int) -> None:
    """Write a name beside the end of a curve, moved off the other one."""
    y = chart.y(end[1]) + 2.4 + side * 2.6
    chart.paper.text(chart.x(end[0]) + 5, y, words, 7, SEMIBOLD, colour)


def _worked_out(hold: HoldAttempt, evacuation: Evacuation) -> list[tuple[str, str]]:
    """Return the working in sentences, each with its font."""
    if not hold.readings:
        return [("No reading was taken.", REGULAR)]
    sentences = [(_corrected(hold), REGULAR), (_rise(hold), SEMIBOLD),
                 (_leak(hold, evacuation), REGULAR)]  # fmt: skip
    if hold.shape:
        sentences.append((f"By its shape: {hold.shape}.", REGULAR))
    if hold.rise_as_read != hold.rise:
        words = f"As read, the rise is {printed(hold.rise_as_read)} hPa; "
        sentences.append((f"{words}what the wall’s warming makes of it is taken off.", REGULAR))
    return [(sentence, font) for sentence, font in sentences if sentence]


def _corrected(hold: HoldAttempt) -> str:
    first, last = hold.readings[0], hold.readings[-1]
    if not first.temperature or not last.temperature:
        return ""
    return (
        f"end pressure at the first temperature  =  {last.pressure} hPa × "
        f"({first.temperature} + {KELVIN}) K ÷ ({last.temperature} + {KELVIN}) K  =  "
        f"{last.corrected} hPa"
    )


def _rise(hold: HoldAttempt) -> str:
    first, last = hold.readings[0], hold.readings[-1]
    spread = f" ± {hold.rise_uncertainty}" if hold.rise_uncertainty else ""
    allowed = f"   allowed here: {hold.rise_limit} hPa" if hold.rise_limit else ""
    rise = printed(hold.rise)
    return f"rise  =  {last.corrected} − {first.pressure}  =  {rise}{spread} hPa (k = 2){allowed}"


def _leak(hold: HoldAttempt, evacuation: Evacuation) -> str:
    if not hold.leak:
        return ""
    seconds = round(number(hold.readings[-1].minutes) * 60)
    spread = f" ± {hold.leak_uncertainty}" if hold.leak_uncertainty else ""
    litres = f", about {hold.litres_a_day} normal litres a day" if hold.litres_a_day else ""
    return (
        f"leak rate  =  {evacuation.volume} L × {printed(hold.rise)} hPa ÷ {seconds} s  =  "
        f"{printed(hold.leak)}{spread} hPa·L/s{litres};  {hold.judgement.limits} hPa·L/s"
    )


def _boxed(flow: Flow, words: list[tuple[str, str]]) -> None:
    paper, y = flow.paper, flow.y
    high = 12 * len(words) + 6
    band(paper, y, high)
    paper.text(10, y + 12, "Worked out", 7.4, SEMIBOLD)
    for place, (sentence, font) in enumerate(words):
        paper.tag("P")
        paper.text(70, y + 12 + 12 * place, sentence, 7.8, font, room=TEXT_WIDTH - 74)
    flow.y = y + high
