"""What the first revision may hold, looked at by itself."""

from io import BytesIO

import pytest
from pyhanko.pdf_utils.generic import ArrayObject, NameObject, NumberObject
from pyhanko.pdf_utils.reader import PdfFileReader

from fieldapp.record.inspection.document import document_findings, pages_of
from tests.record import specimen as made
from tests.record.inspection.edits import (
    cover_figures,
    entries,
    first_page,
    lay,
    made_with,
    numbers,
)


def findings_of(edit):
    reader = PdfFileReader(BytesIO(made_with(edit)), strict=True)
    return "\n".join(document_findings(reader))


def nest_pages(writer):
    """Put the pages one branch further down."""
    pages = writer.root["/Pages"]
    branch = entries(
        Type=NameObject("/Pages"),
        Kids=pages["/Kids"],
        Count=NumberObject(2),
        Parent=writer.root.raw_get("/Pages"),
    )
    kept = list(pages["/Kids"])
    reference = writer.add_object(branch)
    for page in kept:
        page.get_object()["/Parent"] = reference
        writer.mark_update(page)
    pages["/Kids"] = ArrayObject([reference])
    writer.update_container(pages)


def nest_and_cover(writer):
    """Put the pages further down, and a note over the first."""
    cover_figures(writer)
    nest_pages(writer)


def link_inside(writer):
    """Link to another page of the document."""
    page = writer.root["/Pages"]["/Kids"].raw_get(1)
    to = entries(S=NameObject("/GoTo"), D=ArrayObject([page, NameObject("/Fit")]))
    lay(writer, entries(Subtype=NameObject("/Link"), Rect=numbers(60, 690, 360, 710), A=to))


def of_another_kind(writer):
    """Let the technician's field be one to write in."""
    field = writer.root["/AcroForm"]["/Fields"][0]
    field["/FT"] = NameObject("/Tx")
    writer.update_container(field)


def filled_before(writer):
    """Fill the technician's field before anybody signed."""
    field = writer.root["/AcroForm"]["/Fields"][0]
    field["/V"] = writer.add_object(entries(Type=NameObject("/Sig")))
    writer.update_container(field)


@pytest.mark.parametrize("edit", [made.leave, nest_pages, link_inside])
def test_pages_however_nested_and_links_inside_are_what_a_record_may_hold(edit):
    assert findings_of(edit) == ""


def test_pages_are_found_however_deep_they_lie():
    reader = PdfFileReader(BytesIO(made_with(nest_pages)))
    assert len(list(pages_of(reader.root["/Pages"]))) == 2


@pytest.mark.parametrize(
    ("edit", "says"),
    [
        (nest_and_cover, "Something lies over page 1 that is no part of a record"),
        (of_another_kind, "The field Technician is not one to sign in"),
        (filled_before, "The field Technician was filled before anybody signed"),
    ],
)
def test_document_that_holds_something_else_is_found(edit, says):
    assert says in findings_of(edit)


def test_first_page_is_the_one_that_the_edits_change():
    reader = PdfFileReader(BytesIO(made.document()))
    assert first_page(reader)["/Type"] == "/Page"
