"""The signatures drawn for people, and the code of the fingerprint; what is checked is the key."""

import segno

from fieldapp.record.chapters.shapes.shapes_of_sources import Signature
from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD, lines, shortened
from fieldapp.record.pages.kit.paper import INK, PEN, RULE, SECONDARY, Paper
from fieldapp.record.pages.kit.volume import Volume, section
from fieldapp.record.structure import Box

WIDE, HIGH = 200.0, 104.0
LEFTS = {"technician": 0.0, "crew lead": 212.0}
HEIGHT = 13 + HIGH + 2
CODE_LEFT, CODE_SIZE = 424.0, 80.0
PEN_WIDE, PEN_HIGH = 184.0, 32.0
FEWEST_FOR_A_CURVE = 3
HALF = 32  # digits of a SHA-256 on one line


def box_of(paper: Paper, role: str, y: float) -> Box:
    """Return the place of a role's signature, for a section whose head is at y."""
    bottom = paper.up(y + 13 + HIGH)
    return Box(paper.number - 1, paper.across(LEFTS[role]), bottom, WIDE, HIGH)


def draw_signed(volume: Volume, y: float) -> None:
    """Draw both boxes and the code."""
    paper, content = volume.paper, volume.content
    volume.boxes = {role: box_of(paper, role, y) for role in LEFTS}
    paper.tag("H2")
    section(paper, y, "Signed", "the drawing is for people; the key is what is checked")
    signed = {signature.role: signature for signature in content.signatures}
    for role, left in LEFTS.items():
        paper.tag("P")
        paper.box(left, y + 13, WIDE, HIGH, None, RULE, 0.5)
        if role in signed:
            _signature(paper, left, y + 13, signed[role])
        else:
            _unsigned(paper, left, y + 13, role)
    heading = content.heading
    text = f"{heading.number} r{heading.revision} sha256 {volume.fingerprint}"
    paper.tag("Figure", f"QR code: {text}")
    _code(paper, text, CODE_LEFT, y + 13)
    paper.tag("P")
    words = "The code holds number and fingerprint of the record."
    for place, line in enumerate(lines(words, CODE_SIZE, 6.6)):
        paper.text(CODE_LEFT, y + 13 + CODE_SIZE + 8 + 8.2 * place, line, 6.6, REGULAR, SECONDARY)


def _signature(paper: Paper, left: float, top: float, signature: Signature) -> None:
    _strokes(paper, left + 8, top + 3, signature.strokes)
    if signature.typed:
        _typed(paper, left + 8, top + 31, signature.typed)
    paper.line(left + 8, top + 37, left + WIDE - 8, top + 37, 0.5, INK)
    paper.text(left + WIDE - 8, top + 47.5, signature.role, 8, REGULAR, SECONDARY, "right")
    paper.text(left + 8, top + 47.5, shortened(signature.name, 130, 9, SEMIBOLD), 9, SEMIBOLD)
    y = top + 58
    for line in lines(signature.meaning, WIDE - 16, 7.6)[:2]:
        paper.text(left + 8, y, line, 7.6, room=WIDE - 16)
        y += 9.2
    when = signature.at[:19].replace("T", " ")
    end = paper.text(left + 8, top + 76.5, when, 7.6, SEMIBOLD)
    paper.text(end + 4, top + 76.5, "by the tablet’s clock", 7.2, REGULAR, SECONDARY)
    _digits(paper, left + 8, top + 84.5, "Key", signature.key)
    _digits(paper, left + 8, top + 92.5, "", signature.key[HALF:])
    _digits(paper, left + 8, top + 100.5, "Journal", signature.head, " …")


def _typed(paper: Paper, left: float, y: float, name: str) -> None:
    """Set the name that was typed instead of drawn, and say that it was."""
    end = paper.text(left, y, shortened(name, 138, 12, REGULAR), 12)
    paper.text(end + 5, y, "name typed", 7.2, REGULAR, SECONDARY)


def _digits(paper: Paper, left: float, y: float, label: str, digits: str, after: str = "") -> None:
    paper.text(left, y, label, 6.4, REGULAR, SECONDARY)
    shown = digits[:HALF]
    groups = " ".join(shown[place : place + 4] for place in range(0, len(shown), 4))
    words = f"{groups}{after}" if groups else "not known where it was issued" if label else ""
    paper.text(left + 26, y, words, 6.6)


def _unsigned(paper: Paper, left: float, top: float, role: str) -> None:
    paper.line(left + 8, top + 37, left + WIDE - 8, top + 37, 0.5, RULE)
    paper.text(left + 8, top + 47.5, "Not signed", 9, SEMIBOLD)
    paper.text(left + WIDE - 8, top + 47.5, role, 8, REGULAR, SECONDARY, "right")


def _strokes(
    paper: Paper, left: float, top: float, strokes: tuple[tuple[tuple[str, str], ...], ...]
) -> None:
    """Draw pen strokes as smooth curves through their points."""
    for stroke in strokes:
        points = [(left + float(x) * PEN_WIDE, top + float(y) * PEN_HIGH) for x, y in stroke]
        if len(points) >= FEWEST_FOR_A_CURVE:
            paper.smooth(points, PEN, 1.05)


def _code(paper: Paper, text: str, left: float, top: float) -> None:
    """Draw the text as a QR code (ISO/IEC 18004), each run of dark squares as one bar."""
    rows = segno.make(text, error="m", micro=False, boost_error=False).matrix
    square = CODE_SIZE / len(rows)
    for down, row in enumerate(rows):
        across = 0
        while across < len(row):
            begin = across
            while across < len(row) and row[across]:
                across += 1
            if across > begin:
                paper.box(left + begin * square, top + down * square,
                          (across - begin) * square, square + 0.02, INK)  # fmt: skip
            across += 1
