"""The front page: how it stands, what and who, key figures, the hookup drawn, who signed."""

from functools import partial

from fieldapp.record.chapters.shapes import Deviation, Figure, Repeat
from fieldapp.record.chapters.shapes_of_sources import Content, Person
from fieldapp.record.pages.charts import track
from fieldapp.record.pages.drawing import HEIGHT, draw_hookup, in_words
from fieldapp.record.pages.lettering import (
    MINUS,
    REGULAR,
    SEMIBOLD,
    grouped,
    lines,
    shortened,
    width,
)
from fieldapp.record.pages.marks import (
    INSIDE,
    OPEN,
    OUTSIDE,
    PAST_OUTSIDE,
    SETTLED,
    mark,
    mark_of,
    numbered,
    verdict,
)
from fieldapp.record.pages.open_steps import draw_open
from fieldapp.record.pages.paper import (
    BAD,
    GOOD,
    HAIR,
    INK,
    OIL_PIPE,
    RULE,
    SECONDARY,
    TEXT_WIDTH,
    TINT,
    Paper,
)
from fieldapp.record.pages.signature_boxes import HEIGHT as SIGNED_HEIGHT
from fieldapp.record.pages.signature_boxes import draw_signed
from fieldapp.record.pages.symbols import valve
from fieldapp.record.pages.volume import Volume, section

KEY_ROW, SECOND_LINE = 12.6, 8.8
LABEL_ROOM = 186.0
LINE = 12.0
CAUTION = (
    "This record says what was measured and done. It permits no energised work: the owner’s "
    "procedures, local codes and licensed practice decide."
)


def draw_front(volume: Volume) -> None:
    """Draw the front page."""
    paper, content = volume.paper, volume.content
    volume.open_page("", name="front")
    _title(paper, content)
    _outcome(paper, content)
    y = _facts(paper, content, 155)
    signed = paper.bottom - 10 - SIGNED_HEIGHT
    drawn = signed - 13 - HEIGHT - 13
    rows = min(5, max(1, len(content.deviations) + len(content.repeats)))
    room = drawn - 18 - LINE * (rows - 1) - 17 - 18 - y - 12
    y = _figures(paper, content.figures, y + 12, room)
    y = _deviations(volume, y + 18, until=drawn - 13)
    draw_open(paper, content, y + 20, until=drawn - 18)
    _hookup(volume, drawn)
    draw_signed(volume, signed)
    paper.tag("P")
    end = paper.text(0, paper.bottom, "Caution", 7.2, SEMIBOLD)
    paper.text(end + 4, paper.bottom, CAUTION, 7.2, room=TEXT_WIDTH - end - 4)
    volume.close_page()


def _title(paper: Paper, content: Content) -> None:
    heading = content.heading
    paper.tag("H1")
    number = shortened(heading.number, 200, 18, SEMIBOLD)
    paper.text(TEXT_WIDTH, 70, number, 18, SEMIBOLD, INK, "right")
    paper.text(TEXT_WIDTH, 84, f"record, revision {heading.revision}", 9.2, REGULAR, SECONDARY,
               "right")  # fmt: skip
    paper.text(0, 70, shortened(heading.title, 330, 18, SEMIBOLD), 18, SEMIBOLD)
    paper.text(0, 84, "Drying in service: a skid connected to an energised transformer", 9.2,
               REGULAR, SECONDARY)  # fmt: skip


def _outcome(paper: Paper, content: Content) -> None:
    outcome = content.outcome
    good = outcome.state == "proven" and not outcome.deviations_open
    colour, kind = (GOOD, INSIDE) if good else (BAD, OUTSIDE)
    if outcome.state == "awaits the crew lead":
        colour, kind = RULE, OPEN
    paper.tag("P")
    paper.box(0, 94, TEXT_WIDTH, 46, TINT)
    paper.box(0, 94, 3, 46, colour)
    mark(paper, kind, 24, 117, 24)
    paper.text(46, 113.5, shortened(outcome.sentence, 452, 14, SEMIBOLD), 14, SEMIBOLD)
    paper.text(46, 129, outcome.counts, 8.4, room=452)


def _facts(paper: Paper, content: Content, y: float) -> float:
    """Write what, where and who in two columns; return the lower end of the longer."""
    heading = content.heading
    crew = "; ".join(_by_role(content.people))
    began, issued = (text[:16].replace("T", " ") for text in (heading.began, heading.issued))
    checklist = f"Checklist “{heading.checklist}”, revision {heading.checklist_revision}"
    left = (
        ("On what", " ".join(f"{grouped(line)};" for line in heading.unit_lines).rstrip(";")),
        ("Method", f"{checklist}, SHA-256 {_groups(heading.checklist_sha256[:16])}"),
        ("Relates to", "this unit, this hookup and this time only"),
    )  # fmt: skip
    right = (
        ("Where", heading.place),
        ("Owner", heading.owner),
        ("When", f"{began} to {issued}"),
        ("By whom", f"{crew}; {heading.crew}"),
    )
    ends = [_column(paper, 0, y, left), _column(paper, 262, y, right)]
    return max(ends)


def _by_role(people: tuple[Person, ...]) -> list[str]:
    """Return who took part, one phrase for each role.

    >>> ada = Person("Ada Moor", "AM", "technician", "Drying", 3)
    >>> _by_role((ada, Person("Al Moon", "AM2", "technician", "Drying", 1)))
    ['Ada Moor, Al Moon, technicians']
    """
    roles: dict[str, list[str]] = {}
    for person in people:
        if person.events:
            roles.setdefault(person.role, []).append(person.name)
    return [
        f"{', '.join(names)}, {role}{'s' if len(names) > 1 else ''}"
        for role, names in roles.items()
    ]


def _column(paper: Paper, x: float, y: float, facts: tuple[tuple[str, str], ...]) -> float:
    room = 202 if x == 0 else 192
    for label, words in facts:
        paper.tag("P")
        paper.text(x, y, label, 7.2, REGULAR, SECONDARY)
        kept = lines(words, room, 8)[:3]
        for line in kept:
            paper.text(x + 50, y, line, 8, room=room)
            y += LINE
    return y


def _groups(digits: str) -> str:
    return " ".join(digits[place : place + 4] for place in range(0, len(digits), 4))


def _figures(paper: Paper, figures: tuple[Figure, ...], y: float, room: float) -> float:
    """Write the key figures, as many as there is room for; return the lower end."""
    note = "bar: allowed range; dot: value; thick line through it: uncertainty, k = 2"
    paper.tag("H2")
    section(paper, y, "Key figures against their limits", note)
    if not figures:
        paper.tag("P")
        paper.text(0, y + 17, "None is known yet.", 8, REGULAR, SECONDARY)
        return y + 20
    end, y = y + room, y + 17
    for figure in figures:
        label = lines(figure.label, LABEL_ROOM, 8)
        if y + SECOND_LINE * (len(label) - 1) > end:
            break
        y = _figure(paper, y, figure, label)
    return y - KEY_ROW + 4


def _figure(paper: Paper, y: float, figure: Figure, label: tuple[str, ...]) -> float:
    """Write one key figure; return the baseline of the next."""
    paper.tag("P")
    for place, line in enumerate(label):
        end = paper.text(0, y + SECOND_LINE * place, line, 8)
    if len(label) == 1 and end + 5 + width(figure.step, 6.8) <= LABEL_ROOM:
        paper.text(end + 5, y, figure.step, 6.8, REGULAR, SECONDARY)
    paper.decimal(212, y, figure.value, 8.6, SEMIBOLD)
    paper.text(232, y, figure.unit, 7.6, REGULAR, SECONDARY, room=27)
    judged = figure.judgement
    paper.text(260, y, shortened(judged.limits, 64, 8), 8, room=64)
    low, high = (float(text) if text else None for text in (judged.low, judged.high))
    if low is not None or high is not None:
        track(paper, 326, y, _meaning(figure.value), _meaning(figure.uncertainty), low, high)
    settled = judged.words.endswith(("accepted", "explained"))
    kind = mark_of(judged.place, settled=settled)
    verdict(paper, kind, 414, y, shortened(judged.words, 79, 7.8, SEMIBOLD), room=80)
    y += SECOND_LINE * (len(label) - 1)
    paper.line(0, y + 4, TEXT_WIDTH, y + 4, 0.25, HAIR)
    return y + KEY_ROW


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
    if any(shutdown.fitted for shutdown in content.shutdowns):
        numbered(paper, "1", x, y - 2.6, "proven")
        paper.later(partial(_proven, volume, x + 9, y), "P")
    paper.tag("Figure", in_words(content.diagram))
    draw_hookup(paper, y + 10, content.diagram, content.shutdowns)
