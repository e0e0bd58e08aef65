"""An edit is found wherever it is made, and the words say what it did."""

import pytest

from tests.record import specimen as made
from tests.record.inspection.edits import EDITS, made_with

# What a reader is told when the edit is made in a revision that nobody signed.
REPLACED = {
    "page swapped": "page 1",
    "stream rewritten": "page 1",
    "font taken away": "page 1, page 2",
    "shadow page": "the order or number of the pages",
    "pages turned": "the order or number of the pages",
    "page left out": "the order or number of the pages",
    "hidden layer": "the layers of the document",
    "note over figures": "page 1",
    "link out": "page 1",
    "field added": "the fields of the document",
    "field draws": "a signature field",
    "field moved": "a signature field",
    "fields swapped": "the fields of the document",
    "fields renamed": "a signature field",
    "title changed": "the document’s properties",
    "metadata changed": "the document’s properties",
    "program at opening": "what the document does by itself",
    "program at closing": "what the document does by itself",
    "program carried": "the files that the document carries",
    "program on a page": "page 1",
    "program in a field": "a signature field",
    "second form": "the fields of the document",
    "fields drawn by the viewer": "the fields of the document",
    "cover of others": "the cover of the document",
    "attachment rewritten": "the attached record",
    "second attachment": "the files that the document carries",
    "attachment renamed": "the files that the document carries",
    "attachment of two contents": "the attached record",
    "attachment of the whole": "the files that the document carries",
    "attachment of a page": "page 1",
    "page hidden": "the files that the document carries",
    "certificates carried": "the certificates that the document carries",
    "loose object": "parts of the document",
}
# What a reader is told when the document that the technician signs was made with it.
HELD = {
    "hidden layer": "The document has layers, so that not everybody sees the same",
    "note over figures": "Something lies over page 1 that is no part of a record",
    "link out": "Page 1 leads out of the document",
    "field added": "fields are not the technician’s, then the crew lead’s, and no more",
    "field draws": "The field Technician draws something over the page",
    "fields swapped": "fields are not the technician’s, then the crew lead’s, and no more",
    "fields renamed": "fields are not the technician’s, then the crew lead’s, and no more",
    "program at opening": "The document does something by itself when it is opened",
    "program at closing": "The document does something by itself when it is opened",
    "program carried": "The document carries a program (JavaScript)",
    "program on a page": "Page 1 does something by itself when it is shown",
    "program in a field": "The field Technician does something when it is touched",
    "second form": "The document carries a second form beside its pages (XFA)",
    "fields drawn by the viewer": "The document lets the viewer draw its fields",
    "cover of others": "The document is a cover with other documents in it",
    "second attachment": "does not hold exactly one attachment record.json",
    "attachment renamed": "does not hold exactly one attachment record.json",
    "attachment of two contents": "The attached file leads to more than one content",
    "attachment of the whole": "The attached file leads to more than one content",
    "attachment of a page": "Page 1 carries a file of its own",
    "page hidden": "The document carries pages that are not shown",
    "certificates carried": "The document carries certificates of its own",
}
# Signing takes the first of these out again; after the other the lead's field is no more to find.
CANNOT_BE_SIGNED = {"fields drawn by the viewer", "fields renamed"}
SIGNED_TOO = sorted(EDITS.keys() - CANNOT_BE_SIGNED)


def test_every_edit_is_tried():
    assert REPLACED.keys() == EDITS.keys()


@pytest.mark.parametrize("edit", sorted(EDITS.keys() - {"fields renamed"}))
def test_edit_after_both_signatures_is_found(edit, found):
    findings = found(made.revised(made.closed(), EDITS[edit]))
    assert "The file was changed 3 times, for 2 signatures; what nobody signed" in findings
    assert f"replaced {REPLACED[edit]}" in findings


def test_signature_fields_renamed_after_signing_are_found(found):
    findings = found(made.revised(made.closed(), EDITS["fields renamed"]))
    assert "The signatures are not the technician’s, then the crew lead’s" in findings


@pytest.mark.parametrize("edit", SIGNED_TOO)
def test_edit_between_the_signatures_is_found(edit, found):
    findings = found(made.forged_lead(made.revised(made.signed(), EDITS[edit])))
    assert f"what nobody signed replaced {REPLACED[edit]}" in findings


@pytest.mark.parametrize("edit", sorted(EDITS))
def test_edit_between_the_pages_and_the_first_signature_is_found(edit, found):
    pdf = made.forged_lead(made.forged_technician(made.revised(made.document(), EDITS[edit])))
    assert f"what nobody signed replaced {REPLACED[edit]}" in found(pdf)


@pytest.mark.parametrize("edit", SIGNED_TOO)
def test_edit_hidden_in_the_leads_signing_is_found(edit, found):
    findings = found(made.forged_lead(made.signed(), EDITS[edit]))
    assert "The crew lead’s revision" in findings
    assert "beside the signature" in findings


@pytest.mark.parametrize("edit", SIGNED_TOO)
def test_edit_hidden_in_the_technicians_signing_is_found(edit, found):
    findings = found(made.forged_lead(made.forged_technician(made.document(), EDITS[edit])))
    assert "The technician’s revision" in findings
    assert "beside the signature" in findings


@pytest.mark.parametrize("edit", HELD)
def test_document_that_holds_more_than_a_record_is_found_whatever_its_version(edit, found):
    pdf = made.forged_lead(made.forged_technician(made_with(EDITS[edit])))
    assert HELD[edit] in found(pdf)


def test_document_written_anew_by_another_library_is_sound(found):
    pdf = made.forged_lead(made.forged_technician(made_with(made.leave)))
    assert found(pdf) == ""
