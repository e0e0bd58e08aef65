"""The front page: how it stands, what and who, key figures, the hookup drawn, who signed."""

from functools import partial

from fieldapp.record.chapters.shapes.shapes import Deviation, Figure, Repeat
from fieldapp.record.pages.front.drawing import HEIGHT, draw_hookup, in_words
from fieldapp.record.pages.front.front_facts import draw_facts
from fieldapp.record.pages.front.open_steps import CLOSED, draw_open
from fieldapp.record.pages.front.signature_boxes import HEIGHT as SIGNED_HEIGHT
from fieldapp.record.pages.front.signature_boxes import draw_signed
from fieldapp.record.pages.kit.charts import track
from fieldapp.record.pages.kit.lettering import (
    MINUS,
    REGULAR,
    SEMIBOLD,
    lines,
    shortened,
    width,
)
from fieldapp.record.pages.kit.marks import (
    OUTSIDE,
    PAST_OUTSIDE,
    SETTLED,
    mark,
    mark_of,
    numbered,
    verdict,
)
from fieldapp.record.pages.kit.paper import (
    HAIR,
    INK,
    OIL_PIPE,
    SECONDARY,
    TEXT_WIDTH,
    Paper,
)
from fieldapp.record.pages.kit.symbols import valve
from fieldapp.record.pages.kit.volume import Flow, Volume, section

KEY_ROW, SECOND_LINE = 12.6, 8.8
LABEL_ROOM = 186.0
VERDICT, VERDICT_ROOM = 408.0, 96.0
LINE = 12.0
CAUTION = (
    "This record says what was measured and done. It permits no energised work: the owner’s "
    "procedures, local codes and licensed practice decide."
)


def draw_front(volume: Volume) -> Flow:
    """Draw the front page; what follows goes on where it ends."""
    paper, content = volume.paper, volume.content
    volume.open_page("", name="front")
    y = draw_facts(paper, content)
    rest = _without_drawing if content.diagram is None else _with_drawing
    end = rest(volume, y)
    paper.tag("P")
    after = paper.text(0, end, "Caution", 7.2, SEMIBOLD)
    paper.text(after + 4, end, CAUTION, 7.2, room=TEXT_WIDTH - after - 4)
    return Flow(volume, end + 4)


def _with_drawing(volume: Volume, y: float) -> float:
    """Draw the rest of the page: drawing and signatures stand at its foot."""
    paper, content = volume.paper, volume.content
    signed = paper.bottom - 10 - SIGNED_HEIGHT
    drawn = signed - 13 - HEIGHT - 13
    rows = min(5, max(1, len(content.deviations) + len(content.repeats)))
    room = drawn - 18 - LINE * (rows - 1) - 17 - 18 - y - 12
    y = _figures(paper, content.figures, y + 12, room)
    y = _deviations(volume, y + 18, until=drawn - 13)
    draw_open(paper, content, y + 20, until=drawn - 18)
    _hookup(volume, drawn)
    draw_signed(volume, signed)
    return paper.bottom


def _without_drawing(volume: Volume, y: float) -> float:
    """Draw the rest of what comes first; signatures stand where it ends."""
    paper, content = volume.paper, volume.content
    until = paper.bottom - 10 - SIGNED_HEIGHT - 26
    rows = min(5, max(1, len(content.deviations) + len(content.repeats)))
    y = _figures(paper, content.figures, y + 12, until - y - 12 - 17 - 18 - LINE * rows)
    y = _deviations(volume, y + 18, until=until)
    open_ = [s for phase in content.phases for s in phase.steps if s.state not in CLOSED]
    if open_:
        draw_open(paper, content, y + 20, until=until)
        y = until
    draw_signed(volume, y + 26)
    return y + 26 + SIGNED_HEIGHT + 10


def _figures(paper: Paper, figures: tuple[Figure, ...], y: float, room: float) -> float:
    """Write the key figures, as many as there is room for; return the lower end."""
    note = "bar: allowed range; dot: value; thick line through it: uncertainty, k = 2"
    shown = _fitting(figures, room - 17)
    if len(shown) < len(figures):
        note = f"{len(shown)} of {len(figures)}, the others stand among the entries; {note}"
    paper.tag("H2")
    section(paper, y, "Key figures against their limits", note)
    if not figures:
        paper.tag("P")
        paper.text(0, y + 17, "None yet, or none is asked for.", 8, REGULAR, SECONDARY)
        return y + 20
    y += 17
    for figure, label, words in shown:
        more = SECOND_LINE * (max(len(label), len(words)) - 1)
        _figure(paper, y, figure, label, words)
        paper.line(0, y + more + 4, TEXT_WIDTH, y + more + 4, 0.25, HAIR)
        y += more + KEY_ROW
    return y - KEY_ROW + 4


def _fitting(
    figures: tuple[Figure, ...], room: float
) -> list[tuple[Figure, tuple[str, ...], tuple[str, ...]]]:
    """Return the key figures that there is room for, with the lines of label and verdict."""
    found, y = [], 0.0
    for figure in figures:
        label = lines(figure.label, LABEL_ROOM, 8)
        words = lines(figure.judgement.words, VERDICT_ROOM - 10.5, 7.8, SEMIBOLD)
        more = SECOND_LINE * (max(len(label), len(words)) - 1)
        if y + more > room:
            break
        found.append((figure, label, words))
        y += more + KEY_ROW
    return found


def _figure(
    paper: Paper, y: float, figure: Figure, label: tuple[str, ...], words: tuple[str, ...]
) -> None:
    """Write one key figure: its label and its verdict have as many lines as they need."""
    paper.tag("P")
    for place, line in enumerate(label):
        end = paper.text(0, y + SECOND_LINE * place, line, 8)
    if len(label) == 1 and end + 5 + width(figure.step, 6.8) <= LABEL_ROOM:
        paper.text(end + 5, y, figure.step, 6.8, REGULAR, SECONDARY)
    paper.decimal(212, y, figure.value, 8.6, SEMIBOLD)
    end = paper.text(232, y, figure.unit, 7.6, REGULAR, SECONDARY)
    judged, begin = figure.judgement, max(260, end + 4)
    paper.text(begin, y, shortened(judged.limits, 324 - begin, 8), 8, room=324 - begin)
    low, high = (float(text) if text else None for text in (judged.low, judged.high))
    if low is not None or high is not None:
        track(paper, 326, y, _meaning(figure.value), _meaning(figure.uncertainty), low, high)
    settled = judged.words.endswith(("accepted", "explained"))
    kind = mark_of(judged.place, settled=settled)
    verdict(paper, kind, VERDICT, y, words[0])
    for place, line in enumerate(words[1:], start=1):
        paper.text(VERDICT + 10.5, y + SECOND_LINE * place, line, 7.8, SEMIBOLD)


def _meaning(figure: str) -> float:
    """Return what a figure means, for the track; 0 where there is none."""
    try:
        return float(figure.replace(",", ".").replace(MINUS, "-"))
    except ValueError:
        return 0.0


def _deviations(volume: Volume, y: float, until: float) -> float:
    """Write the deviations and repeats, as many as there is room for; return the lower end."""
    paper, content = volume.paper, volume.content
    paper.tag("H2")
    section(paper, y, "Deviations and repeats", "full text on the pages named")
    rows = [_of_deviation(found) for found in content.deviations]
    rows += [_of_repeat(found) for found in content.repeats]
    rows.sort(key=_order)
    if not rows:
        paper.tag("P")
        paper.text(0, y + 17, "None: no value was outside, no test was repeated.", 8)
        return y + 20
    most = max(1, int((until - y - 17) // LINE) + 1)
    if len(rows) > most:
        rows[most - 1 :] = [("dash", f"and {len(rows) - most + 1} more", "deviations")]
    for place, (kind, words, chapter) in enumerate(rows):
        line = y + 17 + LINE * place
        paper.tag("P")
        mark(paper, kind, 3.5, line - 2.6)
        paper.text(11, line, shortened(words, 460, 8), 8)
        paper.later(partial(_page, volume, chapter, line), "P")
    return y + 17 + LINE * (len(rows) - 1) + 3


def _proven(volume: Volume, x: float, y: float) -> None:
    words = f"shutdown proven, {volume.page_of('shutdowns')}"
    volume.paper.text(x, y, words, 6.8, REGULAR, SECONDARY)


def _page(volume: Volume, chapter: str, y: float) -> None:
    words = volume.page_of(chapter)
    volume.paper.text(TEXT_WIDTH, y, words, 7.4, REGULAR, SECONDARY, "right")


def _of_deviation(found: Deviation) -> tuple[str, str, str]:
    words = f"{found.label}: {found.sentence}"
    if found.accepted_by:
        words += f" Accepted by {found.accepted_by}: {found.condition}"
    elif found.settled:
        words += f" Kept: {found.reason}"
    if found.stays_open_until:
        words += f" Open until {found.stays_open_until}, {found.stays_open_with}."
    return (SETTLED if found.settled else OUTSIDE), words, "deviations"


def _order(row: tuple[str, str, str]) -> int:
    """Return the place of a line by what it tells: open, failed, accepted, made again."""
    order = (OUTSIDE, PAST_OUTSIDE, SETTLED)
    return order.index(row[0]) if row[0] in order else len(order)


def _of_repeat(found: Repeat) -> tuple[str, str, str]:
    kind = PAST_OUTSIDE if found.kind == "failed" else "past inside"
    return kind, found.sentence, found.chapter


def _hookup(volume: Volume, y: float) -> None:
    paper, content = volume.paper, volume.content
    assert content.diagram is not None  # noqa: S101 - asked for before
    signed = content.signatures[-1].at if content.signatures else content.heading.issued
    title = "The hookup at sign-off" if content.signatures else "The hookup as it stands"
    paper.tag("H2")
    section(paper, y, title, f"{signed[:10]} {signed[11:16]}")
    paper.tag("P")
    x = 196.0
    for state, words, wide in (("open", "valve open", 58), ("closed", "valve closed", 64)):
        valve(paper, x, y - 2.6, state, ("", 0, 0))
        paper.text(x + 9, y, words, 6.8, REGULAR, SECONDARY)
        x += wide
    paper.box(x - 6, y - 4.6, 14, 3.4, OIL_PIPE, INK, 0.55)
    x = paper.text(x + 12, y, "oil", 6.8, REGULAR, SECONDARY) + 18
    if any(shutdown.asked for shutdown in content.shutdowns):
        numbered(paper, "1", x, y - 2.6, "proven")
        paper.later(partial(_proven, volume, x + 9, y), "P")
    paper.tag("Figure", in_words(content.diagram))
    draw_hookup(paper, y + 10, content.diagram, content.shutdowns)
