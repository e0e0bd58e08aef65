"""Where the figures come from: computed values, agreed figures, instruments, the judging."""

from fieldapp.record.chapters.shapes.shapes_of_sources import Agreed, Computation, Instrument, Term
from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD, lines, printed, shortened
from fieldapp.record.pages.kit.marks import mark_of, verdict
from fieldapp.record.pages.kit.paper import (
    ALLOWED,
    HAIR,
    INK,
    RULE,
    SECONDARY,
    TEXT_WIDTH,
    Paper,
)
from fieldapp.record.pages.kit.volume import Flow, Volume

STEP, SMALL = 8.7, 7.4
LEAST_LINES = 3
INPUTS, RESULT, POINT, UNIT, SOURCE = 158.0, 278.0, 302.0, 324.0, 364.0
SOON = 60
NAME = "computations"
NOTE = "each with its rule in words, what went in, where it holds and where it comes from"
JUDGED = (
    "A number is judged against the limit worked out for this site. Where a step says so, it is "
    "judged with a guard: moved by the instrument’s expanded uncertainty (k = 2, about 95 %) "
    "towards the limit, it must still be inside. “Inside by” is what is left; “outside by” is the "
    "distance from the limit itself. A computed limit is rounded to the safe side. Whoever the "
    "checklist names may accept a value outside; it stays marked."
)
CHECKED = (
    "Open it in the office program, or in any reader of signed PDF: two signatures, the "
    "technician’s first. The attached record.json must give the fingerprint at the foot of every "
    "page. A paper copy is checked by the same figures; it carries no signature."
)


def draw_sources(flow: Flow) -> None:
    """Draw the sources where the entries end."""
    volume, content = flow.volume, flow.volume.content
    if content.computations:
        flow.chapter("Computed values", NOTE, NAME)
        flow.heads(lambda y: _heads(flow.paper, y))
        for computation in content.computations:
            _computation(flow, computation)
        flow.paper.rule(flow.y)
        flow.heads(None)
    else:
        flow.chapter("Figures and instruments", "what was agreed, and what was used", NAME, gap=4)
    if content.agreed:
        _agreed(flow, content.agreed)
    if content.instruments:
        _instruments(flow, volume)
    _explained(flow)


def _heads(paper: Paper, y: float) -> float:
    for x, name in ((0, "value and rule"), (INPUTS, "inputs"), (RESULT, "result"),
                    (SOURCE, "holds for; source")):  # fmt: skip
        paper.text(x, y, name, 7, SEMIBOLD, SECONDARY)
    paper.rule(y + 4)
    return y + 4


def _computation(flow: Flow, found: Computation) -> None:
    title = lines(found.label, INPUTS - 8, 8.2, SEMIBOLD)
    rule = lines(found.rule, INPUTS - 10, SMALL)
    inputs = [line for term in found.inputs for line in _input(term)]
    valid = lines(found.valid_for.replace("_", " "), TEXT_WIDTH - SOURCE, 7.2)
    source = lines(found.source, TEXT_WIDTH - SOURCE, 7.2)
    words = _result_words(found)
    count = max(
        LEAST_LINES, len(title) + len(rule), len(inputs), len(valid) + len(source), 1 + len(words)
    )
    top, paper = flow.row(STEP * count + 7), flow.paper
    y = top + 10
    _lines(paper, 0, y, title, 8.2, SEMIBOLD)
    _lines(paper, 0, y + STEP * len(title), rule, SMALL)
    _lines(paper, INPUTS, y, inputs, SMALL)
    _lines(paper, SOURCE, y, valid, 7.2)
    _lines(paper, SOURCE, y + STEP * len(valid), source, 7.2, REGULAR, SECONDARY)
    if found.value:
        paper.decimal(POINT, y + 1.5, found.value, 10.5, SEMIBOLD)
        paper.text(UNIT, y + 1.5, found.unit, 7.6, REGULAR, SECONDARY, room=SOURCE - UNIT - 2)
    _judged(paper, y + 13, found, words)
    paper.line(0, flow.y, TEXT_WIDTH, flow.y, 0.25, HAIR)


def _input(term: Term) -> tuple[str, ...]:
    value = f"{printed(term.value)}\u00a0{term.unit}".strip()
    return lines(f"{term.label} {value}", RESULT - INPUTS - 8, SMALL)


def _result_words(found: Computation) -> tuple[str, ...]:
    words = found.judgement.words
    if not found.judgement.limits and found.value:
        spread = f"±{found.uncertainty} (k = 2)" if found.uncertainty else "not judged"
        return (spread,)
    return lines(words, SOURCE - RESULT - 16, SMALL, SEMIBOLD)


def _judged(paper: Paper, y: float, found: Computation, words: tuple[str, ...]) -> None:
    if not found.judgement.limits and found.value:
        paper.text(RESULT, y, words[0], SMALL, REGULAR, SECONDARY)
        return
    settled = found.judgement.words.endswith(("accepted", "explained"))
    verdict(paper, mark_of(found.judgement.place, settled=settled), RESULT, y, words[0], SMALL, 6.4)
    _lines(paper, RESULT + 9.9, y + STEP, words[1:], SMALL, SEMIBOLD)


def _lines(
    paper: Paper, x: float, y: float, found: tuple[str, ...] | list[str], size: float,
    font: str = REGULAR, colour: str = INK,
) -> None:  # fmt: skip
    for place, line in enumerate(found):
        paper.text(x, y + STEP * place, line, size, font, colour)


def _agreed(flow: Flow, agreed: tuple[Agreed, ...]) -> None:
    flow.section("Figures agreed before the job", "the owner’s, else the checklist’s own", 50)

    def heads(y: float) -> float:
        for x, name, align in (
            (0, "figure", "left"),
            (232, "value", "right"),
            (250, "unit", "left"),
            (290, "by whom, from where", "left"),
        ):
            flow.paper.text(x, y + 9.5, name, 7, SEMIBOLD, SECONDARY, align)
        flow.paper.line(0, y + 13, TEXT_WIDTH, y + 13, 0.25, RULE)
        return y + 13

    flow.heads(heads)
    for one in agreed:
        label, source = lines(one.label, 202, 7.8), lines(one.source, 214, 7.2)
        high = 11.5 + 8.7 * (max(len(label), len(source)) - 1)
        top, paper = flow.row(high), flow.paper
        y = top + 8.5
        _lines(paper, 0, y, label, 7.8)
        paper.decimal(222, y, one.value, 7.8, SEMIBOLD)
        paper.text(250, y, one.unit, SMALL, REGULAR, SECONDARY, room=38)
        _lines(paper, 290, y, source, 7.2, REGULAR, SECONDARY)
        paper.line(0, flow.y, TEXT_WIDTH, flow.y, 0.25, HAIR)
    flow.paper.rule(flow.y)
    flow.heads(None)


def _instruments(flow: Flow, volume: Volume) -> None:
    day = volume.content.heading.issued[:10]
    note = f"bar: share of the calibration interval used up on {day}; accuracy expanded, k = 2"
    flow.section("Instruments", note, 50, name="instruments")

    def heads(y: float) -> float:
        for x, name in (
            (0, "instrument, number"),
            (132, "used for"),
            (276, "accuracy"),
            (372, "calibrated"),
            (414, "due"),
        ):
            flow.paper.text(x, y + 9.5, name, 7, SEMIBOLD, SECONDARY)
        flow.paper.text(TEXT_WIDTH, y + 9.5, "days left", 7, SEMIBOLD, SECONDARY, "right")
        flow.paper.line(0, y + 13, TEXT_WIDTH, y + 13, 0.25, RULE)
        return y + 13

    flow.heads(heads)
    for one in volume.content.instruments:
        _instrument(flow, one)
    flow.paper.rule(flow.y)
    flow.heads(None)


def _instrument(flow: Flow, one: Instrument) -> None:
    name = (*lines(one.name, 126, 7.8), *lines(one.serial, 126, 7.2))
    used = lines(", ".join(one.used_for), 138, 7.2)
    accuracy = lines(one.accuracy, 90, 7.4)
    high = 5 + 8.7 * max(len(name), len(used), len(accuracy))
    top, paper = flow.row(high), flow.paper
    y = top + 9
    _lines(paper, 0, y, name[:-1], 7.8)
    _lines(paper, 0, y + STEP * (len(name) - 1), name[-1:], 7.2, REGULAR, SECONDARY)
    _lines(paper, 132, y, used, 7.2, REGULAR, SECONDARY)
    _lines(paper, 276, y, accuracy, 7.4)
    paper.text(372, y, one.calibrated, 7.4, REGULAR, SECONDARY, room=40)
    paper.text(414, y, one.due, 7.4, room=40)
    paper.box(456, y - 4.6, 24, 4, ALLOWED)
    paper.box(456, y - 4.6, 24 * one.used_up_percent / 100, 4, SECONDARY)
    strong = SEMIBOLD if one.days_left < SOON else REGULAR
    paper.text(TEXT_WIDTH, y, printed(str(one.days_left)), 7.8, strong, INK, "right")
    paper.line(0, flow.y, TEXT_WIDTH, flow.y, 0.25, HAIR)


def _explained(flow: Flow) -> None:
    """Say how a value is judged and how the record is checked, side by side."""
    judged, checked = lines(JUDGED, 242, 7.8), lines(CHECKED, 242, 7.8)
    high = 10 * max(len(judged), len(checked)) + 14
    flow.y += 20
    flow.need(high)
    paper, y = flow.paper, flow.y
    for x, title, words in (
        (0, "How a value is judged", judged),
        (262, "How to check this record", checked),
    ):
        paper.tag("H2")
        paper.text(x, y, shortened(title, 242, 9.2, SEMIBOLD), 9.2, SEMIBOLD)
        paper.rule(y + 5, x + 242, x)
        paper.tag("P")
        for place, line in enumerate(words):
            paper.text(x, y + 16 + 10 * place, line, 7.8)
    flow.y = y + high
