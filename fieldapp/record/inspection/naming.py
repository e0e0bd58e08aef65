"""What the parts of a document are called when somebody changed them."""

from collections.abc import Iterator

from pyhanko.pdf_utils.generic import ArrayObject, DictionaryObject, IndirectObject
from pyhanko.pdf_utils.reader import HistoricalResolver

from fieldapp.record.inspection.document import pages_of

Part = tuple[int, int]  # the number and the generation of an object of the file

_AT_OPENING = "what the document does by itself"
_PAGES = "the order or number of the pages"
_FILES = "the files that the document carries"
_FIELDS = "the fields of the document"
_PROPERTIES = "the document’s properties"
_ENTRIES = {
    "/OpenAction": _AT_OPENING,
    "/AA": _AT_OPENING,
    "/OCProperties": "the layers of the document",
    "/DSS": "the certificates that the document carries",
    "/Collection": "the cover of the document",
    "/Names": _FILES,
    "/AF": _FILES,
    "/Pages": _PAGES,
    "/Metadata": _PROPERTIES,
    "/AcroForm": _FIELDS,
    "/Fields": _FIELDS,
    "/XFA": _FIELDS,
    "/Perms": "what the document permits",
    "/Rect": "where a signature field lies",
    "/AP": "how a signature field looks",
    "/T": "what a signature field is called",
    "/TU": "what a signature field is called",
    "/Lock": "what a signature locks",
}


def called(before: HistoricalResolver, replaced: set[Part], entries: set[str]) -> str:
    """Return in words what was replaced, as far as a reader of the document would see it."""
    known = [name for name, parts in _parts_in_words(before) if parts & replaced]
    words = [*dict.fromkeys(known), *([entries_called(entries)] if entries else [])]
    return ", ".join(words) or "parts of the document"


def entries_called(entries: set[str]) -> str:
    """Return in words which entries of the document’s list of contents, or of a field, changed."""
    return ", ".join(dict.fromkeys(_ENTRIES.get(one, one) for one in sorted(entries)))


def _parts_in_words(before: HistoricalResolver) -> Iterator[tuple[str, set[Part]]]:
    branches = before.root["/Pages"]
    for number, (own, page) in enumerate(pages_of(branches), start=1):
        drawn = _reached(page, "/Contents", "/Resources")
        used = _reached(page.get("/Resources", {}), "/Font", "/XObject")
        yield f"page {number}", drawn | used | {(own.idnum, own.generation)}
    listed = before.root["/Names"]["/EmbeddedFiles"]["/Names"]
    for place in range(1, len(listed), 2):
        file = _reached(listed[place]["/EF"], "/F") | _in_place(listed, place)
        yield "the attached record", file
    yield _PAGES, _reached(before.root, "/Pages")
    yield (
        _FILES,
        _reached(before.root, "/Names") | _reached(before.root["/Names"], "/EmbeddedFiles"),
    )
    yield _FILES, _reached(before.root["/Names"]["/EmbeddedFiles"], "/Names")
    yield _PROPERTIES, _reached(before.trailer_view, "/Info") | _reached(before.root, "/Metadata")
    fields = before.root["/AcroForm"]["/Fields"]
    yield (
        _FIELDS,
        _reached(before.root, "/AcroForm") | _reached(before.root["/AcroForm"], "/Fields"),
    )
    for place in range(len(fields)):
        yield "a signature field", _in_place(fields, place)


def _reached(holder: DictionaryObject, *keys: str) -> set[Part]:
    """Return the parts that entries refer to."""
    values = [holder.raw_get(key) for key in keys if key in holder]
    return {(one.idnum, one.generation) for one in values if isinstance(one, IndirectObject)}


def _in_place(array: ArrayObject, place: int) -> set[Part]:
    value = array.raw_get(place)
    return {(value.idnum, value.generation)} if isinstance(value, IndirectObject) else set()
