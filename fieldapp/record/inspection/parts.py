"""Every part of the document by itself: none acts, none is drawn from elsewhere or in two ways.

What a viewer does with a part does not depend on how it is reached, so each is looked at where it
lies, however the parts lead to each other.
"""

from collections.abc import Iterator

from pyhanko.pdf_utils.generic import (
    ArrayObject,
    DictionaryObject,
    IndirectObject,
    PdfObject,
    StreamObject,
)
from pyhanko.pdf_utils.reader import PdfFileReader

_AGAIN = "ask the crew for the record as the tablet made it"
_ACTIONS = {  # ISO 32000-2, table 201, but for going to a page of the document itself
    *("/GoToR", "/GoToE", "/GoToDp", "/Launch", "/Thread", "/URI", "/Sound", "/Movie", "/Hide"),
    *("/Named", "/SubmitForm", "/ResetForm", "/ImportData", "/SetOCGState", "/Rendition"),
    *("/GoTo3DView", "/JavaScript", "/RichMediaExecute"),
}
_OTHERWISE = {"/Alternates", "/OC", "/OPI", "/Ref", "/PS"}
_ELSEWHERE = {"/F", "/FFilter", "/FDecodeParms"}


def part_findings(reader: PdfFileReader) -> Iterator[str]:
    """Return a finding for each thing that a part of the first revision does."""
    first = reader.get_historical_resolver(0)
    parts = (first.get_object(one) for one in reader.xrefs.explicit_refs_in_revision(0))
    found = {said for part in parts for entries in _entries_in(part) for said in _of(entries)}
    yield from (f"{said}; {_AGAIN}." for said in sorted(found))


def _entries_in(part: PdfObject) -> Iterator[DictionaryObject]:
    waiting = [part]
    while waiting:
        one = waiting.pop()
        if isinstance(one, DictionaryObject):
            yield one
            waiting += [one.raw_get(key) for key in one]
        elif isinstance(one, ArrayObject):
            waiting += [one.raw_get(place) for place in range(len(one))]


def _of(entries: DictionaryObject) -> Iterator[str]:
    kind = entries.raw_get("/S") if "/S" in entries else None
    if isinstance(kind, IndirectObject) or kind in _ACTIONS or "/JS" in entries:
        yield "The document holds something that acts when it is touched or opened"
    if isinstance(entries, StreamObject) and _ELSEWHERE & set(entries):
        yield "A part of the document is taken from another file"
    if _OTHERWISE & set(entries):
        yield "A part of the document can show itself in another way"
