"""The head of the front page: how it stands, what it is of, where, when, and by whom."""

from fieldapp.record.chapters.front.heading import COMMISSIONING
from fieldapp.record.chapters.shapes.shapes_of_sources import Content, Person
from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD, grouped, lines, shortened
from fieldapp.record.pages.kit.marks import INSIDE, OPEN, OUTSIDE, mark
from fieldapp.record.pages.kit.paper import (
    BAD,
    GOOD,
    INK,
    RULE,
    SECONDARY,
    TEXT_WIDTH,
    TINT,
    Paper,
)

LINE = 12.0
FROM_OTHERS = "oil_sample"


def draw_facts(paper: Paper, content: Content) -> float:
    """Draw title, outcome and facts; return where they end."""
    _title(paper, content)
    _outcome(paper, content)
    return _facts(paper, content, 155)


def _title(paper: Paper, content: Content) -> None:
    heading = content.heading
    paper.tag("H1")
    number = shortened(heading.number, 200, 18, SEMIBOLD)
    paper.text(TEXT_WIDTH, 70, number, 18, SEMIBOLD, INK, "right")
    paper.text(TEXT_WIDTH, 84, f"record, revision {heading.revision}", 9.2, REGULAR, SECONDARY,
               "right")  # fmt: skip
    paper.text(0, 70, shortened(heading.title, 330, 18, SEMIBOLD), 18, SEMIBOLD)
    words = shortened(_subtitle(content), 380, 9.2)
    paper.text(0, 84, words, 9.2, REGULAR, SECONDARY)


def _subtitle(content: Content) -> str:
    heading = content.heading
    if heading.follows:
        return f"Follows commissioning record {heading.follows}"
    if heading.kind == COMMISSIONING:
        return "Drying in service: a skid connected to an energised transformer"
    return f"{heading.unit}, {heading.site}"


def _outcome(paper: Paper, content: Content) -> None:
    outcome = content.outcome
    good = outcome.state in {"proven", "done"} and not outcome.deviations_open
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
        ("Relates to", f"this unit, this {_what(content)} and this time only"),
        ("From others", _from_others(content)),
        *_before(content),
    )
    right = (
        ("Where", heading.place),
        ("Owner", heading.owner),
        ("When", f"{began} to {issued}"),
        ("By whom", f"{crew}; {heading.crew}"),
    )
    ends = [_column(paper, 0, y, left), _column(paper, 262, y, right)]
    return max(ends)


def _from_others(content: Content) -> str:
    """Return which results are not the crew's own."""
    if any(one.section == FROM_OTHERS for one in content.stated):
        return "oil samples before the job, as the job sheet states them"
    return "nothing"


def _what(content: Content) -> str:
    return "hookup" if content.heading.kind == COMMISSIONING else "job"


def _before(content: Content) -> tuple[tuple[str, str], ...]:
    """Return what this record comes after: an earlier revision, the hookup's record."""
    heading, found = content.heading, []
    if heading.follows:
        head = _groups(heading.follows_head[:16])
        found.append(("Follows", f"record {heading.follows}, journal {head}"))
    if content.earlier:
        last = content.earlier[-1]
        words = f"revision {last.revision}, journal {_groups(last.head[:16])}"
        back = f"sent back by {last.sent_back_by}, {last.sent_back_at[:16].replace('T', ' ')}"
        found.append(("Replaces", f"{words}; {back}"))
        found.append(("because", last.reason))
    return tuple(found)


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
