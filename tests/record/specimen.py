"""A small record of an invented job, an invented crew, and the ways a forger would go about it."""

import json
from datetime import UTC, datetime, timedelta
from functools import cache
from io import BytesIO

from pyhanko.pdf_utils.generic import ArrayObject, DictionaryObject, StreamObject
from pyhanko.sign.fields import FieldMDPAction, FieldMDPSpec, MDPPerm
from pyhanko.sign.signers.cms_embedder import SigMDPSetup
from reportlab.pdfgen.canvas import Canvas

from fieldapp.crew.authority import enrol, found_authority, new_key, revocation_list
from fieldapp.crew.people import Role, Signer, person_of
from fieldapp.crew.roster import Roster
from fieldapp.record.issuing import signed_record
from fieldapp.record.sealing import DIGEST, sealed
from fieldapp.record.signing import sign_as_lead, sign_as_technician
from fieldapp.record.structure import (
    LEAD_FIELD,
    LEAD_MEANING,
    TECHNICIAN_FIELD,
    TECHNICIAN_MEANING,
    Box,
    prepare,
)
from fieldapp.record.writers import RevisionWriter

FOUNDED = datetime(2026, 3, 2, 7, 30, tzinfo=UTC)
SIGNED = datetime(2026, 5, 4, 12, 0, tzinfo=UTC)
CLOSED = datetime(2026, 5, 4, 12, 9, tzinfo=UTC)
HEAD = "ab" * 32
BOXES = (Box(-1, 60, 100, 200, 50), Box(-1, 300, 100, 200, 50))


@cache
def pages():
    written = BytesIO()
    canvas = Canvas(written, invariant=1, pageCompression=0)
    canvas.setTitle("Record R-0417")
    for page in range(2):
        canvas.drawString(60, 700, f"Page {page + 1} of 2: leak rate 0.012 Pa m3/s")
        canvas.showPage()
    canvas.save()
    return written.getvalue()


def record(**changed):
    """Return the data of a record that an earlier version made: its pages are not compared."""
    whole = {
        "heading": {"number": "R-0417", "revision": 1, "program": "fieldapp 0.0.1"},
        "journal": {"hash": HEAD, "sequence": 77, "events": 77},
        "leak_rate": "0.012",
        "signatures": [
            {"role": "technician", "name": "Ada Moor", "at": SIGNED.isoformat(), "head": HEAD},
            {"role": "crew lead", "name": "Bo Lind", "at": CLOSED.isoformat(), "head": HEAD},
        ],
    }
    return json.dumps({**whole, **changed}).encode()


RECORD = record()


@cache
def document():
    return prepare(pages(), RECORD, *BOXES)


def document_of(**changed):
    """Return a document whose attached data says something else."""
    return prepare(pages(), record(**changed), *BOXES)


@cache
def office():
    return found_authority("Example grid office", FOUNDED)


def signer(name, role, *, by=None, key=None, at=FOUNDED):
    by = by or office()
    key = key or new_key()
    return Signer(person_of(enrol(by, name, role, key.public_key(), at)), key, by.certificate)


@cache
def technician():
    return signer("Ada Moor", Role.TECHNICIAN)


@cache
def lead():
    return signer("Bo Lind", Role.CREW_LEAD)


def roster(*revoked, by=None, lasts=timedelta(days=365)):
    by = by or office()
    issued = revocation_list(by, revoked, number=1, at=FOUNDED, next_update=FOUNDED + lasts)
    return Roster(by.certificate, issued)


@cache
def signed():
    return sign_as_technician(document(), technician(), SIGNED)


@cache
def closed():
    return sign_as_lead(signed(), lead(), CLOSED)


def closed_by_crew(pdf, job):
    """Return the pages of a job signed by the two who signed it off, as they did."""
    people = [
        signer(job.state.signature(role.value).by, role)
        for role in (Role.TECHNICIAN, Role.CREW_LEAD)
    ]
    return signed_record(pdf, job, people)


def leave(writer):
    """Change nothing."""


def swap_page(writer):
    """Put other content on the first page."""
    page = writer.root["/Pages"]["/Kids"][0]
    page["/Contents"] = writer.add_object(other_figures())
    writer.update_container(page)


def swap_stream(writer):
    """Write other content in the place of the first page's own."""
    kept = writer.root["/Pages"]["/Kids"][0].raw_get("/Contents")
    writer.objects[(kept.generation, kept.idnum)] = other_figures()


def swap_attachment(writer):
    """Write another record in the place of the attached one."""
    attached = writer.root["/Names"]["/EmbeddedFiles"]["/Names"][1]["/EF"].raw_get("/F")
    other = StreamObject(stream_data=RECORD.replace(b"0.012", b"0.002"))
    writer.objects[(attached.generation, attached.idnum)] = other


def open_with_action(writer):
    """Let the document do something when it is opened."""
    writer.root["/OpenAction"] = ArrayObject([writer.root["/Pages"]["/Kids"].raw_get(1)])
    writer.update_root()


def add_loose_object(writer):
    """Carry along something that nothing refers to."""
    writer.add_object(other_figures())


def grant_rights(writer):
    """Let the catalogue grant more than the certification does."""
    writer.root["/Perms"] = DictionaryObject({"/UR3": writer.root.raw_get("/AcroForm")})


def move_field(writer):
    """Move the technician's field to another place."""
    field = writer.root["/AcroForm"]["/Fields"][0]
    field["/Rect"][0], field["/Rect"][2] = field["/Rect"][2], field["/Rect"][0]
    writer.update_container(field)


def drop_font(writer):
    """Take away the font of the pages."""
    fonts = writer.root["/Pages"]["/Kids"][0]["/Resources"].raw_get("/Font")
    writer.objects[(fonts.generation, fonts.idnum)] = DictionaryObject()


def sign_over_font(writer):
    """Put the signature in the place of the font of the pages."""
    fonts = writer.root["/Pages"]["/Kids"][0]["/Resources"].raw_get("/Font")

    def put(signature):
        signature.container_ref = fonts.reference
        writer.objects[(fonts.generation, fonts.idnum)] = signature
        return fonts

    writer.add_object = put


def other_figures():
    return StreamObject(stream_data=b"BT /F1 12 Tf 60 700 Td (leak rate 0.002 Pa m3/s) Tj ET")


def revised(pdf, edit):
    """Add a revision that nobody signs."""
    writer = RevisionWriter(pdf)
    edit(writer)
    written = BytesIO()
    writer.write(written)
    return written.getvalue()


def certifying(permission):
    return SigMDPSetup(DIGEST, certify=True, docmdp_perms=permission)


def forged_technician(pdf, edit=leave, by=None, at=SIGNED, rules=None):
    """Sign for the technician past every refusal, with an edit slipped in."""
    writer = RevisionWriter(pdf)
    edit(writer)
    rules = rules or certifying(MDPPerm.FILL_FORMS)
    return sealed(writer, TECHNICIAN_FIELD, by or technician(), at, TECHNICIAN_MEANING, rules)


def forged_lead(pdf, edit=leave, by=None, at=CLOSED, rules=None):
    """Sign for the lead past every refusal, with an edit slipped in."""
    writer = RevisionWriter(pdf)
    edit(writer)
    lock = FieldMDPSpec(FieldMDPAction.ALL)
    rules = rules or SigMDPSetup(DIGEST, field_lock=lock, docmdp_perms=MDPPerm.NO_CHANGES)
    return sealed(writer, LEAD_FIELD, by or lead(), at, LEAD_MEANING, rules)
