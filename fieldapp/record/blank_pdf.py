"""Draws the blank of a checklist as a PDF to be filled in by hand; equal input, equal bytes."""

from io import BytesIO

from fieldapp.checklist.model import Checklist
from fieldapp.job.sheet import JobSheet
from fieldapp.record.chapters.blanks.blank import blank_of
from fieldapp.record.pages.blanks.blank_pages import draw_blank
from fieldapp.record.pages.kit.paper import A4, Paper, Sheet


def blank_pdf(
    checklist: Checklist, text: bytes, sheet: JobSheet | None = None, *, paper: Sheet = A4
) -> bytes:
    """Return the pages of a blank; `text` is the checklist's file, `sheet` adds its figures."""
    file = BytesIO()
    drawn = Paper(file, paper)
    canvas = drawn.canvas
    canvas.setTitle(f"Blank: {checklist.title}, revision {checklist.revision}")
    canvas.setSubject("To be filled in by hand")
    canvas.setAuthor("")
    canvas.setCreator("fieldapp")
    canvas.setProducer("fieldapp, ReportLab")
    draw_blank(drawn, blank_of(checklist, text, sheet))
    drawn.finish()
    assert not drawn.faults, drawn.faults  # noqa: S101 - every text is wrapped or shortened
    return file.getvalue()
