"""Every entry by phase and step, corrections and deviations in their place."""

from fieldapp.record.chapters.shapes.shapes import (
    Correction,
    Deviation,
    PhaseRows,
    Row,
    StepRows,
)
from fieldapp.record.pages.kit.lettering import (
    REGULAR,
    SEMIBOLD,
    lines,
    printable,
    printed,
    width,
)
from fieldapp.record.pages.kit.marks import mark_of, verdict
from fieldapp.record.pages.kit.paper import (
    HAIR,
    INK,
    SECONDARY,
    TEXT_WIDTH,
    Paper,
)
from fieldapp.record.pages.kit.volume import Flow, band
from fieldapp.record.pages.readings_table import draw_readings

ROW, MORE = 10.8, 8.8
TIME, LABEL, MARK_BAR = 0.0, 34.0, -6.0
POINT, UNIT, LIMITS, VERDICT = 252.0, 277.0, 314.0, 400.0
LABEL_ROOM, LIMIT_ROOM, VERDICT_ROOM = 178.0, 82.0, 77.0
INDENT = 44.0
SMALL = 7.4
NAME = "entries"
NOTE = "in the order of the checklist; a bar at the left edge: corrected later; outline: made again"
LEAST_AFTER_TITLE = 2 * ROW


def draw_entries(flow: Flow) -> None:
    """Draw the entries."""
    flow.chapter("Entries by phase", NOTE, NAME)
    flow.heads(lambda y: _heads(flow.paper, y))
    for phase in flow.volume.content.phases:
        _phase(flow, phase)
    flow.paper.rule(flow.y)
    flow.heads(None)
    _key(flow)


def _heads(paper: Paper, y: float) -> float:
    for x, name, align in ((TIME, "time", "left"), (LABEL, "step and entry", "left"),
                           (POINT + 8, "value", "right"), (UNIT, "unit", "left"),
                           (LIMITS, "limits", "left"), (VERDICT, "verdict", "left"),
                           (TEXT_WIDTH, "by", "right")):  # fmt: skip
        paper.text(x, y, name, 7, SEMIBOLD, SECONDARY, align)
    paper.rule(y + 4)
    return y + 4


def _phase(flow: Flow, phase: PhaseRows) -> None:
    needed = [step for step in phase.steps if step.rows]
    flow.need(4 + 12 + LEAST_AFTER_TITLE)
    flow.y += 4
    top, paper = flow.row(12, "H2"), flow.paper
    band(paper, top, 12)
    end = paper.text(4, top + 8.8, phase.title, 8.2, SEMIBOLD)
    paper.text(end + 8, top + 8.8, _day(phase), 7.4, REGULAR, SECONDARY)
    paper.text(TEXT_WIDTH - 4, top + 8.8, phase.status, 7.4, REGULAR, SECONDARY, "right")
    for step in needed:
        _step(flow, step, _day(phase))
    for step in phase.steps:
        if not step.rows:
            _not_needed(flow, step)


def _day(phase: PhaseRows) -> str:
    """Return the first day on which something of the phase was entered."""
    days = [row.at[:10] for step in phase.steps for row in step.rows if row.at]
    return min(days, default="")


def _step(flow: Flow, step: StepRows, day: str) -> None:
    first = step.rows[0]
    flow.need(ROW + _height(first))
    paper = flow.paper
    top = flow.row(ROW)
    paper.line(0, top, TEXT_WIDTH, top, 0.25, HAIR)
    words = step.title if not step.why else f"{step.title}: {step.why}"
    for place, line in enumerate(lines(words, TEXT_WIDTH - LABEL, SMALL, SEMIBOLD)):
        y = (top if not place else flow.more(MORE)) + 8.2
        paper.text(LABEL, y, line, SMALL, SEMIBOLD, SECONDARY)
    for row in step.rows:
        _row(flow, row, day)


def _not_needed(flow: Flow, step: StepRows) -> None:
    top = flow.row(ROW)
    flow.paper.line(0, top, TEXT_WIDTH, top, 0.25, HAIR)
    flow.paper.text(LABEL, top + 8.2, step.title, SMALL, REGULAR, SECONDARY, room=POINT - LABEL)
    verdict(flow.paper, "dash", VERDICT, top + 8.2, "not needed here", 7.6, 6.4)


def _beside(row: Row) -> bool:
    """Say whether the value stands in its column, or has lines of its own."""
    if _is_number(row.value):
        return True
    label = width(printable(row.label), 7.8)
    value = width(printable(row.value), 7.8, SEMIBOLD)
    return LABEL + min(label, LABEL_ROOM) + 10 + value <= POINT + 16


def _is_number(value: str) -> bool:
    return (value[:1].isdigit() and value.replace(".", "").replace(",", "").isdigit()) or (
        value[:1] in "-\u2212+" and value[1:2].isdigit()
    )


def _label_lines(row: Row) -> tuple[str, ...]:
    room = LABEL_ROOM if row.value and _beside(row) else POINT + 16 - LABEL
    return lines(row.label, room, 7.8)


def _value_lines(row: Row) -> tuple[str, ...]:
    return () if _beside(row) else lines(row.value, LIMITS - 8 - INDENT, 7.8, SEMIBOLD)


def _verdict_words(row: Row) -> tuple[str, ...]:
    return lines(row.judgement.words, VERDICT_ROOM, 7.6, SEMIBOLD)


def _height(row: Row) -> float:
    """Return how high the first part of a row is: its label, value, limits and verdict."""
    left = len(_label_lines(row)) + len(_value_lines(row))
    limits = len(lines(row.judgement.limits, LIMIT_ROOM, 7.8)) if row.judgement.limits else 1
    return ROW + MORE * (max(left, limits, len(_verdict_words(row))) - 1)


def _row(flow: Flow, row: Row, day: str) -> None:
    paper, height = flow.paper, _height(row)
    top = flow.row(height)
    y = top + 8.2
    colour = INK if row.standing else SECONDARY
    _time(paper, y, row, day)
    for line in _label_lines(row):
        paper.text(LABEL + 6, y, line, 7.8, REGULAR, colour, room=POINT + 16 - LABEL)
        y += MORE
    for line in _value_lines(row):
        paper.text(INDENT + 6, y, line, 7.8, SEMIBOLD if row.standing else REGULAR, colour)
        y += MORE
    y = top + 8.2
    if row.value and _beside(row):
        _value(paper, y, row)
    paper.text(UNIT, y, row.unit, SMALL, REGULAR, SECONDARY, room=LIMITS - UNIT - 1)
    for place, line in enumerate(lines(row.judgement.limits, LIMIT_ROOM, 7.8)):
        paper.text(LIMITS, y + MORE * place, line, 7.8, REGULAR, colour)
    _judged(flow, y, row)
    by = flow.volume.initials.get(row.by, "")
    paper.text(TEXT_WIDTH, y, by, SMALL, REGULAR, SECONDARY, "right")
    _beneath(flow, row, top)


def _time(paper: Paper, y: float, row: Row, day: str) -> None:
    if not row.at:
        return
    words = row.at[11:16] if row.at[:10] == day else f"{row.at[8:10]}. {row.at[11:16]}"
    paper.text(TIME, y, words, 7.6, REGULAR, SECONDARY, room=LABEL)


def _value(paper: Paper, y: float, row: Row) -> None:
    font, colour = (SEMIBOLD, INK) if row.standing else (REGULAR, SECONDARY)
    if _is_number(row.value):
        paper.decimal(POINT, y, row.value, 7.8, font, colour)
        if row.corrections and _is_number(row.corrections[-1].old):
            _struck(paper, y, row.corrections[-1].old)
        return
    paper.text(POINT + 16, y, row.value, 7.8, font, colour, "right")


def _struck(paper: Paper, y: float, old: str) -> None:
    """Write the old value, struck through and still readable, left of the new one."""
    end = POINT - 26
    begin = end - width(printed(old), 7.8)
    paper.text(end, y, printed(old), 7.8, REGULAR, SECONDARY, "right")
    paper.line(begin - 1, y - 2.5, end + 1, y - 2.5, 0.8, INK)


def _judged(flow: Flow, y: float, row: Row) -> None:
    paper = flow.paper
    settled = row.deviation is not None and row.deviation.settled
    kind = mark_of(row.judgement.place, standing=row.standing, settled=settled)
    words = _verdict_words(row)
    verdict(paper, kind, VERDICT, y, words[0], 7.6, 6.4)
    strong = kind in {"inside", "outside", "settled", "past outside"}
    for place, line in enumerate(words[1:], start=1):
        paper.text(VERDICT + 9.9, y + MORE * place, line, 7.6, SEMIBOLD if strong else REGULAR,
                   INK if kind == "settled" else SECONDARY)  # fmt: skip


def _beneath(flow: Flow, row: Row, top: float) -> None:
    """Write corrections, deviation, note and readings below a row."""
    page = flow.paper.number
    for correction in row.corrections:
        _sentence(flow, _corrected(correction))
    if row.corrections:
        begin = top if flow.paper.number == page else flow.y - ROW
        flow.paper.box(MARK_BAR, begin + 0.5, 2, flow.y - begin - 1, INK)
    for words in deviation_words(row.deviation) if row.deviation else ():
        _sentence(flow, words)
    if row.chapter:  # note and readings stand there
        return
    if row.note:
        _sentence(flow, f"Found: {row.note}")
    if row.table is not None and row.table.readings:
        draw_readings(flow, row.table)


def _sentence(flow: Flow, words: str) -> None:
    for line in lines(words, TEXT_WIDTH - INDENT - 8, SMALL):
        flow.more(MORE + 0.6)
        flow.paper.text(INDENT + 6, flow.y - 2.4, line, SMALL, REGULAR, INK)


def _corrected(found: Correction) -> str:
    unit = f" {found.unit}" if found.unit else ""
    seen = "Not yet seen by the crew lead."
    if found.seen_by:
        seen = f"Seen by {found.seen_by}, {_moment(found.seen_at)}."
    return (
        f"{printed(found.old)}{unit} was entered {_moment(found.made_at)}. Corrected "
        f"{_moment(found.at)} by {found.by} to {printed(found.new)}{unit}. "
        f"Reason: {found.reason}. {seen}"
    )


def deviation_words(found: Deviation) -> tuple[str, ...]:
    """Return a deviation in sentences: what, why it is kept, who accepted it and on what terms."""
    words = [found.sentence]
    if found.reason:
        words.append(f"Reason, {found.reason_by}, {_moment(found.reason_at)}: {found.reason}.")
    if found.accepted_by:
        document = f" Document {found.document}." if found.document else ""
        words.append(
            f"Accepted by {found.accepted_by}, {found.accepted_role}, "
            f"{_moment(found.accepted_at)}. Condition: {found.condition}.{document}"
        )
    elif not found.settled:
        words.append("Not accepted: open.")
    if found.stays_open_until:
        by = f"{found.stays_open_with}, until {found.stays_open_until}"
        words.append(f"Stays open: {by}.")
    return tuple(words)


def _moment(stamp: str) -> str:
    return f"{stamp[:10]} {stamp[11:19]}"


def _key(flow: Flow) -> None:
    people = "; ".join(
        f"{person.initials}: {person.name}, {person.role}"
        for person in flow.volume.content.people
        if person.events
    )
    rows = sum(len(step.rows) for phase in flow.volume.content.phases for step in phase.steps)
    words = (
        f"{people}. {rows} rows. Inside by: distance from the limit, where a step asks for it "
        "after the instrument’s uncertainty (k = 2) is taken off. Before a time: its day."
    )
    flow.y += 2
    for line in lines(words, TEXT_WIDTH, 7):
        y = flow.row(9) + 8
        flow.paper.text(0, y, line, 7, REGULAR, SECONDARY)
