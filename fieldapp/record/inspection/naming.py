"""What the parts of a document are called when somebody changed them."""

from collections.abc import Iterator

from pyhanko.pdf_utils.generic import ArrayObject, DictionaryObject, IndirectObject
from pyhanko.pdf_utils.reader import HistoricalResolver

from fieldapp.record.inspection.document import pages_of

Part = tuple[int, int]  # the number and the generation of an object of the file

_AT_OPENING = "what the document does when it is opened"
_ENTRIES = {
    "/OpenAction": _AT_OPENING,
    "/AA": _AT_OPENING,
    "/OCProperties": "its layers",
    "/Names": "the files and programs that it carries",
    "/AF": "the files that it carries",
    "/Pages": "its pages",
    "/Metadata": "its properties",
    "/AcroForm": "its fields",
    "/Perms": "what it permits",
    "/Rect": "where a signature field lies",
    "/AP": "how a signature field looks",
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
    yield "the document’s properties", _reached(before.trailer_view, "/Info")
    yield "the document’s properties", _reached(before.root, "/Metadata")
    fields = before.root["/AcroForm"]["/Fields"]
    for place in range(len(fields)):
        yield "a signature field", _in_place(fields, place)


def _reached(holder: DictionaryObject, *keys: str) -> set[Part]:
    """Return the parts that entries refer to."""
    values = [holder.raw_get(key) for key in keys if key in holder]
    return {(one.idnum, one.generation) for one in values if isinstance(one, IndirectObject)}


def _in_place(array: ArrayObject, place: int) -> set[Part]:
    value = array.raw_get(place)
    return {(value.idnum, value.generation)} if isinstance(value, IndirectObject) else set()
