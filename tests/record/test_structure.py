"""The document to sign holds pages, record and fields; other libraries read it the same way."""

import io
import time

import pikepdf
import pytest
from pypdf import PdfReader

from fieldapp.record.structure import Box, prepare
from tests.record import specimen as made


@pytest.fixture(scope="module")
def opened():
    with pikepdf.open(io.BytesIO(made.document())) as pdf:
        yield pdf


def test_same_pages_and_record_give_the_same_bytes():
    first = prepare(made.pages(), made.RECORD, *made.BOXES)
    second_begins = int(time.time()) + 1
    while time.time() < second_begins:  # a date written from the clock would differ now
        time.sleep(0.05)
    assert prepare(made.pages(), made.RECORD, *made.BOXES) == first


def test_another_record_gives_another_identifier(opened):
    with pikepdf.open(io.BytesIO(prepare(made.pages(), b"{}", *made.BOXES))) as other:
        assert bytes(other.trailer.ID[0]) != bytes(opened.trailer.ID[0])
        assert bytes(other.trailer.ID[0]) == bytes(other.trailer.ID[1])


def test_document_is_one_revision_without_a_fault(opened):
    assert made.document().count(b"%%EOF") == 1
    assert opened.check_pdf_syntax() == []


def test_pages_stay_as_they_were_drawn(opened):
    with pikepdf.open(io.BytesIO(made.pages())) as drawn:
        assert len(opened.pages) == len(drawn.pages) == 2
        for page, before in zip(opened.pages, drawn.pages, strict=True):
            assert page.Contents.read_bytes() == before.Contents.read_bytes()
            assert page.MediaBox == before.MediaBox
        assert opened.docinfo["/Title"] == "Record R-0417"
        assert opened.docinfo["/ModDate"] == drawn.docinfo["/ModDate"]


def test_record_is_attached_as_it_was_given():
    assert dict(PdfReader(io.BytesIO(made.document())).attachments) == {
        "record.json": [made.RECORD]
    }


def test_attachment_is_associated_with_the_document_as_its_figures(opened):
    # ISO 32000-2 (2020), 14.13 and 7.11.4; ISO 19005-3 (2012), 6.8
    (attached,) = opened.Root.AF
    assert attached.AFRelationship == "/Data"
    assert attached.EF.F.Subtype == "/application/json"
    assert attached.EF.F.Params.Size == len(made.RECORD)
    assert attached.UF == "record.json"
    assert opened.Root.Names.EmbeddedFiles.Names[1].objgen == attached.objgen


def test_reader_shows_language_and_title(opened):
    assert opened.Root.Lang == "en-GB"
    assert opened.Root.ViewerPreferences.DisplayDocTitle is True


def test_language_can_be_another():
    pdf = prepare(made.pages(), made.RECORD, *made.BOXES, language="de-DE")
    with pikepdf.open(io.BytesIO(pdf)) as german:
        assert german.Root.Lang == "de-DE"


def test_both_fields_are_empty_and_in_their_places(opened):
    technician, lead = opened.Root.AcroForm.Fields
    for field, name, left in ((technician, "Technician", 60), (lead, "CrewLead", 300)):
        assert str(field.T) == name
        assert field.FT == "/Sig"
        assert "/V" not in field
        assert [float(corner) for corner in field.Rect] == [left, 100, left + 200, 150]
        assert field.P.objgen == opened.pages[1].objgen
    assert [note.objgen for note in opened.pages[1].Annots] == [technician.objgen, lead.objgen]


def test_field_draws_nothing_over_the_page(opened):
    for field in opened.Root.AcroForm.Fields:
        assert field.AP.N.read_bytes().strip() == b""


def test_field_is_named_for_people_who_hear_the_page(opened):
    technician, lead = opened.Root.AcroForm.Fields
    assert technician.TU == "Signature of the technician"
    assert lead.TU == "Signature of the crew lead"


def test_only_the_leads_field_locks_the_document(opened):
    technician, lead = opened.Root.AcroForm.Fields
    assert "/Lock" not in technician
    assert (lead.Lock.Action, lead.Lock.P) == ("/All", 1)


def test_fields_may_lie_on_any_page():
    boxes = (Box(0, 10, 20, 30, 40), Box(1, 10.5, 20, 30, 40))
    with pikepdf.open(io.BytesIO(prepare(made.pages(), made.RECORD, *boxes))) as pdf:
        first, second = pdf.Root.AcroForm.Fields
        assert first.P.objgen == pdf.pages[0].objgen
        assert second.P.objgen == pdf.pages[1].objgen
        assert float(second.Rect[0]) == pytest.approx(10.5)
