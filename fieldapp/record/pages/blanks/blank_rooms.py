"""Room to write in: boxes, circles and tables high enough for a pen in a gloved hand."""

from collections.abc import Callable

from fieldapp.record.chapters.blanks.blank_shapes import Room
from fieldapp.record.pages.blanks.blank_pieces import Piece, table
from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD, lines, shortened
from fieldapp.record.pages.kit.paper import HAIR, INK, RULE, SECONDARY, TEXT_WIDTH, Paper

LEFT, LIMITS, BOX, UNIT = 22.0, 236.0, 376.0, 464.0
LABEL_ROOM, LIMIT_ROOM, BOX_WIDE = LIMITS - LEFT - 10, BOX - LIMITS - 8, 84.0
ROW, PEN, TICK = 25.0, 20.0, 14.0
SMALL, STEP = 7.4, 9.0
LABEL_STEP = 10.4


def pieces_of(room: Room) -> tuple[Piece, ...]:
    """Return the pieces of the room for one entry."""
    return _ROOMS[room.kind](room)


def _label(paper: Paper, y: float, room: Room, wide: float = LABEL_ROOM) -> None:
    for place, line in enumerate(lines(room.label, wide, 8.8)):
        paper.text(LEFT, y + 15 + LABEL_STEP * place, line, 8.8)


def _terms(room: Room) -> tuple[str, ...]:
    """Return the lines of the limits, and who decides where they are not kept."""
    said = lines(room.limits, LIMIT_ROOM, SMALL) if room.limits else ()
    return (*said, room.otherwise) if room.otherwise else said


def _limits(paper: Paper, y: float, room: Room, x: float = LIMITS) -> None:
    for place, line in enumerate(_terms(room)):
        last = bool(room.otherwise) and place == len(_terms(room)) - 1
        font, ink = (REGULAR, SECONDARY) if last else (SEMIBOLD, INK)
        paper.text(x, y + 11 + STEP * place, line, SMALL, font, ink)


def _height(room: Room, wide: float = LABEL_ROOM) -> float:
    label = 15 + LABEL_STEP * (len(lines(room.label, wide, 8.8)) - 1) + 6
    return max(ROW, label, 11 + STEP * len(_terms(room)))


def _rule(paper: Paper, y: float) -> None:
    paper.line(LEFT, y, TEXT_WIDTH, y, 0.25, HAIR)


def _box(room: Room) -> tuple[Piece, ...]:
    def draw(paper: Paper, y: float) -> None:
        _rule(paper, y)
        _label(paper, y, room)
        _limits(paper, y, room)
        paper.box(BOX, y + 2.5, BOX_WIDE, PEN, None, INK, 0.8)
        paper.text(UNIT, y + 16, room.unit, 8.4, SEMIBOLD, room=TEXT_WIDTH - UNIT)

    return (Piece(_height(room), draw),)


def _tick(room: Room) -> tuple[Piece, ...]:
    wide = BOX - LEFT - 10

    def draw(paper: Paper, y: float) -> None:
        _rule(paper, y)
        _label(paper, y, room, wide)
        paper.box(BOX, y + 4, TICK + 2, TICK + 2, None, INK, 0.8)

    return (Piece(_height(room, wide), draw),)


def _words(room: Room) -> tuple[Piece, ...]:
    said = _terms(room)

    def draw(paper: Paper, y: float) -> None:
        _rule(paper, y)
        _label(paper, y, room)
        beside = ", ".join(said)
        paper.text(LIMITS, y + 8, shortened(beside, TEXT_WIDTH - LIMITS, SMALL), SMALL, REGULAR,
                   SECONDARY)  # fmt: skip
        low = y + max(_height(room), ROW + (4 if said else 0)) - 4
        paper.line(LIMITS, low, TEXT_WIDTH, low, 0.8, INK)

    return (Piece(max(_height(room), ROW + (4 if said else 0)), draw),)


def _choice(room: Room) -> tuple[Piece, ...]:
    gap = 16.0
    found = [lines(_answer(one.text, one.otherwise), TEXT_WIDTH - LIMITS - 18, 8.6)
             for one in room.choices]  # fmt: skip
    high = sum(gap + LABEL_STEP * (len(answer) - 1) for answer in found) + 6
    above = 10.0 if room.limits else 0.0

    def draw(paper: Paper, y: float) -> None:
        _rule(paper, y)
        _label(paper, y, room)
        beside = ", ".join(filter(None, (room.limits, room.otherwise)))
        paper.text(LIMITS, y + 9, shortened(beside, TEXT_WIDTH - LIMITS, 7), 7, SEMIBOLD)
        down = y + 4 + above
        for answer in found:
            paper.disc(LIMITS + 6, down + 7.5, 5.6, None, INK, 0.8)
            for place, line in enumerate(answer):
                paper.text(LIMITS + 18, down + 10.4 + LABEL_STEP * place, line, 8.6)
            down += gap + LABEL_STEP * (len(answer) - 1)

    return (Piece(max(_height(room), high + above), draw),)


def _answer(text: str, otherwise: str) -> str:
    return f"{text}  ({otherwise})" if otherwise else text


def _note(room: Room) -> tuple[Piece, ...]:
    wide = LIMITS - LEFT - 10 if room.limits else TEXT_WIDTH - LEFT
    found = lines(room.label, wide, 8.4)

    def draw(paper: Paper, y: float) -> None:
        _rule(paper, y)
        for place, line in enumerate(found):
            paper.text(LEFT, y + 10.4 + LABEL_STEP * place, line, 8.4, REGULAR, SECONDARY)
        for place, line in enumerate(lines(room.limits, TEXT_WIDTH - LIMITS, SMALL)):
            paper.text(LIMITS, y + 10.4 + STEP * place, line, SMALL, SEMIBOLD)

    said = len(lines(room.limits, TEXT_WIDTH - LIMITS, SMALL)) if room.limits else 0
    return (Piece(max(LABEL_STEP * len(found), STEP * said) + 5, draw),)


def _table(room: Room) -> tuple[Piece, ...]:
    begun = not room.columns
    heads = [("" if begun else "min", 54.0 if begun else 40.0), ("clock", 60.0)]
    each = min(110.0, (TEXT_WIDTH - LEFT - 100) / max(1, len(room.columns)))
    heads += [(f"{column.label}, {column.unit}".strip(", "), each) for column in room.columns]
    rows = tuple((row,) for row in room.rows)
    limits = [f"{column.label}: {column.limits}" for column in room.columns if column.limits]
    said = "; ".join(limits)
    beside = ", ".join(filter(None, (said, room.otherwise)))
    return (
        _titled(room.label, beside),
        table(tuple(heads), rows, 17, LEFT),
    )


def _titled(label: str, beside: str) -> Piece:
    first = lines(label, TEXT_WIDTH - LEFT, 8.8)
    more = lines(beside, TEXT_WIDTH - LEFT, SMALL, SEMIBOLD) if beside else ()

    def draw(paper: Paper, y: float) -> None:
        _rule(paper, y)
        for place, line in enumerate(first):
            paper.text(LEFT, y + 12 + LABEL_STEP * place, line, 8.8)
        down = y + 12 + LABEL_STEP * len(first)
        for place, line in enumerate(more):
            paper.text(LEFT, down + STEP * place, line, SMALL, SEMIBOLD)

    return Piece(6 + LABEL_STEP * len(first) + STEP * len(more) + 2, draw)


def _proof(room: Room) -> tuple[Piece, ...]:
    def draw(paper: Paper, y: float) -> None:
        _rule(paper, y)
        paper.text(LEFT, y + 15, shortened(room.label, LABEL_ROOM, 8.8, SEMIBOLD), 8.8, SEMIBOLD)
        x = LIMITS
        for answer in ("tripped", "no trip"):
            paper.disc(x + 6, y + 12, 5.6, None, INK, 0.8)
            x = paper.text(x + 16, y + 15, answer, 8.6) + 14
        paper.text(TEXT_WIDTH, y + 15, room.otherwise, 7, REGULAR, SECONDARY, "right")

    rows = [Piece(ROW, draw)]
    if room.unit:
        rows += _box(Room("box", "Tripped at", room.unit, room.limits))
    if room.closed:
        rows += _box(Room("box", "Both valves closed after", "s", room.closed))
    return (*rows, *_checks(room.checks))


def _checks(checks: tuple[str, ...]) -> tuple[Piece, ...]:
    half = (TEXT_WIDTH - LEFT) / 2

    def row(pair: tuple[str, ...]) -> Piece:
        found = [lines(check, half - 30, 8.4) for check in pair]

        def draw(paper: Paper, y: float) -> None:
            for place, check in enumerate(found):
                x = LEFT + half * place
                paper.box(x, y + 3, TICK, TICK, None, INK, 0.8)
                for down, line in enumerate(check):
                    paper.text(x + 20, y + 13 + LABEL_STEP * down, line, 8.4)

        return Piece(20 + LABEL_STEP * (max(map(len, found)) - 1), draw)

    return tuple(row(checks[at : at + 2]) for at in range(0, len(checks), 2))


def _sign(room: Room) -> tuple[Piece, ...]:
    def draw(paper: Paper, y: float) -> None:
        paper.box(LEFT, y + 4, TEXT_WIDTH - LEFT, 50, None, RULE, 0.5)
        shown = shortened(room.label, TEXT_WIDTH - LEFT - 12, 8.8, SEMIBOLD)
        paper.text(LEFT + 6, y + 15, shown, 8.8, SEMIBOLD)
        for x, wide, under in ((LEFT + 6, 170, "name"), (LEFT + 186, 180, "signature"),
                               (LEFT + 376, 100, "date, time")):  # fmt: skip
            paper.line(x, y + 43, x + wide, y + 43, 0.8, INK)
            paper.text(x, y + 51, under, 6.8, REGULAR, SECONDARY)

    return (Piece(60, draw),)


_ROOMS: dict[str, Callable[[Room], tuple[Piece, ...]]] = {
    "box": _box,
    "tick": _tick,
    "words": _words,
    "choice": _choice,
    "note": _note,
    "table": _table,
    "proof": _proof,
    "sign": _sign,
}
