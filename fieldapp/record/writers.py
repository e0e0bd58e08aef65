"""PDF writers that touch only what they are told to: no clock, no changed dates."""

from io import BytesIO

from pyhanko.pdf_utils.generic import ArrayObject, ByteStringObject
from pyhanko.pdf_utils.incremental_writer import IncrementalPdfFileWriter
from pyhanko.pdf_utils.writer import PdfFileWriter


class BaseWriter(PdfFileWriter):
    """Writes a whole file under an identifier that is given, so equal input gives equal bytes."""

    def __init__(self, identifier: bytes) -> None:
        super().__init__(stream_xrefs=False, init_page_tree=False)  # type: ignore[no-untyped-call]
        self._document_id = ArrayObject([ByteStringObject(identifier)] * 2)

    def _update_meta(self) -> None:
        """Keep the dates of the pages: the library would put the clock's time there."""


class RevisionWriter(IncrementalPdfFileWriter):
    """Adds one revision to a file that stays as it is, byte for byte."""

    def __init__(self, pdf: bytes) -> None:
        super().__init__(BytesIO(pdf))

    def _update_meta(self) -> None:
        """Keep the dates of the pages: a signature carries its own time."""
