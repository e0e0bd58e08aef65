"""How the bytes of a file lie: whole, nothing after the end, every part listed in one way only."""

from collections import Counter
from collections.abc import Iterator
from io import BytesIO

from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.pdf_utils.xref import XRefSectionType, parse_xref_table

_END = b"%%EOF\n"
_AGAIN = "get it again from who sent it"


def end_findings(pdf: bytes) -> Iterator[str]:
    """Check that the file ends where the document does."""
    if not pdf.endswith(_END):
        yield (
            "The file does not end where the document ends: it was cut short, or something was "
            f"added after its end; {_AGAIN}."
        )


def listing_findings(pdf: bytes, reader: PdfFileReader) -> Iterator[str]:
    """Check that each revision lists its parts once, in the one way in which we write.

    Where a part is listed twice, or in two lists, one viewer shows this and another that.
    """
    if "/Encrypt" in reader.trailer:
        yield f"The file was locked with a password; records never are; {_AGAIN}."
    sections = [
        reader.xrefs.get_xref_container_info(number)
        for number in range(reader.xrefs.total_revisions)
    ]
    if any(one.xref_section_type is not XRefSectionType.STANDARD for one in sections):
        yield (
            "The file lists its parts in another way than ours, so that two viewers can show "
            f"different pages; {_AGAIN}."
        )
    elif any(_lists_twice(pdf, one.start_location) for one in sections):
        yield (
            f"The file lists a part twice, so that two viewers can show different pages; {_AGAIN}."
        )


def _lists_twice(pdf: bytes, begins: int) -> bool:
    table = BytesIO(pdf)
    table.seek(begins)
    entries = Counter(entry.idnum for entry in parse_xref_table(table, strict=True))
    return max(entries.values(), default=0) > 1
