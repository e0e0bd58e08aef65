"""The tables of a plan: the answers in words, figures against limits, and every source."""

from collections.abc import Callable

from fieldapp.plan.shapes import Answer, Figure, Plan
from fieldapp.plan.wording import limit_words, number, range_words, value_words, verdict_words
from fieldapp.record.pages.kit.charts import track
from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD, lines, shortened
from fieldapp.record.pages.kit.marks import INSIDE, OPEN, OUTSIDE, mark, verdict
from fieldapp.record.pages.kit.paper import HAIR, INK, SECONDARY, TEXT_WIDTH, Paper
from fieldapp.record.pages.kit.volume import section

LINE, STEP, GAP = 12.6, 9.6, 5.0
QUESTION, SENTENCE = 128.0, 376.0
CAUTION = 12.0
SOURCE, SOURCE_ROOM = 292.0, 212.0
INPUT_LEFTS, INPUT_WIDE, INPUT_LINE = (0.0, 260.0), 244.0, 11.0
CHANGED = "to change one, state it in the job sheet under [plan]"


class Roll:
    """A run of rows down the pages; `y` is the baseline of the next row."""

    def __init__(self, paper: Paper, opened: Callable[[], float]) -> None:
        self.paper = paper
        self._opened = opened
        self.y = opened()

    def need(self, height: float) -> bool:
        """Go to the next page if so much does not fit on this one; say whether that was so."""
        if self.y + height <= self.paper.bottom - CAUTION:
            return False
        self.paper.turn()
        self.y = self._opened()
        return True

    def section(self, title: str, note: str, rows: float) -> None:
        """Begin a section, on the next page if head and first rows do not fit."""
        self.need(24 + rows)
        section(self.paper, self.y, title, note)
        self.y += 17


def draw_answers(roll: Roll, plan: Plan) -> None:
    """Write each question with its sentence, and what is refused."""
    roll.section("Answers", "in the order of the office’s questions", 4 * STEP)
    for answer in plan.answers:
        _answer(roll, answer)
    roll.y += GAP


def _answer(roll: Roll, answer: Answer) -> None:
    paper = roll.paper
    asked = lines(answer.question, QUESTION - 14, 8, SEMIBOLD)
    said = lines(answer.sentence, SENTENCE, 8) if answer.sentence else ()
    refused = [lines(refusal, SENTENCE - 12, 8) for refusal in answer.refusals]
    rows = max(len(asked), len(said) + sum(map(len, refused)))
    if roll.need(STEP * rows):
        section(paper, roll.y, "Answers, continued")
        roll.y += 17
    for place, line in enumerate(asked):
        paper.text(0, roll.y + STEP * place, line, 8, SEMIBOLD)
    y = roll.y
    for line in said:
        paper.text(QUESTION, y, line, 8)
        y += STEP
    for each in refused:
        mark(paper, OPEN, QUESTION + 3.5, y - 2.6)
        for line in each:
            paper.text(QUESTION + 12, y, line, 8)
            y += STEP
    roll.y += STEP * rows
    paper.line(0, roll.y - 6.4, TEXT_WIDTH, roll.y - 6.4, 0.25, HAIR)
    roll.y += 3


def draw_limits(roll: Roll, plan: Plan) -> None:
    """Write every figure that has a limit, with its track and verdict."""
    figures = [f for answer in plan.answers for f in answer.figures if f.limited]
    if not figures:
        return
    roll.section("Figures against their limits", "bar: allowed range; dot: value", 3 * LINE)
    for figure in figures:
        if roll.need(LINE):
            section(roll.paper, roll.y, "Figures against their limits, continued")
            roll.y += 17
        _limited(roll.paper, roll.y, figure)
        roll.y += LINE
    roll.y += GAP


def _limited(paper: Paper, y: float, figure: Figure) -> None:
    paper.text(0, y, shortened(figure.label, 186, 8), 8)
    paper.decimal(212, y, number(figure.value, figure.decimals), 8.6, SEMIBOLD)
    paper.text(232, y, figure.unit, 7.6, REGULAR, SECONDARY, room=27)
    paper.text(260, y, limit_words(figure), 8, room=64)
    track(paper, 326, y, figure.value, 0, figure.at_least, figure.at_most)
    verdict(paper, INSIDE if figure.inside else OUTSIDE, 414, y, verdict_words(figure), room=80)
    paper.line(0, y + 4, TEXT_WIDTH, y + 4, 0.25, HAIR)


def draw_inputs(roll: Roll, plan: Plan) -> None:
    """Write what was put in where the office may put in something else, in two columns."""
    put = [each for answer in plan.answers for each in answer.inputs]
    if not put:
        return
    rows = -(-len(put) // 2)
    roll.section("Put into the comparison", CHANGED, (rows - 1) * INPUT_LINE)
    for place, each in enumerate(put):
        _put_in(roll.paper, INPUT_LEFTS[place // rows], roll.y + INPUT_LINE * (place % rows), each)
    roll.y += INPUT_LINE * rows + GAP


def _put_in(paper: Paper, left: float, y: float, put: Figure) -> None:
    paper.text(left, y, shortened(put.label, 122, 7.6), 7.6)
    paper.text(left + 152, y, value_words(put), 7.6, SEMIBOLD, INK, "right")
    stated, _, _ = put.source.partition(":")
    paper.text(left + 157, y, stated, 7, REGULAR, SECONDARY, room=86)
    paper.line(left, y + 4, left + INPUT_WIDE, y + 4, 0.25, HAIR)


def draw_sources(roll: Roll, plan: Plan) -> None:
    """Write every figure with its range and where it comes from; then what to heed."""
    heads = "Every figure, and where it comes from"
    roll.section(heads, "in brackets: between what it lies", 4 * LINE)
    for answer in plan.answers:
        for figure in answer.figures:
            _sourced(roll, figure, heads)
    roll.y += GAP
    draw_notes(roll, plan)


def draw_notes(roll: Roll, plan: Plan) -> None:
    """Write what to heed beside the answers."""
    notes = [note for answer in plan.answers for note in answer.notes]
    if not notes:
        return
    roll.section("To heed", "in the order of the office’s questions", 3 * STEP)
    for note in notes:
        rows = lines(note, TEXT_WIDTH, 7.6)
        roll.need(STEP * len(rows))
        for row in rows:
            roll.paper.text(0, roll.y, row, 7.6, REGULAR, SECONDARY)
            roll.y += STEP


def _sourced(roll: Roll, figure: Figure, heads: str) -> None:
    source = lines(figure.source, SOURCE_ROOM, 7.2)
    if roll.need(STEP * len(source) + 4):
        section(roll.paper, roll.y, f"{heads}, continued")
        roll.y += 17
    paper, y = roll.paper, roll.y
    paper.text(0, y, shortened(figure.label, 182, 8), 8)
    paper.text(228, y, value_words(figure), 8, SEMIBOLD, INK, "right")
    between = range_words(figure)
    if between:
        paper.text(232, y, f"({between})", 7.6, REGULAR, SECONDARY, room=58)
    for place, line in enumerate(source):
        paper.text(SOURCE, y + 8.6 * place, line, 7.2, REGULAR, SECONDARY)
    roll.y += 8.6 * len(source) + 4
    paper.line(0, roll.y - 8.4, TEXT_WIDTH, roll.y - 8.4, 0.25, HAIR)
