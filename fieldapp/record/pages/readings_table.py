"""The readings of a trace or a hold below their entry: across the page if few, else down."""

from fieldapp.record.chapters.shapes.shapes import Table
from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD, lines, printed, shortened
from fieldapp.record.pages.kit.paper import INK, SECONDARY, TEXT_WIDTH
from fieldapp.record.pages.kit.volume import Flow

LINE, SMALL, INDENT = 9.6, 7.4, 44.0
ACROSS_COLUMNS, ACROSS_READINGS = 3, 11


def draw_readings(flow: Flow, table: Table) -> None:
    """Write the readings of a trace or a hold: across the page, if they are few, else down."""
    if len(table.heads) <= ACROSS_COLUMNS and len(table.readings) <= ACROSS_READINGS:
        _across(flow, table)
    else:
        _down(flow, table)


def _minutes(seconds: int) -> str:
    return f"{seconds // 60}:{seconds % 60:02d}"


def _across(flow: Flow, table: Table) -> None:
    """Write a line of times, and below it a line of values for each quantity."""
    flow.need(LINE * (1 + len(table.heads)))
    times = [_minutes(reading.seconds) for reading in table.readings]
    _line_across(flow, "min:s", times, REGULAR)
    for place, (head, unit) in enumerate(zip(table.heads, table.units, strict=True)):
        values = [printed(reading.values[place]) for reading in table.readings]
        _line_across(flow, f"{head}, {unit}", values, SEMIBOLD)
    flow.y += 2


def _line_across(flow: Flow, head: str, values: list[str], font: str) -> None:
    y = flow.row(LINE) + 7.6
    flow.paper.text(INDENT + 6, y, shortened(head, 90, 6.8), 6.8, REGULAR, SECONDARY)
    colour = SECONDARY if font == REGULAR else INK
    for place, value in enumerate(values):
        flow.paper.text(INDENT + 130 + 32 * place, y, value, SMALL, font, colour, "right")


def _down(flow: Flow, table: Table) -> None:
    """Write a line for each reading, a column for each quantity."""
    step = min(52.0, (TEXT_WIDTH - INDENT - 30) / max(1, len(table.heads)))
    names = [lines(head, step - 3, 6.8) for head in table.heads]
    high = 8 * max(len(name) for name in names) + 10
    flow.need(high + 2 * LINE)
    top, paper = flow.row(high), flow.paper
    paper.text(INDENT + 26, top + 8, "min:s", 6.8, REGULAR, SECONDARY, "right")
    for place, name in enumerate(names):
        right = INDENT + 26 + step * (place + 1)
        for down, line in enumerate(name):
            paper.text(right, top + 8 + 8 * down, line, 6.8, REGULAR, SECONDARY, "right")
        paper.text(right, top + high - 2, table.units[place], 6.8, REGULAR, SECONDARY, "right")
    for reading in table.readings:
        y = flow.row(LINE) + 8
        minutes = _minutes(reading.seconds)
        flow.paper.text(INDENT + 26, y, minutes, SMALL, REGULAR, SECONDARY, "right")
        for place, value in enumerate(reading.values):
            right = INDENT + 26 + step * (place + 1)
            flow.paper.text(right, y, printed(value), SMALL, SEMIBOLD, INK, "right")
    flow.y += 2
