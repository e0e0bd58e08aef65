"""Draws the pages of a record as a PDF; equal content gives equal bytes.

::

    rendered = render(content, fingerprint=fingerprint_of(record_json))
    rendered.pdf, rendered.technician, rendered.lead, rendered.faults
"""

from dataclasses import dataclass
from datetime import UTC, datetime
from io import BytesIO

from fieldapp.record.chapters.shapes.shapes_of_sources import Content
from fieldapp.record.pages.entries_page import draw_entries
from fieldapp.record.pages.evacuation.evacuation_page import draw_evacuation
from fieldapp.record.pages.front.front_page import draw_front
from fieldapp.record.pages.kit.paper import A4, Paper, Sheet
from fieldapp.record.pages.kit.tags import Tag
from fieldapp.record.pages.kit.volume import Volume
from fieldapp.record.pages.people_page import draw_people
from fieldapp.record.pages.photos_page import draw_photos
from fieldapp.record.pages.shutdown_page import draw_shutdowns
from fieldapp.record.pages.sources_pages import draw_sources
from fieldapp.record.structure import Box


@dataclass(frozen=True, slots=True)
class RenderedRecord:
    """The pages, where the two signatures belong, what did not fit, and what each part is."""

    pdf: bytes
    technician: Box
    lead: Box
    faults: tuple[str, ...]
    tags: tuple[Tag, ...]


def render(content: Content, *, fingerprint: str, sheet: Sheet = A4) -> RenderedRecord:
    """Return the pages of a record; `fingerprint` is that of its JSON."""
    file = BytesIO()
    paper = Paper(file, sheet)
    _describe(paper, content)
    volume = Volume(paper, content, fingerprint)
    flow = draw_front(volume)
    draw_evacuation(flow)
    draw_shutdowns(flow)
    draw_entries(flow)
    draw_photos(flow)
    draw_sources(flow)
    draw_people(flow)
    flow.close()
    paper.finish()
    boxes = volume.boxes
    return RenderedRecord(
        file.getvalue(), boxes["technician"], boxes["crew lead"], tuple(paper.faults),
        tuple(paper.tags.found),
    )  # fmt: skip


def _describe(paper: Paper, content: Content) -> None:
    """Write title and dates into the document; its maker is the program, not a person."""
    heading, canvas = content.heading, paper.canvas
    canvas.setTitle(f"{heading.kind.capitalize()} {heading.number}, revision {heading.revision}")
    canvas.setSubject(f"{heading.title}: {heading.unit}, {heading.site}")
    canvas.setAuthor("")
    canvas.setCreator(heading.program)
    canvas.setProducer(f"{heading.program}, ReportLab")
    canvas.setKeywords("")
    issued = datetime.fromisoformat(heading.issued).astimezone(UTC)
    # The library takes a date from nowhere but the environment, which belongs to the process.
    canvas._doc._timeStamp.YMDhms = issued.timetuple()[:6]  # noqa: SLF001
