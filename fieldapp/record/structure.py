"""What a record holds beside its pages: the record as JSON, and two fields to sign in.

The fields lie over the place where a page draws the signatures of people; they draw nothing of
their own. Equal pages and equal JSON give equal bytes.
"""

import hashlib
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING, cast

if TYPE_CHECKING:
    from pyhanko.pdf_utils.generic import DictionaryObject
    from pyhanko.pdf_utils.reader import PdfFileReader
    from pyhanko.pdf_utils.writer import PdfFileWriter

ATTACHMENT = "record.json"
TECHNICIAN_FIELD = "Technician"
LEAD_FIELD = "CrewLead"
TECHNICIAN_MEANING = "Carried out and recorded as written"
LEAD_MEANING = "Reviewed and signed off"


@dataclass(frozen=True, slots=True)
class Box:
    """A place on a page, in points from its lower left corner; page 0 is the first, -1 the last."""

    page: int
    left: float
    bottom: float
    width: float
    height: float


def prepare(
    pages: bytes, record: bytes, technician: Box, lead: Box, *, language: str = "en-GB"
) -> bytes:
    """Return the PDF to sign: the pages with the record attached and both fields in place."""
    from pyhanko.pdf_utils.reader import PdfFileReader

    from fieldapp.record.writers import BaseWriter

    reader = PdfFileReader(BytesIO(pages))
    writer: PdfFileWriter = BaseWriter(hashlib.sha256(pages + record).digest()[:16])
    _copy(reader, writer)
    _set_catalogue(writer, language)
    _attach(writer, record)
    _add_field(writer, TECHNICIAN_FIELD, "Signature of the technician", technician)
    _add_field(writer, LEAD_FIELD, "Signature of the crew lead", lead)
    written = BytesIO()
    writer.write(written)
    return written.getvalue()


def attachments(catalogue: "DictionaryObject") -> list[tuple[str, bytes]]:
    """Return name and content of every attachment that a catalogue lists."""
    listed = catalogue["/Names"]["/EmbeddedFiles"]["/Names"]
    files = ((listed[place], listed[place + 1]) for place in range(0, len(listed), 2))
    return [(str(name), file["/EF"]["/F"].data) for name, file in files]


def _copy(reader: "PdfFileReader", writer: "PdfFileWriter") -> None:
    writer.root.update(cast("DictionaryObject", writer.import_object(reader.root)))
    info = reader.trailer_view["/Info"]
    writer.set_info(writer.add_object(writer.import_object(info)))


def _set_catalogue(writer: "PdfFileWriter", language: str) -> None:
    from pyhanko.pdf_utils.generic import BooleanObject, DictionaryObject, pdf_name, pdf_string
    from pyhanko.sign.signers.constants import ESIC_EXTENSION_1

    writer.root[pdf_name("/Lang")] = pdf_string(language)
    viewing = writer.root.setdefault(pdf_name("/ViewerPreferences"), DictionaryObject())
    viewing[pdf_name("/DisplayDocTitle")] = BooleanObject(value=True)
    # Declared here and not when signing, so that a signature leaves the catalogue alone.
    writer.register_extension(ESIC_EXTENSION_1)


def _attach(writer: "PdfFileWriter", record: bytes) -> None:
    from pyhanko.pdf_utils.embed import (
        EmbeddedFileObject,
        EmbeddedFileParams,
        FileSpec,
        embed_file,
    )
    from pyhanko.pdf_utils.generic import ArrayObject, pdf_name

    content = EmbeddedFileObject.from_file_data(
        writer, record, params=EmbeddedFileParams(), mime_type="application/json"
    )
    description = f"The record in figures; SHA-256 {hashlib.sha256(record).hexdigest()}"
    embed_file(writer, FileSpec(ATTACHMENT, ATTACHMENT, content, description))
    # The library would raise the file to PDF 2.0 for these two entries, which many viewers of
    # today do not know; ISO 19005-3 has them in PDF 1.7.
    names = writer.root["/Names"]["/EmbeddedFiles"]["/Names"]
    names[1][pdf_name("/AFRelationship")] = pdf_name("/Data")
    writer.root[pdf_name("/AF")] = ArrayObject([names.raw_get(1)])


def _add_field(writer: "PdfFileWriter", name: str, meaning: str, box: Box) -> None:
    from pyhanko.sign.fields import (
        FieldMDPAction,
        FieldMDPSpec,
        MDPPerm,
        SigFieldSpec,
        append_signature_field,
    )

    corners = (box.left, box.bottom, box.left + box.width, box.bottom + box.height)
    locks = name == LEAD_FIELD
    field = SigFieldSpec(
        name,
        on_page=box.page,
        box=corners,  # type: ignore[arg-type]
        readable_field_name=meaning,
        field_mdp_spec=FieldMDPSpec(FieldMDPAction.ALL) if locks else None,
        doc_mdp_update_value=MDPPerm.NO_CHANGES if locks else None,
    )
    append_signature_field(writer, field)
