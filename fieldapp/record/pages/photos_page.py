"""The photos: two beside each other, each with what it shows, its file's name and its SHA-256."""

from base64 import b64decode

from fieldapp.record.chapters.shapes.shapes_of_sources import Photo
from fieldapp.record.pages.kit.lettering import REGULAR, SEMIBOLD, lines, shortened
from fieldapp.record.pages.kit.paper import RULE, SECONDARY, TINT, Paper
from fieldapp.record.pages.kit.volume import Flow

NAME = "photos"
NOTE = "made smaller; the SHA-256 is that of the file as it was taken"
WIDE, HIGH, BETWEEN = 246.0, 184.0, 12.0
NONE_HIGH = 34.0
LINE = 8.6
HALF = 4  # groups of a SHA-256 on one line


def draw_photos(flow: Flow) -> None:
    """Draw the photos, if there are any."""
    photos = flow.volume.content.photos
    if not photos:
        return
    flow.chapter("Photos", NOTE, NAME, gap=8, needs=150)
    for place in range(0, len(photos), 2):
        _pair(flow, photos[place : place + 2])


def _pair(flow: Flow, photos: tuple[Photo, ...]) -> None:
    words = [_words(flow, photo) for photo in photos]
    high = NONE_HIGH if all(photo.missing for photo in photos) else HIGH
    height = high + 10 + LINE * max(len(said) for said in words) + 10
    flow.need(height)
    top, paper = flow.y, flow.paper
    for place, (photo, said) in enumerate(zip(photos, words, strict=True)):
        x = place * (WIDE + BETWEEN)
        _picture(paper, x, top, high, photo)
        paper.tag("P")
        for number, line in enumerate(said):
            font = SEMIBOLD if not number else REGULAR
            paper.text(x, top + high + 10 + LINE * number, line, 7.4, font)
    flow.y += height


def _picture(paper: Paper, x: float, top: float, high: float, photo: Photo) -> None:
    if photo.missing:
        paper.tag("P")
        paper.box(x, top, WIDE, high, TINT, RULE)
        for number, line in enumerate(lines(photo.missing, WIDE - 24, 8)):
            paper.text(x + 12, top + 18 + 10 * number, line, 8, REGULAR, SECONDARY)
        return
    paper.tag("Figure", f"Photo: {photo.label}, {photo.step}")
    paper.picture(x, top, WIDE, high, b64decode(photo.jpeg))


def _words(flow: Flow, photo: Photo) -> list[str]:
    by = flow.volume.initials.get(photo.by, photo.by)
    groups = [photo.sha256[at : at + 8] for at in range(0, len(photo.sha256), 8)]
    return [
        shortened(f"{photo.label}: {photo.step}", WIDE, 7.4, SEMIBOLD),
        shortened(f"{photo.at[:16].replace('T', ' ')}, {by}; file {photo.name}", WIDE, 7.4),
        f"SHA-256 {' '.join(groups[:HALF])}",
        " ".join(groups[HALF:]),
    ]
