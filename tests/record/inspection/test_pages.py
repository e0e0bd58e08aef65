"""The pages are made again from the attached data: same program, same pages."""

import io
import json
import zlib
from importlib.metadata import version

import pikepdf
import pytest
import rfc8785
from pyhanko.pdf_utils.generic import StreamObject
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.pdf_utils.xref import write_xref_table

from fieldapp.crew.people import Role
from fieldapp.record.findings import Pages
from fieldapp.record.inspection.pages import DIFFERENT, IMPOSSIBLE
from fieldapp.record.rendering import record_of
from fieldapp.record.verification import verify
from tests.record import small_job
from tests.record import specimen as made
from tests.record.inspection.edits import EDITS, made_with

UNSEEN = {"fields drawn by the viewer"}  # signing takes it out again


@pytest.fixture(scope="module")
def crew():
    return small_job.signed_off()


@pytest.fixture(scope="module")
def drawn(crew):
    """Return the record of a small job as this program draws it: its data and its PDF."""
    return record_of(crew.job, crew.now, small_job.HEAD, version("fieldapp"))


def signed(pdf, crew):
    """Sign past every refusal, as those who signed the job off."""
    people = [made.signer(name, role) for name, role in zip(
        (small_job.TECHNICIAN, small_job.LEAD), Role, strict=True)]  # fmt: skip
    times = [crew.job.state.signature(role.value).at for role in Role]
    first = made.forged_technician(pdf, by=people[0], at=times[0])
    return made.forged_lead(first, by=people[1], at=times[1])


def test_record_as_the_tablet_made_it_shows_its_data(drawn, crew, roster):
    findings = verify(made.closed_by_crew(drawn[1], crew.job), roster)
    assert findings.findings == findings.notes == ()
    assert findings.pages is Pages.SHOW_THE_DATA


def packed_otherwise(pdf):
    """Return a document of the same parts, as another build of zlib would pack them."""
    reader = PdfFileReader(io.BytesIO(pdf))
    written = io.BytesIO(b"%PDF-1.7\n")
    written.seek(0, io.SEEK_END)
    places = {}
    for part in sorted(reader.xrefs.explicit_refs_in_revision(0), key=lambda one: one.idnum):
        kept = reader.get_object(part)
        if isinstance(kept, StreamObject) and kept.get("/Filter") == "/FlateDecode":
            kept = StreamObject(dict(kept), encoded_data=zlib.compress(kept.data, 1))
        places[(part.generation, part.idnum)] = written.tell()
        written.write(b"%d %d obj\n" % (part.idnum, part.generation))
        kept.write_to_stream(written, None)
        written.write(b"\nendobj\n")
    begins = written.tell()
    write_xref_table(written, places)
    written.write(b"trailer\n")
    reader.trailer.flatten(0).write_to_stream(written)
    written.write(b"\nstartxref\n%d\n%%%%EOF\n" % begins)
    return written.getvalue()


def test_pages_packed_otherwise_still_show_the_data(drawn, crew, roster):
    packed = packed_otherwise(drawn[1])
    assert len(packed) > len(drawn[1])
    findings = verify(signed(packed, crew), roster)
    assert findings.findings == ()
    assert findings.pages is Pages.SHOW_THE_DATA


@pytest.mark.parametrize("edit", sorted(EDITS.keys() - UNSEEN))
def test_document_made_with_an_edit_is_found(edit, drawn, crew, roster):
    pdf = signed(made_with(EDITS[edit], drawn[1]), crew)
    assert verify(pdf, roster).findings


def data_changed(drawn, change):
    """Return the pages with other data attached to them."""
    record = json.loads(drawn[0])
    change(record)
    return with_data(drawn, rfc8785.dumps(record))


def with_data(drawn, content):
    written = io.BytesIO()
    with pikepdf.open(io.BytesIO(drawn[1])) as pdf:
        file = pdf.Root.Names.EmbeddedFiles.Names[1].EF.F
        file.write(content)
        pdf.save(written, object_stream_mode=pikepdf.ObjectStreamMode.disable)
    return written.getvalue()


def test_data_that_the_pages_do_not_show_is_found(drawn, crew, roster):
    def nicer(record):
        record["outcome"]["sentence"] = "Everything was inside."

    findings = verify(signed(data_changed(drawn, nicer), crew), roster)
    assert findings.findings == (DIFFERENT,)
    assert findings.pages is Pages.DO_NOT_SHOW_THE_DATA


def test_data_that_gives_no_pages_is_found(drawn, crew, roster):
    findings = verify(signed(data_changed(drawn, lambda one: one.pop("outcome")), crew), roster)
    assert findings.findings == (IMPOSSIBLE,)
    assert findings.pages is Pages.NOT_COMPARED


def test_data_in_another_spelling_is_found(drawn, crew, roster):
    spelled = json.dumps(json.loads(drawn[0]), indent=1).encode()
    assert verify(signed(with_data(drawn, spelled), crew), roster).findings == (IMPOSSIBLE,)


def test_pages_of_another_version_are_not_compared(crew, roster):
    _, pdf = record_of(crew.job, crew.now, small_job.HEAD, "0.0.9")
    findings = verify(made.closed_by_crew(pdf, crew.job), roster)
    assert findings.sound
    assert findings.notes == ("built by version 0.0.9: pages not compared",)
    assert findings.pages is Pages.NOT_COMPARED


def test_pages_drawn_with_other_libraries_are_not_called_changed(drawn, crew, roster):
    def older(record):
        record["heading"]["libraries"] = ["pen 1.0"]
        record["outcome"]["sentence"] = "Everything was inside."

    findings = verify(signed(data_changed(drawn, older), crew), roster)
    assert findings.sound
    assert findings.notes == ("drawn with pen 1.0, not with what is here: pages not compared",)


def test_pages_are_left_alone_when_asked(drawn, crew, roster):
    findings = verify(made.closed_by_crew(drawn[1], crew.job), roster, compares_pages=False)
    assert findings.sound
    assert findings.pages is Pages.NOT_COMPARED
