"""The pages of a blank: what it is for, every step with room to write, and the emergency card."""

from functools import partial

from fieldapp.job.emergency import CAUTION, LOCAL, ROWS
from fieldapp.record.chapters.blanks.blank_shapes import Blank, BlankStep
from fieldapp.record.pages.blanks.blank_pieces import (
    Piece,
    Stack,
    caution,
    heading,
    space,
    table,
    words,
)
from fieldapp.record.pages.blanks.blank_rooms import pieces_of
from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD, lines, shortened
from fieldapp.record.pages.kit.paper import BAD, INK, RULE, SECONDARY, TEXT_WIDTH, WHITE, Paper

USE = """
For when no tablet can be used. It permits nothing: the owner’s procedures, local codes and licensed
people decide. The emergency card is the last page.

Do the steps in this order. “after 3, 5” means: first those, and they must be in order. Read the
caution before the step. A box outside its limits stops here: write the figure, and on “Outside the
limits” who accepted it, and on what condition. “stop” is accepted by nobody.

Never rub out or paint over: strike through so that it stays readable, write the new figure beside
it, with time and initials. Figures “worked out” come from the office.
"""
JOB = "Job number"
STEP_HIGH, TITLE_STEP, OUTSIDE_ROW = 24.0, 12.4, 30.0


def draw_blank(paper: Paper, blank: Blank) -> None:
    """Draw every page of a blank."""
    stack = Stack(paper, partial(_frame, paper, blank))
    _front(stack, blank)
    for phase in blank.phases:
        head = [heading(phase.title)]
        for step in phase.steps:
            again = words(f"{step.number}  {step.title}, continued", 9.4, SEMIBOLD)
            stack.together([*head, *_pieces(step)], again)
            head = []
    stack.next_page()
    _again(stack, blank)
    _outside(stack)
    stack.next_page()
    _card(stack)
    paper.turn()


def _frame(paper: Paper, blank: Blank) -> None:
    number = paper.number
    end = paper.text(0, 34, shortened(blank.title, 240, 7.6, SEMIBOLD), 7.6, SEMIBOLD)
    paper.text(end + 6, 34, f"revision {blank.revision}  ·  blank, to be filled in by hand", 7.6,
               REGULAR, SECONDARY)  # fmt: skip
    paper.later(partial(_page_of, paper, number))
    paper.rule(41)
    foot = paper.sheet.height - 41
    paper.line(0, foot, TEXT_WIDTH, foot, 0.4, RULE)
    for place, (name, digits) in enumerate(
        (("Checklist, SHA-256", blank.fingerprint), ("Job sheet, SHA-256", blank.sheet_fingerprint))
    ):
        if digits:
            grouped = " ".join(digits[at : at + 4] for at in range(0, 64, 4))
            end = paper.text(0, foot + 11 + 9 * place, name, 6.4, SEMIBOLD)
            paper.text(end + 5, foot + 11 + 9 * place, grouped, 6.4)
    x = paper.text(TEXT_WIDTH - 150, foot + 20, "job", 7, REGULAR, SECONDARY) + 3
    paper.text(x, foot + 20, shortened(dict(blank.facts)[JOB], TEXT_WIDTH - x, 8), 8)
    paper.line(x, foot + 22, TEXT_WIDTH, foot + 22, 0.6, INK)


def _page_of(paper: Paper, number: int) -> None:
    pages = len(paper.canvas._doc.Pages.pages)  # noqa: SLF001 - there is no other way to them
    paper.text(TEXT_WIDTH, 34, f"Page {number} of {pages}", 7.6, SEMIBOLD, INK, "right")


def _front(stack: Stack, blank: Blank) -> None:
    stack.put(words(blank.title, 18, SEMIBOLD), space(4))
    half = TEXT_WIDTH / 2
    facts = blank.facts
    for left, right in zip(facts[::2], facts[1::2], strict=True):
        stack.put(_facts(left, right, half))
    stack.put(_facts(("Date", ""), ("Permit, and when it ends", ""), half), space(4))
    for text in USE.strip().split("\n\n"):
        stack.put(words(" ".join(text.split()), 9), space(2))
    rows = [(name, role, "", "") for name, role in blank.people] or [("", "", "", "")] * 5
    heads = (("who", 170.0), ("role", 134.0), ("initials", 60.0), ("signature", 140.0))
    stack.put(space(4), table(heads, rows, 19))
    tools = [(name, serial, "") for name, serial in blank.instruments] or [("", "", "")] * 6
    columns = (("instrument", 270.0), ("serial", 134.0), ("calibration in date until", 100.0))
    stack.put(table(columns, tools, 17))


def _facts(left: tuple[str, str], right: tuple[str, str], half: float) -> Piece:
    def draw(paper: Paper, y: float) -> None:
        for x, (label, value) in ((0.0, left), (half + 6, right)):
            paper.text(x, y + 9, label, 7, REGULAR, SECONDARY)
            paper.text(x, y + 21, shortened(value, half - 10, 9.4, SEMIBOLD), 9.4, SEMIBOLD)
            paper.line(x, y + 25, x + half - 6, y + 25, 0.6, INK)

    return Piece(29, draw)


def _pieces(step: BlankStep) -> list[Piece]:
    if step.left_out:
        text = f"{step.number}  {step.title}: {step.left_out}"
        return [words(text, 8.4, REGULAR, colour=SECONDARY), space(3)]
    pieces = [space(4)]
    if step.caution[0]:
        pieces.append(caution(*step.caution))
    pieces.append(_head(step))
    if step.terms:
        pieces.append(words("; ".join(step.terms), 8, SEMIBOLD, 22))
    if step.text:
        pieces.append(words(step.text, 8.8, REGULAR, 22))
    for room in step.rooms:
        pieces += pieces_of(room)
    return [*pieces, space(5)]


def _head(step: BlankStep) -> Piece:
    found = lines(step.title, 356, 10.4, SEMIBOLD)

    def draw(paper: Paper, y: float) -> None:
        paper.line(0, y, TEXT_WIDTH, y, 0.8, INK)
        paper.text(16, y + 15, str(step.number), 10.4, SEMIBOLD, INK, "right")
        for place, line in enumerate(found):
            paper.text(22, y + 15 + TITLE_STEP * place, line, 10.4, SEMIBOLD)
        for x, wide, under in ((392, 62, "done at"), (458, 46, "initials")):
            paper.box(x, y + 3, wide, 19, None, RULE, 0.6)
            paper.text(x + 2, y + 8.6, under, 5.6, REGULAR, SECONDARY)

    return Piece(STEP_HIGH + TITLE_STEP * (len(found) - 1), draw)


def _again(stack: Stack, blank: Blank) -> None:
    stack.put(heading("What happened since", "then these steps are done again, and all after them"))
    heads = (("happened", 206.0), ("do again", 168.0), ("when", 76.0), ("initials", 54.0))
    stack.put(_row(heads, tuple(head for head, _ in heads)))
    for label, steps in blank.again:
        stack.put(_row(heads, (label, steps or "–")))
    stack.put(_row(heads, ("something else:", "ask the crew lead")), space(8))


def _row(heads: tuple[tuple[str, float], ...], cells: tuple[str, ...]) -> Piece:
    found = [lines(cell, heads[at][1] - 6, 8) for at, cell in enumerate(cells)]
    high = max(17.0, 10 * max(map(len, found)) + 5)

    def draw(paper: Paper, y: float) -> None:
        x = 0.0
        for place, (_, wide) in enumerate(heads):
            for down, line in enumerate(found[place] if place < len(found) else ()):
                paper.text(x + 2, y + 11 + 10 * down, line, 8)
            paper.line(x, y, x, y + high, 0.5, RULE)
            x += wide
        paper.line(x, y, x, y + high, 0.5, RULE)
        paper.line(0, y + high, x, y + high, 0.5, RULE)

    return Piece(high, draw)


def _outside(stack: Stack) -> None:
    heads = (("step", 34.0), ("what, and its figure", 140.0), ("why it is kept, on what condition",
             160.0), ("accepted by (name, document)", 118.0), ("when", 52.0))  # fmt: skip
    head = heading("Outside the limits", "“stop” is accepted by nobody")
    stack.next_page()
    rows = int((stack.left - head.height - 20) // OUTSIDE_ROW)
    stack.put(head, table(heads, [("",)] * rows, OUTSIDE_ROW))


def _card(stack: Stack) -> None:
    def head(paper: Paper, y: float) -> None:
        paper.box(0, y, TEXT_WIDTH, 40, BAD)
        paper.text(14, y + 28, "Stop and make safe", 22, SEMIBOLD, WHITE)

    stack.put(Piece(48, head), words(CAUTION, 14, SEMIBOLD), words(LOCAL, 10.4), space(8))
    for place, (_, text) in enumerate(ROWS, 1):
        stack.put(_act(place, text))
    stack.put(space(10), _numbers())


def _act(number: int, text: str) -> Piece:
    found = lines(text, 350, 13, SEMIBOLD)
    high = max(42.0, 16 * len(found) + 16)

    def draw(paper: Paper, y: float) -> None:
        paper.line(0, y, TEXT_WIDTH, y, 0.6, INK)
        paper.text(18, y + 22, str(number), 13, SEMIBOLD, SECONDARY, "right")
        for place, line in enumerate(found):
            paper.text(28, y + 22 + 16 * place, line, 13, SEMIBOLD)
        for x, wide, under in ((392, 52, "time"), (450, 54, "who")):
            paper.box(x, y + 7, wide, 28, None, INK, 0.8)
            paper.text(x + 2, y + 13, under, 6, REGULAR, SECONDARY)

    return Piece(high, draw)


def _numbers() -> Piece:
    def draw(paper: Paper, y: float) -> None:
        for place, label in enumerate(("Emergency number", "Control room", "Name of this place")):
            x = 172.0 * place
            paper.text(x, y + 9, label, 8, REGULAR, SECONDARY)
            paper.line(x, y + 38, x + 160, y + 38, 0.8, INK)

    return Piece(44, draw)
