"""The last pages: deviations, what happened, people, cautions, job sheet, journal, the end."""

from functools import partial

from fieldapp.record.chapters.shapes.shapes_of_sources import Earlier, Happened, Stated
from fieldapp.record.pages.entries_page import deviation_words
from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD, grouped, lines, printed, width
from fieldapp.record.pages.kit.marks import OUTSIDE, SETTLED, mark
from fieldapp.record.pages.kit.paper import HAIR, INK, SECONDARY, TEXT_WIDTH, Paper
from fieldapp.record.pages.kit.volume import Flow, Volume

TITLE = "People, events and cautions"
NOTE = "who did what, what was reported, and what was warned of"
HALF = 242.0
CARRIED = (
    ("a", "title", "front"), ("b", "who and address", "front"), ("c", "place", "front"),
    ("d", "number, end", ""), ("e", "owner, contact", "front"), ("f", "method", "front"),
    ("g", "the unit", "front"), ("h", "dates of samples", "stated"), ("i", "when done", "entries"),
    ("j", "when issued", ""), ("k", "sampling", "entries"), ("l", "relates only to", "front"),
    ("m", "results, units", "entries"), ("n", "deviations", "deviations"),
    ("o", "who releases", "front"), ("p", "from others", "front"),
)  # fmt: skip
CAUTION = (
    "This record says what was measured and done. It does not permit work on or near energised "
    "parts. The owner’s procedures, local codes and licensed practice decide."
)


def draw_people(flow: Flow) -> None:
    """Draw the last chapter where the sources end, with the end mark."""
    flow.chapter(TITLE, NOTE, "people", gap=4)
    _deviations(flow)
    _happenings(flow)
    _people(flow)
    if flow.volume.content.cautions:
        _cautions(flow)
    _sheet(flow, flow.volume.content.stated)
    _journal(flow)
    _carried(flow)
    _end(flow)


def _deviations(flow: Flow) -> None:
    found = flow.volume.content.deviations
    flow.section("Deviations", "what was outside, why it is kept, who accepted it", 24,
                 name="deviations")  # fmt: skip
    if not found:
        flow.paper.text(0, flow.row(16) + 12, "None.", 8)
    for one in found:
        flow.need(24)
        top = flow.row(13)
        mark(flow.paper, SETTLED if one.settled else OUTSIDE, 3.5, top + 7)
        flow.paper.text(11, top + 9.6, one.label, 8, SEMIBOLD, room=TEXT_WIDTH - 11)
        for words in deviation_words(one):
            for line in lines(words, TEXT_WIDTH - 11, 7.8):
                flow.paper.text(11, flow.more(10) + 7.6, line, 7.8)
    flow.y += 3
    flow.paper.rule(flow.y)


def _happenings(flow: Flow) -> None:
    found = flow.volume.content.happenings
    flow.section("Reported, made safe, sent back", "and what was done again after it", 24)
    if not found:
        flow.paper.text(0, flow.row(16) + 12, "Nothing.", 8)
    for one in found:
        _happening(flow, one)
    flow.paper.rule(flow.y)


def _happening(flow: Flow, one: Happened) -> None:
    said = f"{one.what}: {one.note}" if one.note else one.what
    words = [(line, SEMIBOLD) for line in lines(said, 372, 7.8, SEMIBOLD)]
    again = f"Done again: {'; '.join(one.again)}." if one.again else ""
    words += [(line, REGULAR) for line in lines(again, 372, 7.4)] if again else []
    top, paper = flow.row(4 + 9.4 * len(words)), flow.paper
    y = top + 9
    paper.text(0, y, f"{one.at[5:10]} {one.at[11:16]}", 7.6, REGULAR, SECONDARY)
    paper.text(56, y, one.kind, 7.6, REGULAR, SECONDARY)
    for place, (line, font) in enumerate(words):
        paper.text(108, y + 9.4 * place, line, 7.8 if font == SEMIBOLD else 7.4, font)
    by = flow.volume.initials.get(one.by, one.by)
    paper.text(TEXT_WIDTH, y, by, 7.4, REGULAR, SECONDARY, "right")
    paper.line(0, flow.y, TEXT_WIDTH, flow.y, 0.25, HAIR)


def _people(flow: Flow) -> None:
    flow.section("People", "as the job sheet names them; events: lines of the journal by them", 36)
    for person in flow.volume.content.people:
        name, company = lines(person.name, 150, 8, SEMIBOLD), lines(person.company, 180, 7.8)
        top, paper = flow.row(3 + 9.4 * max(len(name), len(company))), flow.paper
        y = top + 9
        paper.text(0, y, person.initials, 7.6, REGULAR, SECONDARY)
        for place, line in enumerate(name):
            paper.text(34, y + 9.4 * place, line, 8, SEMIBOLD)
        paper.text(190, y, person.role, 7.8)
        for place, line in enumerate(company):
            paper.text(276, y + 9.4 * place, line, 7.8)
        paper.text(TEXT_WIDTH, y, f"{person.events} events", 7.6, REGULAR, SECONDARY, "right")
        paper.line(0, flow.y, TEXT_WIDTH, flow.y, 0.25, HAIR)
    flow.paper.rule(flow.y)


def _cautions(flow: Flow) -> None:
    flow.section("Cautions shown", "each before its step", 24)
    flow.heads(lambda y: y + 2)
    for one in flow.volume.content.cautions:
        text, title = lines(one.text, 290, 7.6), lines(one.title, 146, 7.2)
        top, paper = flow.row(3 + 9 * max(len(text), len(title))), flow.paper
        y = top + 8.6
        paper.text(0, y, one.word, 7.4, SEMIBOLD, room=52)
        for place, line in enumerate(text):
            paper.text(56, y + 9 * place, line, 7.6)
        for place, line in enumerate(title):
            paper.text(356, y + 9 * place, line, 7.2, REGULAR, SECONDARY)
        paper.line(0, flow.y, TEXT_WIDTH, flow.y, 0.25, HAIR)
    flow.paper.rule(flow.y)
    flow.heads(None)


def _sheet(flow: Flow, stated: tuple[Stated, ...]) -> None:
    """Write the job sheet in two columns, filled line by line."""
    heading = flow.volume.content.heading
    note = f"SHA-256 {heading.sheet_sha256[:16]}…, whole in the journal"
    flow.section("What the job sheet stated", note, 40, name="stated")
    flow.heads(lambda y: y + 2)
    half = (len(stated) + 1) // 2
    for left, right in zip(stated[:half], (*stated[half:], None), strict=False):
        cells = [(0.0, _cell(left)), (262.0, _cell(right) if right else ((), ()))]
        high = 3 + 9 * max(len(part) for _, cell in cells for part in cell)
        top = flow.row(high)
        for x, (label, value) in cells:
            for place, line in enumerate(label):
                flow.paper.text(x, top + 8.6 + 9 * place, line, 7.4, REGULAR, SECONDARY)
            for place, line in enumerate(value):
                flow.paper.text(x + 118, top + 8.6 + 9 * place, line, 7.6)
        flow.paper.line(0, flow.y, HALF, flow.y, 0.25, HAIR)
        flow.paper.line(262, flow.y, TEXT_WIDTH, flow.y, 0.25, HAIR)
    flow.paper.rule(flow.y)
    flow.heads(None)


def _cell(one: Stated) -> tuple[tuple[str, ...], tuple[str, ...]]:
    return lines(one.label, 114, 7.4), lines(printed(grouped(one.value)), HALF - 118, 7.6)


def _journal(flow: Flow) -> None:
    content = flow.volume.content
    journal, heading = content.journal, content.heading
    digits = " ".join(journal.hash[place : place + 4] for place in range(0, len(journal.hash), 4))
    checklist = f"{heading.checklist}, revision {heading.checklist_revision}"
    rows = [
        ("Journal", f"{journal.events} events; its last line is number {journal.sequence}"),
        ("its hash", digits),
        ("Checklist", f"{checklist}, SHA-256 {heading.checklist_sha256}"),
        ("Job sheet", f"SHA-256 {heading.sheet_sha256}"),
        ("Program", ", ".join((heading.program, *heading.libraries))),
        *(("Revision", _revised(one)) for one in content.earlier),
        *(("Notice", notice) for notice in content.notices),
    ]  # fmt: skip
    flow.section("Journal", "every touch is kept there, each line holding on to the one before", 60)
    for label, words in rows:
        for place, line in enumerate(lines(words, TEXT_WIDTH - 56, 7.6)):
            y = flow.row(11) + 9.6
            if not place:
                flow.paper.text(0, y, label, 7.2, REGULAR, SECONDARY)
            flow.paper.text(56, y, line, 7.6)
    flow.y += 3
    flow.paper.rule(flow.y)


def _revised(one: Earlier) -> str:
    """Return what became of an earlier revision."""
    return (
        f"{one.revision} was signed by {one.signed_by}, {one.signed_at[:19].replace('T', ' ')}, "
        f"over journal {one.head}; {one.sent_back_by} sent it back "
        f"{one.sent_back_at[:19].replace('T', ' ')}: {one.reason}"
    )


def _carried(flow: Flow) -> None:
    note = "ISO/IEC 17025:2017, 7.8.2.1, by its letters"
    flow.section("Where to find what a report must carry", note, 52)
    flow.row(52)
    top, paper = flow.y - 52, flow.paper
    for place, (letter, words, name) in enumerate(CARRIED):
        x, y = (place % 4) * 129, top + 11 + 11 * (place // 4)
        paper.text(x, y, letter, 7.4, SEMIBOLD)
        end = paper.text(x + 10, y, words, 7.4)
        if name:
            paper.later(partial(_where, flow.volume, name, end + 5, y), "P")
        else:
            paper.text(end + 5, y, "every page", 7.4, REGULAR, SECONDARY)
    paper.rule(flow.y)


def _where(volume: Volume, name: str, x: float, y: float) -> None:
    volume.paper.text(x, y, volume.page_of(name), 7.4, REGULAR, SECONDARY)


def _end(flow: Flow) -> None:
    """Draw the caution and the end mark."""
    heading = flow.volume.content.heading
    words = lines(CAUTION, TEXT_WIDTH - 60, 8)
    flow.y += 12
    flow.need(16 + 10.5 * len(words) + 34)
    paper, top = flow.paper, flow.y
    high = 6 + 10.5 * len(words)
    paper.tag("P")
    paper.box(0, top, TEXT_WIDTH, high, None, INK, 0.7)
    paper.text(8, top + 11, "Caution", 8, SEMIBOLD)
    for place, line in enumerate(words):
        paper.text(48, top + 11 + 10.5 * place, line, 8)
    pages = paper.number  # the end stands on the last page
    count = "1 page" if pages == 1 else f"{pages} pages"
    _mark_of_end(
        paper,
        top + high + 20,
        f"End of record {heading.number}, revision {heading.revision}: {count}, nothing follows",
    )


def _mark_of_end(paper: Paper, y: float, words: str) -> None:
    paper.tag("P")
    middle, half = TEXT_WIDTH / 2, width(words, 7.8, SEMIBOLD) / 2
    paper.text(middle, y, words, 7.8, SEMIBOLD, INK, "middle")
    for x in (middle - half - 12, middle + half + 7):
        paper.box(x, y - 5.2, 5, 5, INK)
    paper.rule(y - 2.6, middle - half - 18)
    paper.rule(y - 2.6, TEXT_WIDTH, middle + half + 18)
